import type { StatusTold } from "../../../db/status-history.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { sentenceWords } from "../../../lib/wording.ts";
import { AppLink } from "../app-link.client.tsx";
import { HistoryTable } from "../history-table.tsx";
import { importAddress } from "../import/address.ts";
import { statusWords } from "../status-words.ts";
import { whenWords } from "../when.ts";

/** Who stopped, released and retired a unit, when and why. */
export function StatusHistory(props: {
  readonly f: Formats;
  readonly unit: string;
  readonly told: readonly StatusTold[];
  readonly timeZone: string;
}) {
  const { f, unit, told, timeZone } = props;
  if (told.length === 0) return <p className="second">Nobody told a status yet: the unit is taken to be in service.</p>;
  return (
    <HistoryTable name={`Status of ${unit}`} heads={["Status", "Why"]} does="Undo">
      {told.map(({ importId, status, reason, by, at, undoneBy }) => (
        <tr key={importId}>
          <td>{whenWords(f, timeZone, at)}</td>
          <td>{by}</td>
          <td>{sentenceWords(statusWords[status])}</td>
          <td>
            {reason ?? "not told"}
            {undoneBy !== null && ` (undone by ${undoneBy})`}
          </td>
          <td className="no-print">
            <AppLink href={importAddress(importId)} aria-label={`Import of ${whenWords(f, timeZone, at)}`}>
              {undoneBy === null ? "See or undo it" : "See it"}
            </AppLink>
          </td>
        </tr>
      ))}
    </HistoryTable>
  );
}
