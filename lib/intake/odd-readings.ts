import { repeatability } from "../repeatability.ts";
import type { EngineModel } from "../schema/engine-model.ts";
import type { ReadingFact, TestFact } from "../schema/facts.ts";
import { type Measure, type PressureUnit, pressureUnits } from "../schema/words.ts";
import { median } from "../statistics/quantile.ts";
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
 * So many cylinders, and different values among them, hardly come out the same twice by themselves; on a gauge with coarse
 * marks they do. Measured (`npm run bench -- slips`): at a gauge of 1 bar on a diesel four, once in 240 tests.
 */
const copiedFrom = { pressures: 4, leakages: 6, values: 3 } as const;

/** Whether values that are all those of the last test are likelier copied from it than read anew: enough of them, not all alike. */
export const areEnoughToBeCopied = (test: Measure, values: readonly number[]): boolean =>
  values.length >= (test === "leak-down" ? copiedFrom.leakages : copiedFrom.pressures) &&
  new Set(values).size >= copiedFrom.values;

/** Whether the readings are likelier copied from the test than read anew. */
export const isCopied = (test: Readings, last: Readings): boolean =>
  sameReadings(test, last) &&
  areEnoughToBeCopied(
    test.test,
    test.readings.map((r) => r.value),
  );

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
  const expected = strangePressures(test, last, model);
  if (expected === null) return null;
  const shares = (unit: PressureUnit) => expected.map(({ value, kpa }) => toKpa(value, unit) / kpa);
  const lastUnit = last?.readings[0]?.valueUnit;
  const fitting = pressureUnits.filter((unit) =>
    shares(unit).every((share) => share >= likelyShare.least && share <= likelyShare.most),
  );
  return fitting.find((unit) => unit === lastUnit) ?? fitting.find((unit) => unit !== "kgf/cm2") ?? fitting[0] ?? null;
}

/**
 * Whether all compressions of a test, of two cylinders or more, lie so low that no fault explains it. One cylinder may
 * read nothing; an engine of which all do would not have come to the test.
 */
export const areTooLow = (test: Readings, last: Readings | null, model: EngineModel | null): boolean => {
  const strange = strangePressures(test, last, model);
  return strange !== null && strange.length > 1 && strange.every(({ share }) => share < unlikelyShare.below);
};
/** In words: below this share of what is expected. */
export const lowestShare = "a quarter";

/** No engine that still ran loses so much in every cylinder; sound ones hold so much (trade notes, section 2; judgement). */
export const heldPercent = 60;
/** Whether the leakages of a test, of two cylinders or more, are likelier what was held than what was lost. */
export const areHeldAsLost = ({ test, readings }: Readings, last: Readings | null): boolean => {
  const isHigh = ({ value, valueUnit }: Readings["readings"][number]) => valueUnit === "%" && value >= heldPercent;
  return (
    test === "leak-down" && readings.length > 1 && readings.every(isHigh) && !(last?.readings.some(isHigh) ?? false)
  );
};

/** A reading that fits its siblings with its decimal sign elsewhere. */
export interface DecimalSlip {
  readonly cylinder: number;
  readonly value: number;
  /** What would fit. */
  readonly likely: number;
}

/** A siblings' median below this tells nothing: a reading of nearly nothing beside it may well be true. */
const leastSiblings = 2;
/** In which a reading is likely to have slipped: leakage as a share of 1, as workbooks keep per cent; pressure by tens. */
const slips = { leakDown: [100], compression: [10, 100, 1000, 0.1, 0.01, 0.001] } as const;
/** A reading lies apart where it is so many times less or more than its siblings' median. */
const apartTimes = 5;

/**
 * Readings that lie far from those of the other cylinders, and among them with the decimal sign elsewhere: 2.260 beside
 * 2310, or 0.07 beside 6 %. Where the others lie apart as well, nothing is told of any (see `areTooLow`).
 */
export function decimalSlips({ test, readings }: Readings): readonly DecimalSlip[] {
  // Nearly all tests end here: a million rows pass by.
  let [lowest, highest] = [Number.POSITIVE_INFINITY, 0];
  for (const { value } of readings) {
    lowest = Math.min(lowest, value > 0 ? value : lowest);
    highest = Math.max(highest, value);
  }
  if (lowest * apartTimes >= highest || (test === "leak-down" && lowest >= 1)) return [];
  const factors = test === "leak-down" ? slips.leakDown : slips.compression;
  return readings.flatMap(({ cylinder, value, valueUnit }) => {
    const siblings = readings.filter((other) => other.cylinder !== cylinder && other.valueUnit === valueUnit);
    if (value <= 0 || siblings.length < 2 || (test === "leak-down" && valueUnit === "%" && value >= 1)) return [];
    const middle = median(siblings.map((other) => other.value));
    const isApart = (of: number) => of * apartTimes < middle || of > middle * apartTimes;
    const least = valueUnit === "%" ? leastSiblings : 0;
    if (middle <= least || !isApart(value) || siblings.some((other) => isApart(other.value))) return [];
    const isLikely = (of: number) =>
      valueUnit === "%" ? !isApart(of) : of >= likelyShare.least * middle && of <= likelyShare.most * middle;
    const likely = factors.map((factor) => value * factor).find(isLikely);
    return likely === undefined ? [] : [{ cylinder, value, likely: Number(likely.toPrecision(6)) }];
  });
}

