import { daysBetween } from "../calendar.ts";
import type { IsoDate } from "../schema/facts.ts";
import type { LimitCase } from "../schema/track-record.ts";
import { censoringWeights } from "../statistics/kaplan-meier.ts";

/** Days within which a limit is foretold to be met. */
export const withinDays = [182, 365, 730] as const;

type Followed = Pick<LimitCase, "made" | "metOn" | "until">;

/** A forecast of which is known whether its limit was met within the span. */
export interface WithinOutcome<T> {
  readonly one: T;
  readonly came: boolean;
  /** Above 0. Those of all outcomes are told in shares of their sum. */
  readonly weight: number;
}

/**
 * Whether limits were met within so many days of the forecast. Of a forecast younger than that only a limit that was met
 * could be known: those are left out, whatever came of them. Of the others some end before they are decided, at the last
 * test or at a repair; what is known is weighted for them (inverse probability of censoring). `isWhole`: shares can be told
 * of it, for somebody was followed so long; else what came last is not known of anybody.
 *
 * @param asOf day up to which it is known what came
 */
export function outcomesWithin<T extends Followed>(
  cases: readonly T[],
  days: number,
  asOf: IsoDate,
): { readonly known: readonly WithinOutcome<T>[]; readonly isWhole: boolean } {
  const old = cases.filter(({ made }) => daysBetween(made, asOf) >= days);
  const followed = old.map(daysFollowed);
  const weights = censoringWeights(followed, days);
  const known = old.flatMap((one, i) => {
    const { at, ended } = followed[i] as (typeof followed)[number];
    const weight = weights[i] as number;
    return weight === 0 ? [] : [{ one, came: ended && at <= days, weight }];
  });
  const sum = known.reduce((all, { weight }) => all + weight, 0);
  return { known, isWhole: old.length > 0 && sum > old.length * (1 - 1e-9) };
}

/** Days to the day on which the limit was met, or for which it was not. */
export const daysFollowed = ({ made, metOn, until }: Followed): { readonly at: number; readonly ended: boolean } => ({
  at: daysBetween(made, metOn ?? until),
  ended: metOn !== null,
});

/** Mean over outcomes, each by its weight; 0 of none. */
export function weightedMean<T>(known: readonly WithinOutcome<T>[], of: (outcome: WithinOutcome<T>) => number): number {
  const sum = known.reduce((all, { weight }) => all + weight, 0);
  return sum === 0 ? 0 : known.reduce((all, each) => all + each.weight * of(each), 0) / sum;
}
