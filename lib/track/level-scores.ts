import { rounded } from "../assessment/rounding.ts";
import {
  type Forecaster,
  fewestOutcomes,
  type Held,
  type LevelCase,
  type LevelGroup,
  type LevelScore,
  type Range,
  type ReliabilityPoint,
  toldLevels,
} from "../schema/track-record.ts";
import { median } from "../statistics/quantile.ts";
import { pinballLoss, wilsonInterval } from "../statistics/scores.ts";

/** Scores of forecasts of readings. */

const middle = toldLevels.indexOf(0.5);
/** Where each range's ends stand among the quantiles. */
const endsOf: Readonly<Record<Range, readonly [low: number, high: number]>> = { 50: [2, 4], 80: [1, 5], 90: [0, 6] };

/** Readings of one test err together: they are one outcome. */
export const outcomesOf = (cases: readonly Pick<LevelCase, "engine" | "measure" | "came">[]): number =>
  new Set(cases.map((c) => `${c.engine}\u0000${c.measure}\u0000${c.came}`)).size;

/**
 * How often ranges held. The interval is Wilson's for so many independent outcomes as there are tests, not readings, for
 * those of one test err together.
 */
export function heldOf(held: number, of: number, outcomes: number): Held {
  const isEnough = outcomes >= fewestOutcomes && of > 0;
  return { held, of, ...shareHeld(isEnough ? held / of : null, Math.min(of, outcomes)) };
}

/** A share, with Wilson's interval for so many independent outcomes; null: none is told. */
export function shareHeld(share: number | null, outcomes: number): Pick<Held, "share" | "low" | "high"> {
  if (share === null) return { share: null, low: null, high: null };
  const [low, high] = wilsonInterval(share * outcomes, outcomes);
  return { share: rounded(share, 4), low: rounded(Math.max(0, low), 4), high: rounded(Math.min(1, high), 4) };
}

export function levelScore(cases: readonly LevelCase[], forecaster: Forecaster): LevelScore | null {
  const told = cases.flatMap((one) => {
    const quantiles = one.told[forecaster];
    return quantiles === null ? [] : [{ one, quantiles: quantiles as readonly number[] }];
  });
  if (told.length === 0) return null;
  const outcomes = outcomesOf(told.map(({ one }) => one));
  const isEnough = outcomes >= fewestOutcomes;
  const range = (of: Range): Held => {
    const [low, high] = endsOf[of];
    const held = told.filter(
      ({ one, quantiles }) => one.reading >= (quantiles[low] as number) && one.reading <= (quantiles[high] as number),
    ).length;
    return heldOf(held, told.length, outcomes);
  };
  const errors = told.map(({ one, quantiles }) => Math.abs(one.reading - (quantiles[middle] as number)));
  const loss = told.reduce(
    (sum, { one, quantiles }) =>
      sum + toldLevels.reduce((all, level, i) => all + pinballLoss(quantiles[i] as number, one.reading, level), 0),
    0,
  );
  return {
    outcomes,
    readings: told.length,
    coverage: { "50": range(50), "80": range(80), "90": range(90) },
    medianError: isEnough ? rounded(median(errors), 3) : null,
    pinball: isEnough ? rounded(loss / told.length / toldLevels.length, 4) : null,
  };
}

/** Whether all that tell levels could tell this one: else the harder cases would fall to one forecaster alone. */
export const isScored = ({ told }: Pick<LevelCase, "told">): boolean =>
  told["straight-line"] !== null && told["last-time"] !== null;

/** All forecasters on the same cases. */
export function levelScores(cases: readonly LevelCase[]): LevelGroup["scores"] {
  const common = cases.filter(isScored);
  const of = (forecaster: Forecaster) => levelScore(common, forecaster);
  return {
    borecast: of("borecast"),
    "straight-line": of("straight-line"),
    "last-time": of("last-time"),
    "fixed-interval": of("fixed-interval"),
  };
}

/** Groups in the order of their names, those without a name last. */
export function groupsOf<C, S>(
  cases: readonly C[],
  keyOf: (one: C) => string | null,
  scoresOf: (some: readonly C[]) => S,
  nameOf: (key: string | null) => string,
): { key: string | null; name: string; scores: S }[] {
  const groups = new Map<string | null, C[]>();
  for (const one of cases) {
    const key = keyOf(one);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [one]);
    else group.push(one);
  }
  return [...groups]
    .map(([key, some]) => ({ key, name: nameOf(key), scores: scoresOf(some) }))
    .toSorted((a, b) => Number(a.key === null) - Number(b.key === null) || (a.name < b.name ? -1 : 1));
}

const spans = [
  { key: "to-6-months", name: "up to 6 months", most: 182 },
  { key: "6-to-12-months", name: "6 to 12 months", most: 365 },
  { key: "1-to-2-years", name: "1 to 2 years", most: 730 },
  { key: "over-2-years", name: "over 2 years", most: Number.POSITIVE_INFINITY },
] as const;

/** The span that so many days ahead fall into, by its key. */
export const spanOf = (days: number): string => (spans.find(({ most }) => days <= most) ?? spans[3]).key;

export const byAhead = (cases: readonly LevelCase[]): LevelGroup[] =>
  spans.flatMap(({ key, name }) => {
    const some = cases.filter(({ days }) => spanOf(days) === key);
    return some.length === 0 ? [] : [{ key, name, scores: levelScores(some) }];
  });

/**
 * Told probability that a reading lies at or below each quantile, against the share that did. On the side of worse: high
 * leakage, low compression.
 */
export function levelReliability(cases: readonly LevelCase[]): ReliabilityPoint[] {
  const outcomes = outcomesOf(cases);
  return toldLevels.map((predicted, i) => {
    const came = cases.filter((one) => {
      const isFalling = one.measure === "compression-dry";
      const quantile = one.told.borecast?.[isFalling ? toldLevels.length - 1 - i : i] ?? Number.NaN;
      return isFalling ? one.reading >= quantile : one.reading <= quantile;
    }).length;
    const { share, low, high } = heldOf(came, cases.length, outcomes);
    return { predicted, observed: share, low, high, came, of: cases.length };
  });
}
