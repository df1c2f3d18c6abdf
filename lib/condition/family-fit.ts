import { daysBetween } from "../calendar.ts";
import type { IsoDate } from "../schema/facts.ts";
import { type JudgedMeasure, leakPlaces, type Place } from "../schema/words.ts";
import { median } from "../statistics/quantile.ts";
import { robustScale } from "../statistics/robust-scale.ts";
import { type CylinderSeries, type MeasureSeries, madeAfter, measureSeries, worseSign } from "./series.ts";
import { boresIn, mergedBores, type ToldBore } from "./told-bores.ts";
import type { ConditionedEngine } from "./types.ts";

/** A standard deviation squared, and how many independent deviations it rests on. */
export interface Variance {
  readonly variance: number;
  readonly freedom: number;
}

/** What the tests of one kind of engine say of how sound cylinders differ, in the unit of the measure and per meter. */
export interface FamilyFit {
  readonly measure: JudgedMeasure;
  /** A reading's own error by class of level, ascending; `level` is the root mean square of the class. */
  readonly own: readonly (Variance & { readonly level: number })[];
  readonly cylinderLevel: Variance;
  readonly cylinderRate: Variance;
  /** Instruments: a reading's own error as a share of what the kind's readings have at its level, as variances. */
  readonly instruments: readonly (Variance & { readonly instrument: string })[];
  /** Tests repeated without a repair between, as wholes, on any instrument. */
  readonly repeats: readonly RepeatedTest[];
  /** Readings with a place heard that two later tests of the cylinder could bear out, and leaks that neither did. */
  readonly heard: { readonly readings: number; readonly notBorneOut: number };
  /** Restrictors of leak-down testers that tests tell; absent: of another measure, or kept before they were. */
  readonly bores?: readonly ToldBore[];
}

/** A reading's change since the last test less what its siblings changed by, scaled to one reading's error. */
export interface OwnChange {
  readonly level: number;
  readonly change: number;
  readonly instruments: readonly [string | null, string | null];
}

/** One of several tests of an engine within a short time, for what whole tests repeat to. */
export interface RepeatedTest {
  /** Engine and first day: tests of one occasion measured the same. */
  readonly occasion: string;
  readonly date: IsoDate;
  readonly instrument: string | null;
  /** Middle of the cylinders that all tests of the occasion measured: % leakage, or % of the occasion's compression. */
  readonly value: number;
  /** How many cylinders that are. */
  readonly cylinders: number;
}

/** What one engine adds to the fit. */
export interface FamilyInput {
  readonly engine: string;
  readonly changes: readonly OwnChange[];
  /** A cylinder's mean apart from its siblings, and its rate apart from theirs, with the error's share in each. */
  readonly levels: readonly { readonly value: number; readonly errorFactor: number; readonly level: number }[];
  readonly rates: readonly { readonly value: number; readonly errorFactor: number; readonly level: number }[];
  readonly repeats: readonly RepeatedTest[];
  readonly heard: FamilyFit["heard"];
  readonly bores?: readonly ToldBore[];
}

/** Tests of one engine within so many days are of the same state, unless a repair lies between. */
export const repeatDays = 14;

const leastWeight = 0.5;
const classBounds: Readonly<Record<JudgedMeasure, readonly number[]>> = {
  "leak-down": [10, 20],
  "compression-dry": [],
};
/** The class of level that a reading's own error is told for, from 0. */
export const classOf = (measure: JudgedMeasure, level: number): number =>
  classBounds[measure].filter((bound) => level >= bound).length;
/** Of a life's tests, those that its level apart is told from. */
const firstTests = 5;
const fewestForRate = 4;
/** Of a kind's repeated tests, those kept: the latest, for testers change. */
const mostRepeats = 400;
/** Air heard once and at none of so many later tests was heard where none escaped. */
const settledBy = 2;

