import { addDays } from "../calendar.ts";
import type { IsoDate } from "../schema/facts.ts";
import type { Booking, Work } from "../schema/kept-plan.ts";

const workingDaysOfWeek = 5;
const daysOfWeek = 7;

/** The first week of a plan in which parts that are ordered as it is made can be there. */
export const earliestWeek = ({ leadDays }: Pick<Work, "leadDays">): number => Math.ceil(leadDays / workingDaysOfWeek);

/** The last day on which parts can be ordered that are to be there when the work begins: so many working days before. */
export function orderBy({ start, work }: Pick<Booking, "start" | "work">): IsoDate {
  const weeks = Math.floor(work.leadDays / workingDaysOfWeek);
  const days = Math.ceil(work.leadDays - weeks * workingDaysOfWeek);
  // A start is a Monday: what is left of a week of working days lies before the weekend.
  return addDays(start, -(daysOfWeek * weeks + (days === 0 ? 0 : days + 2)));
}
