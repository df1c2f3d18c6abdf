import { repeatability } from "../repeatability.ts";
import type { JudgedMeasure } from "../schema/words.ts";
import { normalQuantile } from "../statistics/normal.ts";
import { varianceComponents } from "../statistics/variance-components.ts";
import { classOf, type FamilyFit, type Variance } from "./family-fit.ts";

/** A standard deviation with what it rests on. */
export interface ToldSd {
  readonly sd: number;
  /** Degrees of freedom of the fleet's own; 0: the starting value alone. */
  readonly freedom: number;
}

export interface FleetRepeatability {
  readonly measure: JudgedMeasure;
  /** What a whole test repeats to on one instrument: points of leakage, or % of the compression. */
  readonly shared: ToldSd & { readonly occasions: number; readonly tests: number };
  /** What instruments add to it; null: no occasion had two. */
  readonly between: ToldSd | null;
  /** A reading's own error by class of level: points, or % of the level; over all kinds of engine, as their tests say it. */
  readonly own: readonly (ToldSd & { readonly level: number })[];
  /** Each instrument's own error of a reading as a share of the fleet's; those with enough count by themselves. */
  readonly instruments: readonly {
    readonly instrument: string;
    readonly factor: number;
    readonly freedom: number;
    readonly counts: boolean;
  }[];
}

/** The starting value of a whole test's error counts as so many degrees of freedom. */
const startingFreedom = 10;
/** An instrument with so many degrees of freedom has an error of its own; the fleet's counts as as many. */
export const fewestForInstrument = 20;

/**
 * What 19 in 20 differences of two results, each with this standard deviation, stay below. Source: ISO 5725-6:1994, 4.1
 * (repeatability limit, there rounded to 2.8 standard deviations).
 */
export const repeatLimit = (sd: number): number => normalQuantile(0.975) * Math.SQRT2 * sd;

/**
 * What readings of the fleet repeat to, over all its kinds of engine: whole tests from those repeated within 14 days
 * without a repair between, by analysis of variance (lib/statistics/variance-components.ts), less what the middle of the
 * cylinders' own errors adds; weighed against the starting value (lib/repeatability.ts) by degrees of freedom.
 */
export function fleetRepeatability(measure: JudgedMeasure, fits: readonly FamilyFit[]): FleetRepeatability {
  const of = fits.filter((fit) => fit.measure === measure);
  const repeats = of.flatMap((fit) => fit.repeats);
  const found = varianceComponents(
    repeats.map(({ occasion, instrument, value }) => ({ part: occasion, operator: instrument ?? "", value })),
  );
  const usualLevel = measure === "leak-down" ? 8 : 100;
  const { shared: startingSd, own } = repeatability(measure, usualLevel);
  const cylinders = repeats.reduce((sum, r) => sum + r.cylinders, 0) / Math.max(1, repeats.length);
  const ofOwn = (own ** 2 * Math.PI) / 2 / Math.max(Math.PI / 2, cylinders);
  const variance =
    found === null
      ? startingSd ** 2
      : (startingFreedom * startingSd ** 2 + found.freedom * Math.max(0, found.repeatability - ofOwn)) /
        (startingFreedom + found.freedom);
  return {
    measure,
    shared: {
      sd: Math.sqrt(variance),
      freedom: found?.freedom ?? 0,
      occasions: new Set(repeats.map((r) => r.occasion)).size,
      tests: repeats.length,
    },
    between:
      found === null || found.reproducibility === null
        ? null
        : { sd: Math.sqrt(found.reproducibility), freedom: found.operatorFreedom },
    own: ownOf(measure, of),
    instruments: instrumentsOf(of),
  };
}

function ownOf(measure: JudgedMeasure, fits: readonly FamilyFit[]): FleetRepeatability["own"] {
  // Compression of all kinds in % of its own level, so that it can be added up.
  const scaleOf = (level: number) => (measure === "leak-down" || level === 0 ? 1 : 100 / level);
  const byClass = new Map<number, { variance: number; freedom: number; squares: number }>();
  for (const { level, variance, freedom } of fits.flatMap((fit) => fit.own)) {
    const at = classOf(measure, level);
    const sum = byClass.get(at) ?? { variance: 0, freedom: 0, squares: 0 };
    byClass.set(at, {
      freedom: sum.freedom + freedom,
      variance: sum.variance + freedom * variance * scaleOf(level) ** 2,
      squares: sum.squares + freedom * level ** 2,
    });
  }
  return [...byClass]
    .toSorted(([a], [b]) => a - b)
    .map(([, { variance, freedom, squares }]) => ({
      level: Math.sqrt(squares / freedom),
      sd: Math.sqrt(variance / freedom),
      freedom,
    }));
}

function instrumentsOf(fits: readonly FamilyFit[]): FleetRepeatability["instruments"] {
  const byName = new Map<string, Variance>();
  for (const { instrument, variance, freedom } of fits.flatMap((fit) => fit.instruments)) {
    const before = byName.get(instrument) ?? { variance: 0, freedom: 0 };
    const all = before.freedom + freedom;
    byName.set(instrument, {
      freedom: all,
      variance: (before.variance * before.freedom + variance * freedom) / all,
    });
  }
  return [...byName]
    .toSorted(([a], [b]) => (a < b ? -1 : 1))
    .map(([instrument, { variance, freedom }]) => {
      const counts = freedom >= fewestForInstrument;
      const weighed = (freedom * variance + fewestForInstrument) / (freedom + fewestForInstrument);
      return { instrument, factor: Math.sqrt(weighed), freedom, counts };
    });
}
