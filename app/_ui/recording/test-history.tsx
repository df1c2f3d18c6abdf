import type { TestEvent } from "../../../db/test-history.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { sentenceWords } from "../../../lib/wording.ts";
import { HistoryTable } from "../history-table.tsx";
import { whenWords } from "../when.ts";
import { historySteps } from "./test-words.ts";
import { ToldRow } from "./told-row.tsx";

/** Who told and judged a test, when and why; each step belongs to an import, whose page can undo it. */
export function TestHistory(props: {
  readonly f: Formats;
  readonly name: string;
  readonly events: readonly TestEvent[];
  readonly timeZone: string;
}) {
  const { f, name, events, timeZone } = props;
  const steps = historySteps(events, f).toReversed();
  if (steps.length === 0) return <p className="second">Entered once, never corrected, never judged by a person.</p>;
  return (
    <HistoryTable name={name} heads={["What", "Why"]} does="Undo">
      {steps.map(({ key, what, why, undone, ...told }) => (
        <ToldRow
          key={key}
          f={f}
          timeZone={timeZone}
          told={told}
          what={sentenceWords(what)}
          why={why}
          undone={undone === null ? null : `${undone.by}, ${whenWords(f, timeZone, undone.at)}`}
        />
      ))}
    </HistoryTable>
  );
}
