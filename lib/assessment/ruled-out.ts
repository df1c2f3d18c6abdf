import { judgementOf } from "../condition/judgement-of.ts";
import { worseSign } from "../condition/series.ts";
import { judgedMeasures } from "../schema/words.ts";
import { dateWords, kpaWords, numberWords } from "../wording.ts";
import type { EngineState } from "./engine.ts";
import { roundedReading } from "./rounding.ts";

/** So many standard deviations of a reading beyond its level call for a second look. Judgement. */
const farBeyond = 2.5;

/**
 * Questions about rulings that leave a cylinder's last reading unexplained: a person said that no fault had begun by it, and it
 * stands far on the bad side of the level that is left. The forecast keeps to the ruling; somebody should know what it costs.
 */
export function ruledOutQuestions({ conditioned, cylinders, wear }: EngineState): readonly string[] {
  return judgedMeasures.flatMap((measure) => {
    const tests = conditioned.tests.map(({ test }) => test).filter((test) => test.measure === measure);
    return cylinders.flatMap(({ diagnosis: { cylinder }, measures }): string[] => {
      const test = tests.findLast((one) => one.readings.some((reading) => reading.cylinder === cylinder));
      const ruling = test === undefined ? undefined : judgementOf(test, cylinder);
      const { latest, levelAtLastTest: level } = measures.find((of) => of.measure === measure)?.wear ?? {};
      if (test === undefined || ruling?.verdict !== "no-fault" || latest == null || level == null) return [];
      const { testSd, readingSd, readingShare } = wear[measure].pool;
      if (latest - level < farBeyond * Math.hypot(testSd, readingSd, readingShare * level)) return [];
      const told = (badness: number) => {
        const value = roundedReading(measure, worseSign[measure] * badness);
        return measure === "leak-down" ? `${numberWords(value)} %` : kpaWords(value);
      };
      return [
        `Cylinder ${cylinder} read ${told(latest)} on ${dateWords(test.date)}, and ${ruling.by} says that no fault had begun: the forecast takes that reading for an error and goes on from ${told(level)}. Test again, or judge it anew.`,
      ];
    });
  });
}
