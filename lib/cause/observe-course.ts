import { median } from "../statistics/quantile.ts";
import type { Finding } from "./bayes.ts";
import { ramp, type Standing } from "./engine-view.ts";
import type { RecentReading } from "./recent.ts";

/** A parting from the siblings that is looked at: less is within what one cylinder's readings wander. */
const partingPoints = 5;
const stepPoints = 6;
/** The share of the whole parting that one interval must hold to be called a step. */
const stepShare = 0.6;

/**
 * How one cylinder's leakage parted from its siblings': in one step or slowly over several tests. Each reading is taken
 * against the median of the other cylinders of the same test, so that what a test gets wrong for all cancels. null: it
 * did not part, or there is nothing to compare with.
 */
export function observeCourse(own: Standing, cylinder: number): Finding | null {
  const latest = own.readings[0];
  if (latest === undefined || latest.value < partingPoints || (aboveOthers(latest, cylinder) ?? 0) < partingPoints) {
    return null;
  }
  const course: { readonly value: number; readonly above: number }[] = [];
  for (const reading of own.readings) {
    const above = aboveOthers(reading, cylinder);
    if (above !== null) course.push({ value: reading.value, above });
  }
  const parting = (course[0]?.above ?? 0) - (course.at(-1)?.above ?? 0);
  if (parting < partingPoints) return null;

  let step = { size: 0, from: 0, to: 0 };
  for (let i = 0; i + 1 < course.length; i++) {
    const after = course[i];
    const before = course[i + 1];
    if (after === undefined || before === undefined) continue;
    const size = after.above - before.above;
    if (size > step.size) step = { size, from: before.value, to: after.value };
  }
  const { trust, renewed } = own;
  if (step.size >= stepPoints && step.size >= stepShare * parting) {
    const slots = { from: step.from, to: step.to };
    return { id: "sudden-step", strength: 0.8 * ramp(step.size, 3, 12) * trust, slots, renewed };
  }
  if (course.length < 3) return null;
  const slots = { rise: parting, tests: course.length };
  return { id: "slow-own-rise", strength: 0.8 * ramp(parting, 2, 10) * trust, slots, renewed };
}

/** A reading less the median of the other cylinders of its test; null: it was tested alone. */
function aboveOthers(reading: RecentReading, cylinder: number): number | null {
  const others: number[] = [];
  for (const sibling of reading.test.test.readings) if (sibling.cylinder !== cylinder) others.push(sibling.value);
  return others.length === 0 ? null : reading.value - median(others);
}
