import type { IsoDate } from "../schema/facts.ts";
import type { Work } from "../schema/kept-plan.ts";
import { normalCdf, normalQuantile } from "../statistics/normal.ts";
import type { PriceGrowth } from "./types.ts";
import { priceFactors } from "./week-costs.ts";

/**
 * What a planned repair may take and cost, as ranges. Hours, and parts with machining, are log-normal about what is told of them, as the
 * budget draws them: the logarithm has the spread told as standard deviation, and the mean is what was told.
 */

/** An amount that is log-normal; `spread` is the standard deviation of its logarithm, 0: it is certain. */
export interface Spread {
  readonly mean: number;
  readonly spread: number;
}

/** Not exceeded with probability 0.1, 0.5 and 0.9: the truth lies between low and high 8 times in 10. */
export interface AmountRange {
  readonly low: number;
  readonly likely: number;
  readonly high: number;
}

/** Log-normal at `z` standard deviations of its logarithm; the mean of all is `mean`. */
const amountAt = ({ mean, spread }: Spread, z: number): number => mean * Math.exp(spread * z - (spread * spread) / 2);

const rangeBy = (at: (probability: number) => number): AmountRange => ({
  low: at(0.1),
  likely: at(0.5),
  high: at(0.9),
});

/** The range of one amount, in closed form. */
export const rangeOfAmount = (amount: Spread): AmountRange => rangeBy((p) => amountAt(amount, normalQuantile(p)));

/** Strata over one of two amounts: more of them move no quantile by a part in 10,000. */
const strata = 400;
const halvings = 50;

/**
 * The range of the sum of two independent amounts: P(A + B ≤ x) is the mean over the strata of A of P(B ≤ x − A), and is turned round by
 * halving. There is no closed form; the sum of two P90 is no P90.
 */
export function rangeOfSum(one: Spread, other: Spread): AmountRange {
  const width = ({ mean, spread }: Spread) => mean * spread;
  // The wider one smooths the steps of the other.
  const [a, b] = width(one) <= width(other) ? [one, other] : [other, one];
  if (width(a) === 0) return rangeBy((p) => a.mean + amountAt(b, normalQuantile(p)));
  const nodes = Array.from({ length: strata }, (_, i) => amountAt(a, normalQuantile((i + 0.5) / strata)));
  const middle = Math.log(b.mean) - (b.spread * b.spread) / 2;
  const isAtMost = (x: number) =>
    nodes.reduce((sum, node) => sum + (x > node ? normalCdf((Math.log(x - node) - middle) / b.spread) : 0), 0) / strata;
  return rangeBy((p) => {
    // Each below its own quantile of √p has probability p, and their sum is then below that of these quantiles.
    let [low, high] = [0, amountAt(a, normalQuantile(Math.sqrt(p))) + amountAt(b, normalQuantile(Math.sqrt(p)))];
    for (let i = 0; i < halvings; i++) {
      const x = (low + high) / 2;
      if (isAtMost(x) < p) low = x;
      else high = x;
    }
    return (low + high) / 2;
  });
}

export interface WorkRange {
  readonly hours: AmountRange;
  /** Minor units of the currency, at the prices of the day. */
  readonly labour: AmountRange;
  readonly parts: AmountRange;
  readonly machining: AmountRange;
  /** Of the whole: narrower than the sum of its parts' ranges. */
  readonly total: AmountRange;
}

/**
 * What a work may take and cost on a day. Labour goes with the hours; parts and machining go together. How fast prices grow is taken as
 * told: what is uncertain of it is small beside the rest within a plan's weeks.
 */
export function workRange(
  { labour, parts, machining, labourHours }: Pick<Work, "labour" | "parts" | "machining" | "labourHours">,
  {
    prices,
    date,
    spreads,
  }: {
    readonly prices: PriceGrowth;
    readonly date: IsoDate;
    readonly spreads: { readonly hoursPercent: number; readonly partsPercent: number };
  },
): WorkRange {
  const grown = priceFactors(prices, date);
  const [hours, material] = [spreads.hoursPercent / 100, spreads.partsPercent / 100];
  const ofLabour = labour * grown.labour;
  const [ofParts, ofMachining] = [parts * grown.parts, machining * grown.labour];
  return {
    hours: rangeOfAmount({ mean: labourHours, spread: hours }),
    labour: rangeOfAmount({ mean: ofLabour, spread: hours }),
    parts: rangeOfAmount({ mean: ofParts, spread: material }),
    machining: rangeOfAmount({ mean: ofMachining, spread: material }),
    total: rangeOfSum({ mean: ofLabour, spread: hours }, { mean: ofParts + ofMachining, spread: material }),
  };
}
