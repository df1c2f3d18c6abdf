import type { ConditionedEngine } from "./types.ts";

/** A restrictor that the tests of a unit tell of a leak-down tester. */
export interface ToldBore {
  readonly instrument: string;
  readonly orificeMm: number;
  readonly unit: string;
}

/** What one engine's tests tell of the testers' restrictors, each unit once. */
export function boresIn({ history }: ConditionedEngine): readonly ToldBore[] {
  const told = history.tests.flatMap(({ measure, instrument, setUp: { orificeMm }, unit }): ToldBore[] =>
    measure !== "leak-down" || instrument === null || orificeMm === null ? [] : [{ instrument, orificeMm, unit }],
  );
  return eachOnce(told);
}

/** Of a tester and a restrictor so many units are named; who looks it up needs no more. */
const unitsNamed = 3;

/** The same of many engines: by tester, restrictor and unit, of each tester and restrictor the first few units. */
export function mergedBores(told: readonly ToldBore[]): readonly ToldBore[] {
  const sorted = eachOnce(told).toSorted((a, b) => (keyOf(a) < keyOf(b) ? -1 : 1));
  return sorted.filter((one, i) => {
    const before = sorted[i - unitsNamed];
    return before === undefined || before.instrument !== one.instrument || before.orificeMm !== one.orificeMm;
  });
}

const keyOf = ({ instrument, orificeMm, unit }: ToldBore): string => JSON.stringify([instrument, orificeMm, unit]);

const eachOnce = (told: readonly ToldBore[]): readonly ToldBore[] => [
  ...new Map(told.map((one) => [keyOf(one), one])).values(),
];
