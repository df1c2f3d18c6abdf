import type { IsoDate } from "../schema/facts.ts";
import type { UnitReport, WindowDates } from "../schema/report.ts";
import { sentenceWords } from "../wording.ts";
import { windowWords } from "./finding.ts";
import type { RepairWindows } from "./unit.ts";

const isForeseen = ({ p10 }: WindowDates): boolean => p10 !== null;

/** The model's windows as a report keeps them: only where sister engines were tested, and where any is foreseen. */
export function fromModelOf(
  { fromModel }: RepairWindows,
  { sisters }: { readonly sisters: number },
): UnitReport["fromModel"] {
  const { topEnd, bottomEnd } = fromModel;
  return sisters > 0 && (isForeseen(topEnd) || isForeseen(bottomEnd)) ? fromModel : null;
}

/**
 * The model's windows as a sentence, for beside how sure a forecast is: "Going by sister engines alone: top-end repair likely
 * between Mar 2027 and Sep 2029, most likely Jun 2028." null: nothing to tell.
 */
export function fromModelWords(fromModel: UnitReport["fromModel"], asOf: IsoDate): string | null {
  if (fromModel === null) return null;
  const told = [
    ["top-end", fromModel.topEnd],
    ["bottom-end", fromModel.bottomEnd],
  ] as const;
  const parts = told
    .filter(([, dates]) => isForeseen(dates))
    .map(([part, { p10, p50, p90 }]) => `${part} repair ${windowWords({ date: { p10, p50, p90 } }, asOf)}`);
  const [first = "", ...more] = parts;
  return [
    `Going by sister engines alone: ${first}.`,
    ...more.map((words) => `${sentenceWords(words)}.`),
    "Nothing is due by that.",
  ].join(" ");
}
