import type { AltitudeTold } from "../../../db/depot-overview.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { AppLink } from "../app-link.client.tsx";
import { CsvLink } from "../csv-link.tsx";
import { HistoryTable } from "../history-table.tsx";
import { importAddress } from "../import/address.ts";
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
    <>
      <HistoryTable name={`Altitudes told of ${depot}`} heads={["Altitude", "Kept as"]} does="Put back">
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
      </HistoryTable>
      <p className="history-file no-print">
        <CsvLink href={`${depotAddress(depot)}/csv/altitudes`} of={`altitudes of ${depot}`} />
      </p>
    </>
  );
}
