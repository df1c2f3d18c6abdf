import type { Doubt } from "../condition/types.ts";
import type { UnitAssessment } from "../schema/assessment.ts";
import { type JudgedMeasure, judgedMeasures } from "../schema/words.ts";
import { sentenceWords } from "../wording.ts";
import type { EngineState } from "./engine.ts";

/** A reading that weighs less than this is not relied on; said of the last one it asks for a repeat. */
const reliedOn = 0.5;

const testNames: Readonly<Record<JudgedMeasure, string>> = {
  "leak-down": "leak-down test",
  "compression-dry": "compression test",
};

/** Set-up and signature doubts alone: a repeat of the same day or a break-in needs nobody to test again. */
const asksForRepeat = ({ code }: Doubt) => code !== "repeated-the-same-day" && code !== "break-in";

/**
 * Last readings that are not relied on: what was measured last of a cylinder is doubtful and no later reading settles it,
 * so that its level rests on the tests before; or it takes back what the test before it alone had found. One entry a doubt;
 * `cylinder` is the first of those that it is of, null where it is of the whole test.
 */
export function lastReadingsInDoubt({ conditioned }: EngineState): UnitAssessment["inDoubt"] {
  return judgedMeasures.flatMap((measure) => {
    const tests = conditioned.tests.filter(({ test }) => test.measure === measure);
    const found = new Set<Doubt>();
    for (let cylinder = 1; cylinder <= conditioned.history.model.cylinders; cylinder++) {
      const last = tests.findLast(({ test }) => test.readings.some((r) => r.cylinder === cylinder));
      const reading = last?.test.readings.findIndex((r) => r.cylinder === cylinder) ?? -1;
      if (last === undefined || (last.weights[reading] ?? 1) >= reliedOn) continue;
      const its = last.doubts.filter((d) => d.cylinder === null || d.cylinder === cylinder);
      // A person has settled it.
      if (its.some(({ code }) => code === "set-aside")) continue;
      const heaviest = its.filter(asksForRepeat).toSorted((a, b) => a.weight - b.weight)[0];
      if (heaviest !== undefined) found.add(heaviest);
    }
    const takenBack = conditioned.contradictions
      .filter((contradiction) => contradiction.measure === measure)
      .map(({ cylinders: [first = null], words }) => ({ cylinder: first, words }));
    return [...found, ...takenBack].map(({ cylinder, words }) => ({
      measure,
      cylinder,
      words: `Last ${testNames[measure]}, ${words}`,
    }));
  });
}

/** The doubts as one sentence each. */
export const inDoubtSentences = (inDoubt: UnitAssessment["inDoubt"]): string =>
  inDoubt.map(({ words }) => `${sentenceWords(words).replace(/[.?]$/, "")}.`).join(" ");
