import type { WeekCost } from "../schema/kept-plan.ts";

/**
 * Amounts in whole units that add up to their rounded sum: each is cut, and what is missing goes to those that lost most (largest
 * remainders, of alike ones the first).
 */
export function wholeParts(amounts: readonly number[], unit: number): readonly number[] {
  const cut = amounts.map((amount) => Math.floor(amount / unit));
  const whole = Math.round(amounts.reduce((a, b) => a + b, 0) / unit);
  const missing = whole - cut.reduce((a, b) => a + b, 0);
  const lost = (i: number) => (amounts[i] as number) / unit - (cut[i] as number);
  const most = Array.from(amounts.keys()).toSorted((a, b) => lost(b) - lost(a) || a - b);
  for (const i of most.slice(0, missing)) cut[i] = (cut[i] as number) + 1;
  return cut.map((count) => count * unit);
}

/** An expected cost as it is shown: its parts in whole units, which add up to the rounded whole. */
export function shownCost({ work, downtime, early, late }: WeekCost, unit: number): WeekCost {
  const parts = wholeParts([work, downtime, early, late], unit) as [number, number, number, number];
  return { work: parts[0], downtime: parts[1], early: parts[2], late: parts[3] };
}