/** What an engine's tests of a measure say of its family: nothing where it has one cylinder. */
export function familyInputOf(conditioned: ConditionedEngine, measure: JudgedMeasure): FamilyInput {
  const series = measureSeries(conditioned.history, measure);
  const usable = series.tests.map((t, k) => usableAt(conditioned, series, t, k));
  const apart = series.cylinders.map(() => new Map<number, { x: number; value: number; level: number }[]>());
  const changes: OwnChange[] = [];
  for (const [k, now] of usable.entries()) {
    const middle = now.length < 3 ? null : median(now.map((r) => r.badness));
    for (const { cylinder, life, badness, level } of now) {
      if (middle === null) break;
      const lives = apart[cylinder - 1] as Map<number, { x: number; value: number; level: number }[]>;
      const own = lives.get(life) ?? [];
      lives.set(life, own);
      own.push({ x: testAt(k).x, value: badness - middle, level });
    }
    const before = usable[k - 1];
    if (before === undefined) continue;
    const both = now.flatMap((r) => {
      const was = before.find((b) => b.cylinder === r.cylinder && b.life === r.life);
      return was === undefined ? [] : [{ change: r.badness - was.badness, level: (r.level + was.level) / 2 }];
    });
    if (both.length < 2) continue;
    const shared = median(both.map((b) => b.change));
    const scale = Math.sqrt(2 * leftByMedian(both.length));
    const instruments = [testAt(k - 1).instrument, testAt(k).instrument] as const;
    for (const { change, level } of both) changes.push({ level, change: (change - shared) / scale, instruments });
  }
  const lives = apart.flatMap((byLife) => [...byLife.values()]);
  return {
    engine: conditioned.history.engine,
    changes,
    levels: lives.map((own) => levelOf(own.slice(0, firstTests))),
    rates: lives.flatMap((own) => (own.length < fewestForRate ? [] : [rateOf(own)])),
    repeats: repeatsOf(conditioned, measure),
    heard: measure === "leak-down" ? heardOf(conditioned, series) : { readings: 0, notBorneOut: 0 },
    ...(measure === "leak-down" ? { bores: boresIn(conditioned) } : {}),
  };

  function testAt(k: number) {
    return conditioned.history.tests[series.tests[k] as number] as ConditionedEngine["history"]["tests"][number];
  }
}

function usableAt({ tests }: ConditionedEngine, series: MeasureSeries, t: number, k: number) {
  const { test, weights } = tests[t] as ConditionedEngine["tests"][number];
  return test.readings.flatMap(({ cylinder, value, referralSd }, r) => {
    // What converting a reading added says nothing of how well it repeats.
    if ((weights[r] as number) < leastWeight || referralSd > 0.05 * value) return [];
    const own = series.cylinders[cylinder - 1] as CylinderSeries;
    const life = own.life[series.places[k]?.[r] as number] as number;
    return [{ cylinder, life, badness: worseSign[series.measure] * value, level: Math.max(0, value) }];
  });
}

/** Attempts of one day count as well: that the last one is used says nothing against what the others repeat to. */
function repeatsOf({ history, tests }: ConditionedEngine, measure: JudgedMeasure): RepeatedTest[] {
  const usable = tests.filter(({ test, doubts }) => {
    return test.measure === measure && doubts.every((d) => d.code === "repeated-the-same-day" || d.weight === 1);
  });
  const occasions: (typeof usable)[] = [];
  for (const one of usable) {
    const occasion = occasions.at(-1);
    const first = occasion?.[0]?.test;
    const isSame =
      first !== undefined &&
      daysBetween(first.date, one.test.date) <= repeatDays &&
      !history.repairs.some((r) => madeAfter(one.test, r) && !madeAfter(first, r));
    if (isSame) occasion?.push(one);
    else occasions.push([one]);
  }
  return occasions.flatMap((occasion) => {
    if (occasion.length < 2) return [];
    const readings = occasion.map(({ test }) => new Map(test.readings.map((r) => [r.cylinder, r.value])));
    const common = [...(readings[0]?.keys() ?? [])].filter((c) => readings.every((of) => of.has(c)));
    if (common.length === 0) return [];
    const values = readings.map((of) => median(common.map((c) => of.get(c) as number)));
    const scale = measure === "leak-down" ? 1 : 100 / median(values);
    return occasion.map(({ test }, i) => ({
      occasion: `${history.engine} ${occasion[0]?.test.date}`,
      date: test.date,
      instrument: test.instrument,
      value: scale * (values[i] as number),
      cylinders: common.length,
    }));
  });
}

/** Variance of normal values less their median, as a share of theirs: 1 + var(median) − 2/n. */
function leftByMedian(n: number): number {
  const ofMedian = n === 2 ? 0.5 : n === 3 ? 0.4487 : n === 4 ? 0.2982 : 1.57 / (n + 0.5);
  return 1 + ofMedian - 2 / n;
}

type Apart = { readonly x: number; readonly value: number; readonly level: number };

function levelOf(own: readonly Apart[]) {
  const mean = (of: (a: Apart) => number) => own.reduce((sum, a) => sum + of(a), 0) / own.length;
  return { value: mean((a) => a.value), errorFactor: 1 / own.length, level: mean((a) => a.level) };
}

function rateOf(own: readonly Apart[]) {
  const mean = own.reduce((sum, a) => sum + a.x, 0) / own.length;
  const squares = own.reduce((sum, a) => sum + (a.x - mean) ** 2, 0);
  const value = squares === 0 ? 0 : own.reduce((sum, a) => sum + (a.x - mean) * a.value, 0) / squares;
  return { value, errorFactor: squares === 0 ? 0 : 1 / squares, level: levelOf(own).level };
}

