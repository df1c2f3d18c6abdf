import type { SealedTest, TestJudgement } from "../sealing/types.ts";

/** Whether a person takes one cylinder's reading as it is: accepted, or as that of a fault. */
export function isAccepted(test: SealedTest, cylinder: number): boolean {
  const verdict = judgementOf(test, cylinder)?.verdict;
  return verdict === "accepted" || verdict === "fault";
}

/** What a person made of one cylinder's reading: said of the cylinder before what was said of the whole test. */
export function judgementOf(test: SealedTest, cylinder: number): TestJudgement | undefined {
  const { judgements } = test;
  if (judgements === undefined) return undefined;
  return judgements.find((j) => j.cylinder === cylinder) ?? judgements.find((j) => j.cylinder === null);
}
