import type { EngineModel } from "../schema/engine-model.ts";
import type { ReadingFact, TestFact } from "../schema/facts.ts";
import { type PressureUnit, pressureUnits } from "../schema/words.ts";
import { toKpa } from "../units.ts";

/** Whether the readings of a test fit the test before it, or would if something simple had been written otherwise. */

export type Readings = Pick<TestFact, "test"> & {
  readonly readings: readonly Pick<ReadingFact, "cylinder" | "value" | "valueUnit" | "supply">[];
};

const valuesOf = (test: Readings) => new Map(test.readings.map((r) => [r.cylinder, r] as const));

/** Whether both tests read the same on the same cylinders, to the last digit. */
export function sameReadings(a: Readings, b: Readings): boolean {
  if (a.test !== b.test || a.readings.length !== b.readings.length) return false;
  // Nearly all pairs end here: a million rows pass by.
  const [first] = a.readings;
  if (!b.readings.some((other) => other.cylinder === first?.cylinder && other.value === first.value)) return false;
  const others = valuesOf(b);
  return a.readings.every(({ cylinder, value, valueUnit, supply }) => {
    const other = others.get(cylinder);
    return other?.value === value && other.valueUnit === valueUnit && other.supply === supply;
  });
}

/**
 * So many cylinders, and different values among them, do not come out the same twice by themselves: a leakage in whole
 * percent, one in some hundred times for each four.
 */
const copiedFrom = { pressures: 4, leakages: 6, values: 3 } as const;

/** Whether the readings are likelier copied from the test than read anew: all the same, and enough of them. */
export const isCopied = (test: Readings, last: Readings): boolean =>
  test.readings.length >= (test.test === "leak-down" ? copiedFrom.leakages : copiedFrom.pressures) &&
  sameReadings(test, last) &&
  new Set(test.readings.map((r) => r.value)).size >= copiedFrom.values;

const kpaOf = ({ value, valueUnit }: Pick<ReadingFact, "value" | "valueUnit">): number | null =>
  valueUnit === "%" ? null : toKpa(value, valueUnit);

/** A sound engine and a bad one, on any gauge: compression as a share of what is expected. */
const likelyShare = { least: 0.45, most: 1.25 } as const;
/** No fault of engine or gauge makes so little or so much of it; factors between units begin at 6.9. */
const unlikelyShare = { below: 0.25, above: 2.5 } as const;

const isUnlikely = (share: number) => share < unlikelyShare.below || share > unlikelyShare.above;

/**
 * The unit in which all compressions of a test fit what is expected, where in the unit that was written none does.
 * Expected is the cylinder's last reading, else the engine's new value. null: the unit fits, or no other one does.
 * bar and kgf/cm2 are 2 % apart: of the two, the one of the last test is told, else bar.
 */
export function likelyPressureUnit(
  test: Readings,
  last: Readings | null,
  model: EngineModel | null,
): PressureUnit | null {
  const [first] = test.readings;
  if (test.test === "leak-down" || first === undefined || first.valueUnit === "%") return null;
  const firstBefore = last?.readings.find((reading) => reading.cylinder === first.cylinder);
  if (firstBefore !== undefined && !isUnlikely((kpaOf(first) ?? 0) / (kpaOf(firstBefore) ?? 0))) return null;
  const before = last === null ? null : valuesOf(last);
  const lastUnit = last?.readings[0]?.valueUnit;
  const expected = test.readings.flatMap((reading) => {
    const earlier = before?.get(reading.cylinder);
    const kpa =
      (earlier === undefined ? null : kpaOf(earlier)) ?? (before === null ? model?.compression?.newKpa : null);
    return kpa === null || kpa === undefined || kpa <= 0 ? [] : [{ value: reading.value, kpa }];
  });
  if (expected.length === 0 || expected.length < test.readings.length) return null;
  const shares = (unit: PressureUnit) => expected.map(({ value, kpa }) => toKpa(value, unit) / kpa);
  const written = first.valueUnit;
  if (test.readings.some((reading) => reading.valueUnit !== written)) return null;
  if (!shares(written).every(isUnlikely)) return null;
  const fitting = pressureUnits.filter((unit) =>
    shares(unit).every((share) => share >= likelyShare.least && share <= likelyShare.most),
  );
  return fitting.find((unit) => unit === lastUnit) ?? fitting.find((unit) => unit !== "kgf/cm2") ?? fitting[0] ?? null;
}

/** Fewer cylinders, and an order by chance looks like one that is meant. */
const fewestToReverse = 4;
/** Repeatability of a test, and how much further off the readings must lie as they were written (trade: J). */
const reversal = {
  compression: { fits: 0.035, off: 0.07 },
  leakDown: { fits: 2.5, off: 6 },
} as const;

/**
 * Whether some cylinder reads otherwise by `least` than the one that is as far from the other end (a share, or points of
 * leakage): else turning the test round changes too little to tell. Cheap, for nearly all tests end here.
 */
function isLopsided({ test, readings }: Readings, least: number): boolean {
  for (let i = 0, j = readings.length - 1; i < j; i++, j--) {
    const [a, b] = [(readings[i] as ReadingFact).value, (readings[j] as ReadingFact).value];
    if (test === "leak-down" ? Math.abs(a - b) >= least : Math.abs(a - b) >= least * Math.min(a, b)) return true;
  }
  return false;
}

/**
 * Whether the cylinders were counted from the other end: the readings fit the last test of the same kind when they are
 * turned round, and as they stand do not. What a test has in common (gauge, altitude, supply) is taken off first, and
 * the last test must differ so much from its own mirror image that the order can be told.
 */
export function isReversed(test: Readings, last: Readings, cylinders: number): boolean {
  if (cylinders < fewestToReverse || test.readings.length !== cylinders || last.readings.length !== cylinders)
    return false;
  const { fits, off } = test.test === "leak-down" ? reversal.leakDown : reversal.compression;
  if (!isLopsided(test, off - fits)) return false;
  const scale = (reading: Pick<ReadingFact, "value" | "valueUnit">): number | null => {
    const kpa = kpaOf(reading);
    if (test.test === "leak-down") return reading.valueUnit === "%" ? reading.value : null;
    return kpa === null || kpa <= 0 ? null : Math.log(kpa);
  };
  const inOrder = (of: Readings) => [...of.readings].sort((a, b) => a.cylinder - b.cylinder).map(scale);
  const [now, then] = [inOrder(test), inOrder(last)];
  if (now.includes(null) || then.includes(null)) return false;
  const centred = (values: readonly (number | null)[]) => {
    const numbers = values as readonly number[];
    const middle = numbers.reduce((sum, value) => sum + value, 0) / numbers.length;
    return numbers.map((value) => value - middle);
  };
  const [a, b] = [centred(now), centred(then)];
  const apart = (x: readonly number[], y: readonly number[]) =>
    Math.max(...x.map((v, i) => Math.abs(v - (y[i] as number))));
  return apart(a, b) >= off && apart(a, b.toReversed()) <= fits;
}
