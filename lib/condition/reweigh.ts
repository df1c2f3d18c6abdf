import type { SealedTest } from "../sealing/types.ts";
import { judgementOf } from "./judgement-of.ts";
import type { ConditionedEngine, Doubt } from "./types.ts";

/** What is done with tests that the program doubts: as it weighs them, all in full, or none at all. */
export type DoubtfulTests = "weighed" | "in-full" | "left-out";

/** Set-up and signature doubts: a repeat of the same day and a break-in are no fault of a test, and a person's word stands. */
export const isDoubtful = ({ code, weight }: Doubt): boolean =>
  weight < 1 && code !== "repeated-the-same-day" && code !== "break-in" && code !== "set-aside";

/**
 * The engine with its doubtful readings counted in full, as though a person had accepted them, or left out, to tell what
 * hangs on them. What a person accepted or set aside stays as it is.
 */
export function reweighed(conditioned: ConditionedEngine, doubtful: DoubtfulTests): ConditionedEngine {
  if (doubtful === "weighed") return conditioned;
  return {
    ...conditioned,
    tests: conditioned.tests.map((of) => ({
      ...of,
      test: doubtful === "in-full" ? accepted(of) : of.test,
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

function accepted({ test, doubts }: ConditionedEngine["tests"][number]): SealedTest {
  const taken = test.readings.flatMap(({ cylinder }) =>
    judgementOf(test, cylinder) === undefined &&
    doubts.some((d) => (d.cylinder === null || d.cylinder === cylinder) && isDoubtful(d))
      ? [{ cylinder, verdict: "accepted" as const, reason: "", by: "" }]
      : [],
  );
  return taken.length === 0 ? test : { ...test, judgements: [...taken, ...(test.judgements ?? [])] };
}
