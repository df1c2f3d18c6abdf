import type { WaitWeek } from "../../../lib/plan/can-wait.ts";
import { cures } from "../../../lib/plan/cures.ts";
import { totalOf } from "../../../lib/plan/types.ts";
import type { IsoDate } from "../../../lib/schema/facts.ts";
import type { PlanScope, RepairClass, WeekCost } from "../../../lib/schema/kept-plan.ts";
import { weekWords } from "./plan-words.ts";

/** What it costs not to book a repair within the plan: to leave each class that it cures, to be repaired after it; null: it cures nothing that may fall due. */
export function notBooking(leaving: Readonly<Record<RepairClass, WeekCost | null>>, scope: PlanScope): number | null {
  const left = cures(scope).flatMap((of) => leaving[of] ?? []);
  return left.length === 0 ? null : left.reduce((sum, cost) => sum + totalOf(cost), 0);
}

/** What the best costs: the cheapest week, or not booking where that is cheaper. */
export const leastOf = (weeks: readonly WaitWeek[], left: number | null): number =>
  Math.min(...weeks.map(({ cost }) => totalOf(cost)), left ?? Number.POSITIVE_INFINITY);

/** Whether a repair can wait, in one or two sentences: what not booking costs against its cheapest week. */
export function waitWords(
  money: (amount: number) => string,
  { weeks, left, asOf }: { readonly weeks: readonly WaitWeek[]; readonly left: number | null; readonly asOf: IsoDate },
): string {
  const [best] = weeks.toSorted((a, b) => totalOf(a.cost) - totalOf(b.cost) || a.week - b.week);
  if (best === undefined) return "";
  const least = totalOf(best.cost);
  const week = `${weekWords(best.start, asOf)} at ${money(least)}`;
  if (left === null) return `Cheapest in ${week}.`;
  return left <= least
    ? `Not booking it is best: that costs ${money(left)}, its repair after the plan counted in. Its cheapest week, ${week}, costs ${money(least - left)} more: it waits for its next test.`
    : `Cheapest in ${week}; not booking it within the plan costs ${money(left - least)} more, its repair after the plan counted in.`;
}
