import { addDays, daysBetween } from "../calendar.ts";
import type { IsoDate } from "../schema/facts.ts";
import type { Work } from "../schema/kept-plan.ts";
import type { Need, PlanProblem, PlanUnit, PriceGrowth, RunningOn } from "./types.ts";

/**
 * What it costs to repair early or late. Early gives away life: a week of it is worth what the engine costs a week in the long
 * run under the best timing (age replacement: Barlow and Proschan 1965, chapter 4). Late runs on past the limit and risks a
 * failure, whose repair is dearer. The two are weighed over the whole distribution of the crossing, never at its middle.
 */

const daysOfYear = 365.2425;

/** What prices of labour and of parts are multiplied by on a day; 1 up to the day for which they were told. */
export function priceFactors(
  { priceDate, labour, parts }: PriceGrowth,
  date: IsoDate,
): { readonly labour: number; readonly parts: number } {
  const years = Math.max(0, daysBetween(priceDate, date)) / daysOfYear;
  return { labour: (1 + labour) ** years, parts: (1 + parts) ** years };
}

/** Labour, parts and machining of a repair at the prices of a day. Machining is priced as labour is: it is work outside. */
export function workCost(
  { labour, parts, machining }: Pick<Work, "labour" | "parts" | "machining">,
  prices: PriceGrowth,
  date: IsoDate,
): number {
  const grown = priceFactors(prices, date);
  return (labour + machining) * grown.labour + parts * grown.parts;
}

export const mondayOf = (firstMonday: IsoDate, week: number): IsoDate => addDays(firstMonday, 7 * week);

/**
 * Expected weeks of life left at the beginning of each week: E (T − w)⁺. The forecast says nothing of the time after its end:
 * what has lasted until then is taken to last as long again (judgement; whatever is taken, such a repair can wait).
 */
export function lifeLeft({ crossed, ageWeeks }: Pick<Need, "crossed" | "ageWeeks">): Float64Array {
  const left = new Float64Array(crossed.length);
  const last = crossed.length - 1;
  left[last] = (1 - (crossed[last] as number)) * (ageWeeks + last);
  for (let w = last - 1; w >= 0; w--) {
    // Straight between two weeks.
    left[w] = (left[w + 1] as number) + 1 - ((crossed[w] as number) + (crossed[w + 1] as number)) / 2;
  }
  return left;
}

/**
 * Expected cost of being late by the beginning of each week: for a crossing at t the weeks run on until the failure or the
 * repair, and the chance of a failure by then times what it costs more than the planned repair.
 * @param failure extra cost of a failure: the dearer repair and what it breaks
 */
export function lateCosts(
  crossed: Float64Array,
  { perWeek, failurePerWeek }: Pick<RunningOn, "perWeek" | "failurePerWeek">,
  failure: number,
): Float64Array {
  const costs = new Float64Array(crossed.length);
  // Of what crossed so far: the probability that it still runs. It loses the failures of each week and gains what crosses.
  let running = crossed[0] as number;
  for (let w = 1; w < crossed.length; w++) {
    const newly = (crossed[w] as number) - (crossed[w - 1] as number);
    // What crosses within a week has run on for half of it by its end.
    const exposed = running + newly / 2;
    const failing = exposed * failurePerWeek;
    costs[w] = (costs[w - 1] as number) + perWeek * (exposed - failing / 2) + failure * failing;
    running += newly - failing;
  }
  return costs;
}

/**
 * Least long-run cost of a week of engine life: over all weeks w the least of (repair + late by w) ÷ (age + E min(T, w)), and
 * of waiting beyond the forecast. For an engine as new this is the cost rate of age replacement. Infinite for a life of
 * no length.
 */
export function lifeValue(need: Pick<Need, "crossed" | "ageWeeks">, repair: number, late: Float64Array): number {
  const left = lifeLeft(need);
  const whole = need.ageWeeks + (left[0] as number);
  let least = (repair + (late.at(-1) as number)) / whole;
  for (let w = 0; w < left.length; w++) {
    const life = whole - (left[w] as number);
    if (life > 0) least = Math.min(least, (repair + (late[w] as number)) / life);
  }
  return least;
}

/**
 * Expected cost of early and late where nothing is booked in the plan. What crosses within it runs on to its end; what crosses
 * later is put right by plans to come, which will know more than this one: they miss the right week by so many weeks, early
 * or late, whichever costs less. This is what a booking is weighed against.
 * @param value of a week of life
 */
function leavingCost(
  crossed: Float64Array,
  { perWeek, failurePerWeek }: Pick<RunningOn, "perWeek" | "failurePerWeek">,
  { failure, value }: { readonly failure: number; readonly value: number },
  { weeks, missWeeks }: Pick<PlanProblem, "weeks" | "missWeeks">,
): number {
  const runsOn = (long: number) => runningOnFor(long, { perWeek, failurePerWeek }, failure);
  const missed = Math.min(runsOn(missWeeks), value * missWeeks);
  return overCrossings(crossed, crossed.length - 1, (at) => Math.max(runsOn(Math.max(0, weeks - at)), missed));
}

