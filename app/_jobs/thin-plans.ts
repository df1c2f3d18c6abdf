import { unitNames } from "../../db/assessments.ts";
import { plansOfBudgets } from "../../db/budgets.ts";
import { repairFacts } from "../../db/facts.ts";
import { planHeads, removePlans } from "../../db/plans.ts";
import type { Store } from "../../db/store.ts";
import { mondayOnOrAfter } from "../../lib/calendar.ts";
import { closedBookings } from "../../lib/plan/closed-bookings.ts";
import { bookedEver } from "./booked-ever.ts";

/** The newest stay, whoever made them: a look back over some days of changes. */
const newestKept = 20;

/**
 * Removes older plans that the program made by itself; a fleet of thousands would else fill gigabytes a year with plans that nobody
 * looked at. There stay, beside the newest: what a person made; what a budget was drawn under; what had a repair on file booked, for
 * the repair is told beside it; and the last one of each week, for a repair that is recorded late. Gives how many were removed.
 */
export async function thinPlans(store: Store, by: string): Promise<number> {
  const heads = await planHeads(store);
  const weeks = new Set<string>();
  const passed = heads.filter((head, place) => {
    const week = mondayOnOrAfter(head.asOf);
    const isLastOfWeek = !weeks.has(week);
    weeks.add(week);
    return place >= newestKept && head.by === by && !isLastOfWeek;
  });
  if (passed.length === 0) return 0;
  const needed = new Set([...(await plansOfBudgets(store)), ...(await plansOfRepairs(store))]);
  const ids = passed.flatMap(({ id }) => (needed.has(id) ? [] : [id]));
  await removePlans(store, ids);
  return ids.length;
}

async function plansOfRepairs(store: Store): Promise<readonly number[]> {
  const repairs = await repairFacts(store, await unitNames(store));
  const bookings = await bookedEver(store, [...new Set(repairs.map(({ unit }) => unit))]);
  return closedBookings(bookings, repairs).flatMap((closed) => closed.bookings.map(({ plan }) => plan));
}
