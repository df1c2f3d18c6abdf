import type { ChangedUnit } from "../../../db/changes.ts";
import { changeCauses } from "../../../lib/changes/causes.ts";
import { compareStandings, type UnitChange } from "../../../lib/changes/compare.ts";
import type { ChangeFrame } from "../../../lib/schema/changes.ts";
import { sentenceWords } from "../../../lib/wording.ts";

/** A unit that changed, with what of it did and why. */
export interface ToldChange extends ChangedUnit {
  readonly change: UnitChange;
  /** Parts of a sentence in the canonical wording, the likeliest first. */
  readonly why: readonly string[];
}

export const toldChange = (unit: ChangedUnit, frame: ChangeFrame): ToldChange => ({
  ...unit,
  change: compareStandings(unit.was, unit.now, frame),
  why: whyOf(unit).map((words, i) => (i === 0 ? sentenceWords(words) : words)),
});

function whyOf({ was, now, leftBecause }: ChangedUnit): readonly string[] {
  if (now === null) {
    return [
      leftBecause === "undo" ? "an import was undone, and nothing else is known of it" : "nothing is known of it",
    ];
  }
  if (was !== null) return changeCauses(was, now).map(({ words }) => words);
  return [now.because === "import" ? "came with an import" : "known of now, and not then"];
}
