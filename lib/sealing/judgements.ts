import type { JudgementFact, TestFact } from "../schema/facts.ts";
import type { TestJudgement } from "./types.ts";

const keyOf = ({ date, test, attempt, instrument }: Pick<TestFact, "date" | "test" | "attempt" | "instrument">) =>
  JSON.stringify([date, test, attempt, instrument]);

const none: readonly TestJudgement[] = [];

/**
 * What persons made of the tests of one unit, by the test. `judgements` hold one for each test or cylinder at most, that of
 * a whole test before those of its cylinders. One that was taken back is none; `unmatched` are those of tests not on file.
 */
export function judgementsByTest(
  judgements: readonly JudgementFact[],
  tests: readonly TestFact[],
): {
  readonly judgementsOf: (test: TestFact) => readonly TestJudgement[];
  readonly unmatched: readonly JudgementFact[];
} {
  if (judgements.length === 0) return { judgementsOf: () => none, unmatched: [] };
  const known = new Set(tests.map(keyOf));
  const byTest = new Map<string, TestJudgement[]>();
  const unmatched: JudgementFact[] = [];
  for (const judgement of judgements) {
    const { cylinder, verdict, reason, judgedBy: by } = judgement;
    if (verdict === "none" || verdict === "withdrawn") continue;
    const key = keyOf(judgement);
    if (!known.has(key)) {
      unmatched.push(judgement);
      continue;
    }
    const others = byTest.get(key);
    const told = { cylinder, verdict, reason, by };
    if (others === undefined) byTest.set(key, [told]);
    else others.push(told);
  }
  return { judgementsOf: (test) => byTest.get(keyOf(test)) ?? none, unmatched };
}
