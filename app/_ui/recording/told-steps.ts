import { type TestEvent, testHistoryKey } from "../../../db/test-history.ts";
import type { TestLine } from "../../../lib/schema/report.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { sentenceWords } from "../../../lib/wording.ts";
import { whenWords } from "../when.ts";
import { historySteps } from "./test-words.ts";

/** A step in the history of a test as one sentence. */
export interface ToldStep {
  readonly key: string;
  readonly says: string;
}

/** What was done to a test since it was entered, each step with who, when and why. */
export const toldSteps =
  (histories: ReadonlyMap<string, readonly TestEvent[]>, f: Formats, timeZone: string) =>
  ({ unit, date, measure, attempt, instrument }: TestLine): readonly ToldStep[] => {
    const events = histories.get(testHistoryKey({ unit, date, test: measure, attempt, instrument })) ?? [];
    return historySteps(events, f)
      .slice(1)
      .map(({ key, what, why, by, at, undone }) => ({
        key,
        says: [
          `${sentenceWords(what)}, by ${by}, ${whenWords(f, timeZone, at)}`,
          ...(why === null ? [] : [why]),
          ...(undone === null ? [] : [`undone by ${undone.by}`]),
        ].join(": "),
      }));
  };
