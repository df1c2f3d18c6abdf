import type { TestEvent } from "../../../db/test-history.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { sentenceWords } from "../../../lib/wording.ts";
import { AppLink } from "../app-link.client.tsx";
import { HistoryTable } from "../history-table.tsx";
import { importAddress } from "../import/address.ts";
import { whenWords } from "../when.ts";
import { historySteps } from "./test-words.ts";

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
      {steps.map(({ key, importId, what, why, by, at, undone }) => (
        <tr key={key}>
          <td>{whenWords(f, timeZone, at)}</td>
          <td>{by}</td>
          <td>{sentenceWords(what)}</td>
          <td>
            {why}
            {undone !== null && ` (undone by ${undone.by}, ${whenWords(f, timeZone, undone.at)})`}
          </td>
          <td className="no-print">
            <AppLink href={importAddress(importId)} aria-label={`Import of ${whenWords(f, timeZone, at)}`}>
              {undone === null ? "See or undo it" : "See it"}
            </AppLink>
          </td>
        </tr>
      ))}
    </HistoryTable>
  );
}
