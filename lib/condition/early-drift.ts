import type { JudgedMeasure } from "../schema/words.ts";
import { coefficientInterval, leastSquares } from "../statistics/linear-regression.ts";
import { mannKendall } from "../statistics/mann-kendall.ts";
import { median } from "../statistics/quantile.ts";
import { theilSenLine } from "../statistics/theil-sen.ts";
import { meterWords, numberWords, percentWords } from "../wording.ts";
import { givesBaseline } from "./lives.ts";
import { isSound, type MeasureSeries, madeAfter, measureSeries, worseSign } from "./series.ts";
import type { ConditionedEngine } from "./types.ts";

/** A cylinder that draws away from its siblings for the worse: the contract's early warning. */
export interface EarlyDrift {
  readonly measure: JudgedMeasure;
  readonly cylinder: number;
  /** How far it has drawn away over the tests looked at: points of leakage, or kPa; above 0. */
  readonly amount: number;
  readonly words: string;
}

const fewestTests = 6;
const mostTests = 40;
const pLimit = 0.01;
/** Less than this is no warning however steady: 4 points, or 4 % of what the siblings read. */
const leastPoints = 4;
const leastShare = 0.04;

/**
 * Cylinders that draw away from their siblings, told before any band says so. A reading less the median of the other
 * cylinders in the same test is free of what the whole test got wrong, so a slow drift shows in it first. Over the sound
 * tests since the engine's last repair (at least 6, at most the last 40) it must worsen steadily (Mann–Kendall, two-sided
 * p below 0.01), by a straight line whose slope is above 0 with 95 % confidence, and by 4 points or 4 % in all.
 *
 * It says nothing of an engine with one cylinder, nor of wear that all cylinders share; in one of two cylinders it may be
 * the sibling that improves.
 */
export function earlyDrifts({ history, tests }: ConditionedEngine): readonly EarlyDrift[] {
  const sheet = { history, doubts: tests.map(() => []), weights: tests.map((t) => [...t.weights]) };
  return (["leak-down", "compression-dry"] as const).flatMap((measure) => {
    const series = measureSeries(history, measure);
    return series.cylinders.flatMap(({ cylinder }) => driftOf(sheet, series, cylinder) ?? []);
  });
}

function driftOf(
  sheet: Parameters<typeof isSound>[0],
  { measure, cylinders }: MeasureSeries,
  cylinder: number,
): EarlyDrift | null {
  const { history } = sheet;
  const own = cylinders[cylinder - 1];
  const lastRepair = history.repairs.findLast(givesBaseline);
  if (own === undefined) return null;
  const x: number[] = [];
  const apart: number[] = [];
  const weights: number[] = [];
  const siblingLevels: number[] = [];
  for (let place = own.x.length - 1; place >= 0 && x.length < mostTests; place--) {
    const test = history.tests[own.test[place] as number];
    const testWeights = sheet.weights[own.test[place] as number];
    if (test === undefined || (lastRepair !== undefined && !madeAfter(test, lastRepair))) break;
    if (!isSound(sheet, own, place)) continue;
    const siblings = test.readings.flatMap((r, i) =>
      r.cylinder !== cylinder && (testWeights?.[i] ?? 0) > 0 ? [r.value] : [],
    );
    if (siblings.length === 0) continue;
    const level = median(siblings);
    x.unshift(test.x);
    apart.unshift(worseSign[measure] * ((own.value[place] as number) - level));
    weights.unshift(testWeights?.[own.reading[place] as number] ?? 1);
    siblingLevels.push(level);
  }
  if (x.length < fewestTests) return null;
  const trend = mannKendall(apart);
  if (trend.s <= 0 || trend.pValue >= pLimit) return null;

  const begin = x[0] as number;
  const span = (x.at(-1) as number) - begin;
  const amount = (theilSenLine(x, apart)?.slope ?? 0) * span;
  const level = median(siblingLevels);
  if (amount < (measure === "leak-down" ? leastPoints : leastShare * level)) return null;
  // On a scale of 0 to 1, so that the design's columns are of like size.
  const fit = leastSquares({ rows: x.map((v) => [1, (v - begin) / span]), response: apart, weights });
  if (fit === null || coefficientInterval(fit, 1, 0.95)[0] <= 0) return null;

  const much = measure === "leak-down" ? `${numberWords(amount)} points` : percentWords((100 * amount) / level);
  const words = `early warning: cylinder ${cylinder} has drawn away from its siblings by ${much} within ${meterWords(span, history.meterUnit)}`;
  return { measure, cylinder, amount, words };
}