/** What a crossing costs of a unit that is sold, by its week: running on until then, or a repair by a plan to come before it. */
interface SoldCosts {
  readonly until: (at: number) => number;
  readonly repaired: (at: number) => number;
}

/**
 * Of each crossing before the sale: running on until then, after a failure with the whole repair; or the repair by a plan to come, where
 * one comes before the sale. Whichever costs less will be done.
 * @param repair planned cost of the repair with its days off
 */
function soldCosts(
  runningOn: Pick<RunningOn, "perWeek" | "failurePerWeek">,
  { failure, value, repair }: { readonly failure: number; readonly value: number; readonly repair: number },
  { weeks, missWeeks, sold }: Pick<PlanProblem, "weeks" | "missWeeks"> & { readonly sold: number },
): SoldCosts {
  const runsOn = (long: number) => runningOnFor(long, runningOn, failure);
  const missed = Math.min(runsOn(missWeeks), value * missWeeks);
  return {
    until: (at) => runningOnFor(sold - at, runningOn, failure + repair),
    repaired: (at) =>
      sold <= weeks ? Number.POSITIVE_INFINITY : repair + Math.max(runsOn(Math.max(0, weeks - at)), missed),
  };
}

/** Probability by each week that a limit was met by then and is put right by a plan to come before the sale. */
function repairedBy(crossed: Float64Array, sold: number, { until, repaired }: SoldCosts): Float64Array {
  const isRepaired = (at: number) => repaired(at) < until(at);
  const by = new Float64Array(crossed.length);
  by[0] = isRepaired(0) ? (crossed[0] as number) : 0;
  for (let w = 1; w < crossed.length; w++) {
    const newly = w <= sold && isRepaired(w - 0.5) ? (crossed[w] as number) - (crossed[w - 1] as number) : 0;
    by[w] = (by[w - 1] as number) + newly;
  }
  return by;
}

/** Expected cost of running on for so many weeks; a geometric series, for each week some of those that still run fail. */
function runningOnFor(
  long: number,
  { perWeek, failurePerWeek }: Pick<RunningOn, "perWeek" | "failurePerWeek">,
  failure: number,
): number {
  const aWeek = perWeek * (1 - failurePerWeek / 2) + failure * failurePerWeek;
  return failurePerWeek === 0 ? aWeek * long : (aWeek * (1 - (1 - failurePerWeek) ** long)) / failurePerWeek;
}

/** Expected cost over all crossings up to a week, each taken to lie in the middle of its own. */
function overCrossings(crossed: Float64Array, until: number, costAt: (week: number) => number): number {
  let cost = (crossed[0] as number) * costAt(0);
  for (let w = 1; w <= until; w++) cost += ((crossed[w] as number) - (crossed[w - 1] as number)) * costAt(w - 0.5);
  return cost;
}

/** What a need costs beside the repair itself, by the week in which the repair begins, and if it is left. */
export interface Timing {
  /** Life given away, and cost of being late, at the beginning of each week of the forecast. */
  readonly early: Float64Array;
  readonly late: Float64Array;
  /** Value of a week of life. */
  readonly lifeValue: number;
  /** Cost of early and late where nothing is booked. Of a unit that is sold within the forecast: until then, with repairs. */
  readonly leaving: number;
  /**
   * Of a unit that is sold within the forecast: a repair that is left may never be made, and what it costs if it is stands in `leaving`.
   * Probability by each week that it has fallen due and will be made before the sale. null: it is not sold.
   */
  readonly repairedBy: Float64Array | null;
}

/**
 * @param repair planned cost of the repair with its days off, at the prices of today
 * @param work the part of it that a failure makes dearer: labour, parts, machining
 */
export function timingOf(
  need: Need,
  { runningOn, disposalWeek }: Pick<PlanUnit, "runningOn" | "disposalWeek">,
  { repair, work }: { readonly repair: number; readonly work: number },
  plan: Pick<PlanProblem, "weeks" | "missWeeks">,
): Timing {
  const failure = (need.unplannedFactor - 1) * work + runningOn.damage;
  const { crossed } = need;
  const late = lateCosts(crossed, runningOn, failure);
  const last = crossed.length - 1;
  const value = lifeValue(need, repair, late);
  // A life of no length has no value.
  const each = Number.isFinite(value) ? value : 0;
  const left = lifeLeft(need);
  if (disposalWeek !== null && disposalWeek <= last) {
    // Life after the sale is another's: none of it is given away.
    const after = left[disposalWeek] as number;
    const costs = soldCosts(runningOn, { failure, value: each, repair }, { ...plan, sold: disposalWeek });
    return {
      early: left.map((weeks) => each * Math.max(0, weeks - after)),
      late,
      lifeValue: each,
      leaving: overCrossings(crossed, disposalWeek, (at) => Math.min(costs.until(at), costs.repaired(at))),
      repairedBy: repairedBy(crossed, disposalWeek, costs),
    };
  }
  return {
    early: left.map((weeks) => each * weeks),
    late,
    lifeValue: each,
    leaving: leavingCost(crossed, runningOn, { failure, value: each }, plan),
    repairedBy: null,
  };
}
