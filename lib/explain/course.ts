import type { MeasureState } from "../assessment/engine.ts";
import type { ConditionedEngine } from "../condition/types.ts";
import type { IsoDate } from "../schema/facts.ts";
import type { BelievedCourse, ShapeKind } from "./types.ts";

/** Powers this near to 1 bend no more than tests can show. */
const evenWithin = 0.1;

const kindOf = (power: number): ShapeKind =>
  Math.abs(power - 1) <= evenWithin ? "even" : power > 1 ? "faster" : "slower";

/**
 * Sums the branches of a cylinder up by shape of wear, and those of a fault by the tests between which it began.
 */
export function believedCourse({ wear, measure }: MeasureState, conditioned: ConditionedEngine): BelievedCourse {
  const shapes = new Map<ShapeKind, number>();
  let withFault = 0;
  for (const { clock, isFault, probability } of wear.branches) {
    if (isFault) withFault += probability;
    else shapes.set(kindOf(clock.power), (shapes.get(kindOf(clock.power)) ?? 0) + probability);
  }
  const dateOf = (x: number): IsoDate | null =>
    conditioned.tests.find(({ test }) => test.measure === measure && test.x === x)?.test.date ?? null;
  const faults = new Map<string, BelievedCourse["faults"][number]>();
  const told = wear.faults.reduce((sum, fault) => sum + fault.probability, 0);
  for (const { probability, after, by } of wear.faults) {
    const date = dateOf(by);
    if (date === null) continue;
    const key = `${after} ${by}`;
    const share = (faults.get(key)?.share ?? 0) + (probability * withFault) / told;
    faults.set(key, { share, after: after === null ? null : dateOf(after), by: date });
  }
  return {
    shapes: [...shapes].map(([kind, share]) => ({ kind, share })).toSorted((a, b) => b.share - a.share),
    faults: [...faults.values()].toSorted((a, b) => b.share - a.share),
  };
}