/** Each compression of a test beside what is expected of it, where all are unlikely in their unit; null: some is likely. */
function strangePressures(
  test: Readings,
  last: Readings | null,
  model: EngineModel | null,
): readonly { readonly value: number; readonly kpa: number; readonly share: number }[] | null {
  const [first] = test.readings;
  if (test.test === "leak-down" || first === undefined || first.valueUnit === "%") return null;
  const firstBefore = last?.readings.find((reading) => reading.cylinder === first.cylinder);
  if (firstBefore !== undefined && !isUnlikely((kpaOf(first) ?? 0) / (kpaOf(firstBefore) ?? 0))) return null;
  const before = last === null ? null : valuesOf(last);
  const written = first.valueUnit;
  const expected = test.readings.flatMap(({ cylinder, value }) => {
    const earlier = before?.get(cylinder);
    const kpa =
      (earlier === undefined ? null : kpaOf(earlier)) ?? (before === null ? model?.compression?.newKpa : null);
    return kpa === null || kpa === undefined || kpa <= 0 ? [] : [{ value, kpa, share: toKpa(value, written) / kpa }];
  });
  if (expected.length === 0 || expected.length < test.readings.length) return null;
  if (test.readings.some((reading) => reading.valueUnit !== written)) return null;
  return expected.every(({ share }) => isUnlikely(share)) ? expected : null;
}

/** Fewer cylinders, and an order by chance looks like one that is meant. */
const fewestToReverse = 4;
/**
 * A test counts as turned round where its readings are so many times likelier that way, as a natural logarithm: some
 * thousand times, for hardly one test in as many is. Measured (`npm run bench -- slips`).
 */
const surelyReversed = 7;
/** And where, turned round, they fit at all: by the sum of their squared deviations, for each cylinder beyond the first. */
const fittingSquare = 3;
/** What a cylinder changes by itself from one test to the next beyond its siblings: a share, or points of leakage (judgement). */
const ownChange = { compression: 0.01, leakDown: 1.5 } as const;
/** Readings that differ less than so many of their own deviations from their mirror image tell no order. */
const fewestSds = 2;

interface Scaled {
  /** Logarithm of the pressure, or % of leakage. */
  readonly value: number;
  /** Of the reading, by what it has of its own (lib/repeatability.ts). */
  readonly variance: number;
}

function scaled(test: Measure, { value, valueUnit }: Pick<ReadingFact, "value" | "valueUnit">): Scaled | null {
  const kpa = kpaOf({ value, valueUnit });
  if (test === "leak-down") {
    return valueUnit === "%" ? { value, variance: repeatability("leak-down", value).own ** 2 } : null;
  }
  if (kpa === null || kpa <= 0) return null;
  return { value: Math.log(kpa), variance: repeatability("compression-dry", 1).own ** 2 };
}

/** How far two tests lie apart, cylinder by cylinder, in squared deviations; what a whole test shares is taken off first. */
function squaresApart(a: readonly Scaled[], b: readonly Scaled[], change: number): number {
  const pairs = a.map(({ value, variance }, i) => {
    const other = b[i] as Scaled;
    return { by: value - other.value, weight: 1 / (variance + other.variance + change ** 2) };
  });
  const weight = pairs.reduce((sum, pair) => sum + pair.weight, 0);
  const shared = pairs.reduce((sum, pair) => sum + pair.weight * pair.by, 0) / weight;
  return pairs.reduce((sum, pair) => sum + pair.weight * (pair.by - shared) ** 2, 0);
}

/**
 * Whether some cylinder reads otherwise than the one that is as far from the other end: else turning the test round
 * changes too little to tell. Cheap, for nearly all tests end here.
 */
function isLopsided({ test, readings }: Readings): boolean {
  for (let i = 0, j = readings.length - 1; i < j; i++, j--) {
    const [a, b] = [(readings[i] as ReadingFact).value, (readings[j] as ReadingFact).value];
    const least = fewestSds * repeatability(test === "leak-down" ? "leak-down" : "compression-dry", Math.min(a, b)).own;
    if (Math.abs(a - b) >= least) return true;
  }
  return false;
}

/**
 * Whether the cylinders were counted from the other end: the readings fit the last test of the same kind when they are
 * turned round, and far better than as they stand. What a test has in common (gauge, altitude, supply) is left out of
 * it, and each reading weighs by how well one of its kind repeats: a bad cylinder's leakage wanders by points.
 */
export function isReversed(test: Readings, last: Readings, cylinders: number): boolean {
  if (cylinders < fewestToReverse || test.readings.length !== cylinders || last.readings.length !== cylinders)
    return false;
  if (!isLopsided(test)) return false;
  const inOrder = (of: Readings) => {
    const all = [...of.readings].sort((a, b) => a.cylinder - b.cylinder).map((reading) => scaled(of.test, reading));
    return all.filter((reading) => reading !== null);
  };
  const [now, then] = [inOrder(test), inOrder(last)];
  if (now.length !== cylinders || then.length !== cylinders) return false;
  const change = test.test === "leak-down" ? ownChange.leakDown : ownChange.compression;
  const asWritten = squaresApart(now, then, change);
  const turned = squaresApart(now, then.toReversed(), change);
  return (asWritten - turned) / 2 >= surelyReversed && turned <= fittingSquare * (cylinders - 1);
}
