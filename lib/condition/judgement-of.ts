import type { SealedTest, TestJudgement } from "../sealing/types.ts";

/** What a person made of one cylinder's reading: said of the cylinder before what was said of the whole test. */
export function judgementOf(test: SealedTest, cylinder: number): TestJudgement | undefined {
  const { judgements } = test;
  if (judgements === undefined) return undefined;
  return judgements.find((j) => j.cylinder === cylinder) ?? judgements.find((j) => j.cylinder === null);
}
