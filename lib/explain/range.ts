import { daysBetween } from "../calendar.ts";
import type { Crossing } from "../schema/assessment.ts";

/** Days from the early to the late date of a crossing; null: one of them lies beyond the horizon. */
export const rangeDays = ({ date }: Pick<Crossing, "date">): number | null =>
  date.p10 === null || date.p90 === null ? null : daysBetween(date.p10, date.p90);
