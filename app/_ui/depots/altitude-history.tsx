import type { AltitudeTold } from "../../../db/depot-overview.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { AppLink } from "../app-link.client.tsx";
import { importAddress } from "../import/address.ts";
import { ScrollBox } from "../unit/scroll-box.tsx";
import { whenWords } from "../when.ts";
import { depotAddress } from "./address.ts";
import { metres } from "./depot-words.ts";

/** Who told which altitude, and when; each belongs to an import, whose page can undo it. */
export function AltitudeHistory(props: {
  readonly f: Formats;
  readonly depot: string;
  readonly told: readonly AltitudeTold[];
  readonly known: number | null;
  readonly timeZone: string;
  readonly mayChange: boolean;
}) {
  const { f, depot, told, known, timeZone, mayChange } = props;
  if (told.length === 0) return <p className="second">Nobody told it yet.</p>;
  return (
    <ScrollBox name={`Altitudes told of ${depot}`}>
      <table className="data-table history-table">
        <thead>
          <tr>
            <th scope="col">When</th>
            <th scope="col">Who</th>
            <th scope="col">Altitude</th>
            <th scope="col">Kept as</th>
            <th scope="col" className="no-print">
              <span className="visually-hidden">Put back</span>
            </th>
          </tr>
        </thead>
        <tbody>
          {told.map(({ importId, altitudeM, by, at, undoneBy }) => (
            <tr key={importId}>
              <td>{whenWords(f, timeZone, at)}</td>
              <td>{by}</td>
              <td>{altitudeM === null ? "not told" : metres(f, altitudeM)}</td>
              <td>
                <AppLink href={importAddress(importId)} aria-label={`Import of ${whenWords(f, timeZone, at)}`}>
                  import
                </AppLink>
                {undoneBy !== null && `, undone by ${undoneBy}`}
              </td>
              <td className="no-print">
                {mayChange && altitudeM !== null && altitudeM !== known && (
                  <AppLink
                    href={`${depotAddress(depot)}?altitude=${altitudeM}`}
                    className="history-link"
                    aria-label={`Put back ${metres(f, altitudeM)}`}
                  >
                    Put back
                  </AppLink>
                )}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </ScrollBox>
  );
}
