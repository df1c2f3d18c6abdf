import { daysBetween } from "../lib/calendar.ts";
import { firstDay, type UnitPlan } from "./plan.ts";
import { type Random, seededRandom } from "./random.ts";

const daysInYear = 365.25;
const quarterDays = daysInYear / 4;

/** Of a unit that works in the mowing season only: its share of the year's use by quarter from September on. */
const summerShares = [0.22, 0, 0.3, 0.48];

/** A stream of random numbers of a unit's own, so that a change to one unit leaves the others as they are. */
export function randomOf(unit: string, purpose: string, seed: number): Random {
  let hash = seed;
  for (const letter of `${unit}/${purpose}`) hash = (Math.imul(hash, 31) + letter.charCodeAt(0)) >>> 0;
  return seededRandom(hash);
}

/** Years of usual use that a unit has behind it on a date, since the first day. */
export function yearsWorked(plan: UnitPlan, seed: number): (date: string) => number {
  const random = randomOf(plan.unit, "use", seed);
  const paces = Array.from({ length: 13 }, (_, quarter) => {
    if (plan.use === "summer") return 4 * (summerShares[quarter % 4] as number);
    return plan.use === "steady" ? 1 : random.between(0.8, 1.2);
  });
  return (date) => {
    let days = daysBetween(firstDay, date);
    let years = 0;
    for (const pace of paces) {
      years += (pace * Math.min(days, quarterDays)) / daysInYear;
      days -= quarterDays;
      if (days <= 0) break;
    }
    return years;
  };
}

/** What the unit's meter shows on a date, in whole units. */
export function meterOf(plan: UnitPlan, seed: number): (date: string) => number {
  const use = yearsWorked(plan, seed);
  const total = (date: string) => plan.startMeter + plan.yearly * use(date);
  const { newMeter } = plan;
  if (newMeter === undefined || !newMeter.noted) return (date) => Math.round(total(date));
  const atChange = total(newMeter.date);
  return (date) =>
    date < newMeter.date
      ? Math.min(newMeter.from, Math.round(total(date)))
      : Math.round(newMeter.to + total(date) - atChange);
}
