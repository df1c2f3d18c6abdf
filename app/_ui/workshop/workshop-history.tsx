import type { WorkshopTold } from "../../../db/workshop.ts";
import { type Workshop, workshopSchema } from "../../../lib/schema/workshop.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { ChangeCells, type ChangeLine } from "../change-cells.tsx";
import { CsvLink } from "../csv-link.tsx";
import { EmptyState } from "../empty-state.tsx";
import { HistoryTable } from "../history-table.tsx";
import { PutBack } from "../put-back.client.tsx";
import { Sheet } from "../sheet.tsx";
import { whenWords } from "../when.ts";
import { putBackWorkshop } from "./workshop-actions.ts";
import { workshopChanges } from "./workshop-words.ts";

/** Who told what of prices and workshops, newest first; each state can be put back. */
export function WorkshopHistory(props: {
  readonly f: Formats;
  /** One more than is shown, where there are more. */
  readonly history: readonly WorkshopTold[];
  readonly shown: number;
  readonly timeZone: string;
  readonly mayChange: boolean;
}) {
  const { f, history, shown, timeZone, mayChange } = props;
  const [latest] = history;
  return (
    <Sheet
      title="Who told what"
      note="What is put back is one more change."
      controls={
        latest !== undefined && <CsvLink href="/settings/workshop.csv" of="all changes of prices and workshops" />
      }
      long
    >
      {latest === undefined ? (
        <EmptyState says="Nobody told prices yet: all are as by default." />
      ) : (
        <HistoryTable name="Changes of prices and workshops" heads={["What"]} does="Put back">
          {history.slice(0, shown).map((change, i) => {
            const older = history[i + 1];
            const changes = workshopChanges(f, older?.workshop ?? defaults, change.workshop);
            return (
              <tr key={change.id}>
                <td>{whenWords(f, timeZone, change.at ?? "")}</td>
                <td>{change.by}</td>
                <td>
                  <Changes f={f} changes={changes} />
                </td>
                <td className="no-print">
                  {mayChange && (
                    <PutBack
                      action={putBackWorkshop.bind(null, older?.id ?? 0, latest.id)}
                      thing="prices and workshops"
                      label={i === 0 ? "Undo this" : "Back to before this"}
                      what={`the change of ${whenWords(f, timeZone, change.at ?? "")}`}
                    />
                  )}
                </td>
              </tr>
            );
          })}
        </HistoryTable>
      )}
      {history.length > shown && <p className="second">Older changes are kept, not shown.</p>}
    </Sheet>
  );
}

/** More lines than these are opened by whoever wants them. */
const linesShown = 5;

function Changes({ f, changes }: { readonly f: Formats; readonly changes: readonly ChangeLine[] }) {
  if (changes.length === 0) return <>saved without a change</>;
  if (changes.length <= linesShown) return <ChangeCells changes={changes} />;
  return (
    <details>
      <summary>{f.number(changes.length)} values</summary>
      <ChangeCells changes={changes} />
    </details>
  );
}

const defaults: Workshop = workshopSchema.parse({});
