import type { MeasureState } from "../assessment/engine.ts";
import { judgementOf } from "../condition/judgement-of.ts";
import type { ConditionedEngine } from "../condition/types.ts";
import type { WearPool } from "../projection/types.ts";
import { isOfCylinder, judgedMeasures } from "../schema/words.ts";
import type { SealedTest } from "../sealing/types.ts";
import type { BelievedCourse, NamedTest, ShapeKind } from "./types.ts";

/** Powers this near to 1 bend no more than tests can show. */
const evenWithin = 0.1;

const kindOf = (power: number): ShapeKind =>
  Math.abs(power - 1) <= evenWithin ? "even" : power > 1 ? "faster" : "slower";

/**
 * Sums the branches of a cylinder up by shape of wear, and those of a fault by the tests between which it began.
 */
export function believedCourse(
  { wear, measure }: MeasureState,
  conditioned: ConditionedEngine,
  pool: Pick<WearPool, "shapes">,
): BelievedCourse {
  const shapes = new Map<ShapeKind, number>();
  const powers = new Map(pool.shapes.map(({ power }) => [power, 0]));
  let withFault = 0;
  for (const { clock, isFault, probability } of wear.branches) {
    if (isFault) {
      withFault += probability;
      continue;
    }
    shapes.set(kindOf(clock.power), (shapes.get(kindOf(clock.power)) ?? 0) + probability);
    powers.set(clock.power, (powers.get(clock.power) ?? 0) + probability);
  }
  const amongSisters = new Map(pool.shapes.map(({ power, weight }) => [power, weight]));
  // Of both measures, for either says something of the other; the cylinder's own first.
  const tests = conditioned.tests
    .map(({ test }) => test)
    .filter((test) => (judgedMeasures as readonly string[]).includes(test.measure));
  const testAt = (x: number) =>
    tests.find((test) => test.x === x && test.measure === measure) ?? tests.find((test) => test.x === x);
  const faults = new Map<string, BelievedCourse["faults"][number]>();
  const told = wear.faults.reduce((sum, fault) => sum + fault.probability, 0);
  for (const { probability, after, by } of wear.faults) {
    const shows = testAt(by);
    if (shows === undefined) continue;
    const key = `${after} ${by}`;
    const share = (faults.get(key)?.share ?? 0) + (probability * withFault) / told;
    const began = after === null ? null : (testAt(after)?.date ?? null);
    faults.set(key, { share, after: began, by: shows.date, test: named(shows) });
  }
  const rulings = tests.toReversed().flatMap((test) => {
    const told = judgementOf(test, wear.cylinder);
    if (told === undefined || !isOfCylinder(told.verdict)) return [];
    return [{ test: named(test), isFault: told.verdict === "fault", by: told.by, reason: told.reason }];
  });
  return {
    shapes: [...shapes].map(([kind, share]) => ({ kind, share })).toSorted((a, b) => b.share - a.share),
    powers: [...powers]
      .map(([power, share]) => ({ power, share, amongSisters: amongSisters.get(power) ?? 0 }))
      .toSorted((a, b) => a.power - b.power),
    faults: [...faults.values()].toSorted((a, b) => b.share - a.share),
    rulings,
  };
}

const named = ({ unit, date, measure, attempt, instrument }: SealedTest): NamedTest => ({
  unit,
  date,
  test: measure,
  attempt,
  instrument,
});
