import { type Took, type TookTotal, tookTotal } from "../../../lib/plan/closed-bookings.ts";
import { noCurrency } from "../../../lib/schema/currency.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import type { PlanOutcome } from "../../_jobs/plan-papers.ts";
import { wholeMoney } from "../plan/plan-words.ts";
import { figure } from "./paper-words.ts";

/** How repairs turned out beside what the plan expected of them, in words. */

export const fieldWords = {
  hours: "hours",
  cost: "cost",
  daysOff: "days off the road",
} as const satisfies Record<keyof Took, string>;

/** An amount of a field; null: not recorded, or not known any more. */
function tookWords(f: Formats, field: keyof Took, value: number | null, currency: string | null): string {
  if (value === null || (field === "cost" && currency === null)) return "not known";
  if (field === "cost") return wholeMoney(f, currency ?? noCurrency)(value);
  return field === "hours" ? `${figure(f, value)} h` : f.days(value);
}

/** Forecast, actual and the difference: "14 h → 16.5 h, +2.5 h"; without a difference where one is not known. */
export function besideWords(
  f: Formats,
  field: keyof Took,
  { forecast, made, currency }: Pick<PlanOutcome, "forecast" | "made" | "currency">,
): string {
  const [a, b] = [forecast[field], made[field]];
  const words = (value: number | null) => tookWords(f, field, value, currency);
  const difference = a === null || b === null ? "" : `, ${signed(b - a, words)}`;
  return `${words(a)} → ${words(b)}${difference}`;
}

/** The same of all repairs of which both are known, and how many these are. */
export function totalWords(f: Formats, field: keyof Took, outcomes: readonly PlanOutcome[]): string {
  const { currency, same } = inOneCurrency(outcomes);
  const { known, forecast, made } = tookTotal(field === "cost" ? same : outcomes, field);
  if (known === 0) return "none known";
  const sums = (value: number): Took => ({ hours: value, cost: value, daysOff: value });
  return `${besideWords(f, field, { forecast: sums(forecast), made: sums(made), currency })}; of ${f.number(known)}`;
}

const signed = (difference: number, words: (value: number) => string): string =>
  difference === 0 ? "as forecast" : `${difference > 0 ? "+" : "−"}${words(Math.abs(difference))}`;

/** The outcomes whose amounts can be summed: those in the currency of the newest. */
export function inOneCurrency(outcomes: readonly PlanOutcome[]): {
  readonly currency: string | null;
  readonly same: readonly PlanOutcome[];
} {
  const currency = outcomes.find((of) => of.currency !== null)?.currency ?? null;
  return { currency, same: outcomes.filter((of) => of.currency === currency) };
}

/** How good the forecasts were: ratios from 20 repairs on, counts below. `outcomes`: the newest first. */
export function doneFinding(f: Formats, outcomes: readonly PlanOutcome[]): string {
  if (outcomes.length === 0) return "No repair that a plan had booked is on file yet.";
  const count = `${f.number(outcomes.length)} ${outcomes.length === 1 ? "repair that a plan had booked is" : "repairs that a plan had booked are"} on file`;
  const { same } = inOneCurrency(outcomes);
  const [hours, cost] = [tookTotal(outcomes, "hours"), tookTotal(same, "cost")];
  const ratios = [...ratioWords(f, "hours", hours), ...ratioWords(f, "cost", cost)];
  if (ratios.length > 0) return `${count}; half of them took at least ${ratios.join(" and ")}.`;
  return `${count}; both forecast and actual are known of ${f.number(hours.known)} in hours and ${f.number(cost.known)} in cost: too few to tell more than the sums.`;
}

const ratioWords = (f: Formats, of: "hours" | "cost", { medianRatio }: TookTotal): readonly string[] =>
  medianRatio === null ? [] : [`${f.percent(100 * medianRatio)} of the ${of === "hours" ? "hours" : "money"} forecast`];
