import type { JudgementFact, TestFact } from "./schema/facts.ts";

type Named = Pick<TestFact, "unit" | "date" | "test" | "attempt" | "instrument">;
type Judged = Named & Pick<JudgementFact, "cylinder" | "verdict">;

const keyOf = ({ unit, date, test, attempt, instrument }: Named): string =>
  JSON.stringify([unit, date, test, attempt, instrument]);

/**
 * Which tests and readings a person withdrew, for they were told in error: they stay on file and are shown, but neither
 * readings nor meter, day or engine of them are known. `judgements`: those that hold, one for each test or cylinder.
 */
export function withdrawnBy(judgements: readonly Judged[]) {
  const whole = new Set<string>();
  const cylinders = new Map<string, Set<number>>();
  for (const judgement of judgements) {
    if (judgement.verdict !== "withdrawn") continue;
    const key = keyOf(judgement);
    if (judgement.cylinder === null) whole.add(key);
    else cylinders.set(key, (cylinders.get(key) ?? new Set()).add(judgement.cylinder));
  }
  const isWithdrawn = (test: Named): boolean => whole.size > 0 && whole.has(keyOf(test));
  /** The test without its withdrawn readings; null: nothing is left of it. */
  const left = <T extends Named & Pick<TestFact, "readings">>(test: T): T | null => {
    if (isWithdrawn(test)) return null;
    const gone = cylinders.size === 0 ? undefined : cylinders.get(keyOf(test));
    if (gone === undefined) return test;
    const readings = test.readings.filter(({ cylinder }) => !gone.has(cylinder));
    return readings.length === 0 ? null : { ...test, readings };
  };
  /** Whether it says something of a test or reading that counts. */
  const counts = (judgement: Judged): boolean =>
    judgement.verdict !== "withdrawn" && !isWithdrawn(judgement) && !isOfGone(judgement);
  const isOfGone = (judgement: Judged): boolean =>
    judgement.cylinder !== null && cylinders.get(keyOf(judgement))?.has(judgement.cylinder) === true;
  return { isWithdrawn, left, counts };
}
