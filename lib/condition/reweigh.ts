import { judgementOf } from "./judgement-of.ts";
import type { ConditionedEngine, Doubt } from "./types.ts";

/** What is done with tests that the program doubts: as it weighs them, all in full, or none at all. */
export type DoubtfulTests = "weighed" | "in-full" | "left-out";

/** Set-up and signature doubts: a repeat of the same day and a break-in are no fault of a test, and a person's word stands. */
export const isDoubtful = ({ code, weight }: Doubt): boolean =>
  weight < 1 && code !== "repeated-the-same-day" && code !== "break-in" && code !== "set-aside";

/**
 * The engine with its doubtful readings counted in full, or left out, to tell what hangs on them. What a person accepted or
 * set aside stays as it is.
 */
export function reweighed(conditioned: ConditionedEngine, doubtful: DoubtfulTests): ConditionedEngine {
  if (doubtful === "weighed") return conditioned;
  return {
    ...conditioned,
    tests: conditioned.tests.map((of) => ({
      ...of,
      weights: of.weights.map((weight, r) => {
        const { cylinder } = of.test.readings[r] as (typeof of.test.readings)[number];
        const its = of.doubts.filter((d) => d.cylinder === null || d.cylinder === cylinder);
        if (judgementOf(of.test, cylinder) !== undefined || !its.some(isDoubtful)) return weight;
        if (doubtful === "left-out") return 0;
        return its.filter((d) => !isDoubtful(d)).reduce((left, d) => left * d.weight, 1);
      }),
    })),
  };
}
