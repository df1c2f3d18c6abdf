import type { DepotChange } from "../../../db/depots.ts";
import { blankDepotSetup } from "../../../lib/schema/depot.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { CsvLink } from "../csv-link.tsx";
import { EmptyState } from "../empty-state.tsx";
import { HistoryTable } from "../history-table.tsx";
import { PutBack } from "../put-back.client.tsx";
import { Sheet } from "../sheet.tsx";
import { whenWords } from "../when.ts";
import { depotAddress } from "./address.ts";
import { putBackDepot } from "./depot-actions.ts";
import { setupChanges } from "./depot-words.ts";

/** Who told what of a depot, and when, newest first; each version can be put back. */
export function DepotHistory(props: {
  readonly f: Formats;
  readonly depot: string;
  readonly history: readonly DepotChange[];
  readonly timeZone: string;
  /** Whether the viewer gave a name to change things with. */
  readonly mayChange: boolean;
}) {
  const { f, depot, history, timeZone, mayChange } = props;
  const [latest] = history;
  return (
    <Sheet
      title="Who told what"
      note="Bays, technicians and the calendar. What is put back is one more change."
      controls={
        latest !== undefined && <CsvLink href={`${depotAddress(depot)}/csv/changes`} of={`changes of ${depot}`} />
      }
      long
    >
      {latest === undefined ? (
        <EmptyState says="Nobody told of its bays, technicians or weeks yet." />
      ) : (
        <HistoryTable name={`Changes of ${depot}`} heads={["What"]} does="Put back">
          {history.map((change, i) => {
            const before = history[i + 1]?.setup ?? blankDepotSetup;
            const changes = setupChanges(f, before, change.setup);
            return (
              <tr key={change.id}>
                <td>{whenWords(f, timeZone, change.at)}</td>
                <td>{change.by}</td>
                <td>{changes.length === 0 ? "saved without a change" : changes.join("; ")}</td>
                <td className="no-print">
                  {mayChange && (
                    <PutBack
                      action={putBackDepot.bind(null, depot, history[i + 1]?.id ?? null, latest.id)}
                      thing="this depot"
                      label={i === 0 ? "Undo this" : "Back to before this"}
                      what={`${changes.join("; ")}, ${whenWords(f, timeZone, change.at)}`}
                    />
                  )}
                </td>
              </tr>
            );
          })}
        </HistoryTable>
      )}
    </Sheet>
  );
}