function heardOf({ tests }: ConditionedEngine, { cylinders }: MeasureSeries): FamilyFit["heard"] {
  let readings = 0;
  let notBorneOut = 0;
  for (const own of cylinders) {
    const places = own.test.map((t, p) => tests[t]?.test.readings[own.reading[p] as number]?.heardAt ?? []);
    for (const [p, heard] of places.entries()) {
      const later = places.filter((of, q) => q > p && of.length > 0 && own.life[q] === own.life[p]).slice(0, settledBy);
      if (heard.length === 0 || later.length < settledBy) continue;
      readings += 1;
      if (isLeak(heard) && !later.some(isLeak)) notBorneOut += 1;
    }
  }
  return { readings, notBorneOut };
}

const isLeak = (heard: readonly Place[]): boolean => heard.some((place) => leakPlaces.includes(place));

/**
 * Fits what the engines of one kind say; robustly, so that cylinders that fail do not widen the family. The order in which
 * the engines come does not matter.
 */
export function fitFamily(measure: JudgedMeasure, engines: readonly FamilyInput[]): FamilyFit {
  const inputs = engines.toSorted((a, b) => (a.engine < b.engine ? -1 : a.engine > b.engine ? 1 : 0));
  const changes = inputs.flatMap((input) => input.changes);
  const own = [...classBounds[measure], Number.POSITIVE_INFINITY].flatMap((_, at) => {
    const of = changes.filter(({ level }) => classOf(measure, level) === at);
    if (of.length === 0) return [];
    const level = Math.sqrt(of.reduce((sum, c) => sum + c.level ** 2, 0) / of.length);
    // Each reading stands in two changes.
    return [{ level, variance: robustScale(of.map((c) => c.change)) ** 2, freedom: of.length / 2 }];
  });
  const errorAt = (level: number) => nearestTo(own, level);
  const byInstrument = new Map<string, number[]>();
  for (const {
    instruments: [was, is],
    change,
    level,
  } of changes) {
    if (is === null || was !== is || errorAt(level) === 0) continue;
    const of = byInstrument.get(is) ?? [];
    byInstrument.set(is, of);
    of.push(change / Math.sqrt(errorAt(level)));
  }
  const between = (of: FamilyInput["levels"]): Variance => {
    if (of.length === 0) return { variance: 0, freedom: 0 };
    const error = of.reduce((sum, e) => sum + e.errorFactor * errorAt(e.level), 0) / of.length;
    return { variance: Math.max(0, robustScale(of.map((e) => e.value)) ** 2 - error), freedom: of.length };
  };
  return {
    measure,
    own,
    instruments: [...byInstrument]
      .toSorted(([a], [b]) => (a < b ? -1 : 1))
      .map(([instrument, of]) => ({ instrument, variance: robustScale(of) ** 2, freedom: of.length / 2 })),
    repeats: latestRepeats(inputs.flatMap((input) => input.repeats)),
    cylinderLevel: between(inputs.flatMap((input) => input.levels)),
    cylinderRate: between(inputs.flatMap((input) => input.rates)),
    heard: {
      readings: inputs.reduce((sum, input) => sum + input.heard.readings, 0),
      notBorneOut: inputs.reduce((sum, input) => sum + input.heard.notBorneOut, 0),
    },
    ...(measure === "leak-down" ? { bores: mergedBores(inputs.flatMap((input) => input.bores ?? [])) } : {}),
  };
}

/** Whole occasions, the latest, at most so many tests; ascending by date, then as they came. */
function latestRepeats(repeats: readonly RepeatedTest[]): readonly RepeatedTest[] {
  const byOccasion = new Map<string, RepeatedTest[]>();
  for (const test of repeats) {
    const tests = byOccasion.get(test.occasion);
    if (tests === undefined) byOccasion.set(test.occasion, [test]);
    else tests.push(test);
  }
  const occasions = [...byOccasion.values()].toSorted((a, b) =>
    lastDay(a) < lastDay(b) ? -1 : lastDay(a) > lastDay(b) ? 1 : 0,
  );
  let kept = 0;
  const from = occasions.findLastIndex((tests) => {
    kept += tests.length;
    return kept > mostRepeats;
  });
  return occasions.slice(from + 1).flat();
}

const lastDay = (tests: readonly RepeatedTest[]): IsoDate => tests.at(-1)?.date ?? "";

function nearestTo(own: FamilyFit["own"], level: number): number {
  const [nearest] = own.toSorted((a, b) => Math.abs(a.level - level) - Math.abs(b.level - level));
  return nearest?.variance ?? 0;
}
