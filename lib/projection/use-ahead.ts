import { addDays } from "../calendar.ts";
import type { IsoDate } from "../schema/facts.ts";
import { daysOfSeason, seasonDays } from "./season.ts";
import type { UseForecast } from "./types.ts";

/** Mean use from one date to a later one: the use a day, by the season of each day where the unit's kind has one. */
export const distanceBetween = (use: UseForecast, from: IsoDate, to: IsoDate): number =>
  use.perDay * seasonDays(use.season?.quarters ?? null, from, to);

/** Mean use from the as-of date until so many days later. */
export const distanceWithin = (use: UseForecast, days: number): number =>
  use.season == null ? use.perDay * days : distanceBetween(use, use.season.from, addDays(use.season.from, days));

/** Days from the as-of date until so much more is used by the mean use; less than 0: before it. Infinite without use. */
export function daysFor({ perDay, season }: Pick<UseForecast, "perDay" | "season">, distance: number): number {
  if (perDay <= 0) return Number.POSITIVE_INFINITY;
  return season == null ? distance / perDay : daysOfSeason(season.quarters, season.from, distance / perDay);
}
