import { isAccepted } from "../condition/judgement-of.ts";
import type { Doubt } from "../condition/types.ts";
import type { UnitAssessment } from "../schema/assessment.ts";
import { type JudgedMeasure, judgedMeasures } from "../schema/words.ts";
import { cylinderWords, sentenceWords } from "../wording.ts";
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
 * so that its level rests on the tests before; or it takes back what the test before it alone had found; or it is the only
 * test there is and stands past the limit, before an engine is opened by it. One entry a doubt;
 * `cylinder` is the first of those that it is of, null where it is of the whole test.
 */
export function lastReadingsInDoubt(state: EngineState): UnitAssessment["inDoubt"] {
  const { conditioned } = state;
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
    return [...found, ...takenBack, ...onlyTestPastLimit(state, measure)].map(({ cylinder, words }) => ({
      measure,
      cylinder,
      words: `Last ${testNames[measure]}, ${words}`,
    }));
  });
}

/** Cylinders that their only test puts past the limit, unless a person accepted it: all of them as one. */
function onlyTestPastLimit(
  { conditioned: { history }, cylinders }: EngineState,
  measure: JudgedMeasure,
): readonly { readonly cylinder: number | null; readonly words: string }[] {
  const tests = history.tests.filter((test) => test.measure === measure);
  const [only] = tests;
  if (only === undefined || tests.length > 1) return [];
  const past = cylinders.flatMap(({ diagnosis: { cylinder }, measures }) => {
    const isPast = measures.some((of) => of.measure === measure && of.crossed);
    return isPast && !isAccepted(only, cylinder) ? [cylinder] : [];
  });
  const [first] = past;
  if (first === undefined) return [];
  const isAll = past.length === only.readings.length;
  const which = isAll && past.length > 1 ? "all cylinders" : cylinderWords(past);
  const one = past.length === 1;
  return [
    {
      cylinder: isAll ? null : first,
      words: `the only one so far, puts ${which} past ${one ? "its" : "their"} limit: test again now, before anything is opened`,
    },
  ];
}

/** The doubts as one sentence each. */
export const inDoubtSentences = (inDoubt: UnitAssessment["inDoubt"]): string =>
  inDoubt.map(({ words }) => `${sentenceWords(words).replace(/[.?]$/, "")}.`).join(" ");
