import type { PlanRow } from "../../../db/plans.ts";
import { isoWeek } from "../../../lib/calendar.ts";
import type { AmountRange } from "../../../lib/plan/amounts.ts";
import { priceGrowthOf } from "../../../lib/plan/problem-of.ts";
import { planScopeWords } from "../../../lib/plan/scope-words.ts";
import { isDropped } from "../../../lib/plan/waiting.ts";
import { workCost } from "../../../lib/plan/week-costs.ts";
import type { IsoDate } from "../../../lib/schema/facts.ts";
import type {
  ClassWindow,
  KeptBooking,
  KeptPlan,
  PlanScope,
  RepairClass,
  WhyLeftOut,
} from "../../../lib/schema/kept-plan.ts";
import type { Workshop } from "../../../lib/schema/workshop.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { enteredDecimals, sentenceWords } from "../../../lib/wording.ts";

/** How a plan's papers say things. */

const noBreak = "\u00a0";

export const classWords = { topEnd: "top-end", bottomEnd: "bottom-end" } as const satisfies Record<RepairClass, string>;

/** "week 45, from 2 Nov 2026" */
export const weekWords = (f: Formats, monday: IsoDate): string =>
  `week ${isoWeek(monday).week}, from ${f.date(monday)}`;

/** "12", "12.5" */
export const figure = (f: Formats, value: number): string =>
  f.number(value, Number.isInteger(Number(value.toFixed(1))) ? 0 : 1);

/** "20 Oct 2026 – 9 Nov 2026 – Feb 2027"; what is not foreseen, or met by the as-of date, is said. */
export function windowWords(f: Formats, { p10, p50, p90 }: ClassWindow, asOf: IsoDate): string {
  if (p10 === null) return "not foreseen";
  if (p90 !== null && p90 <= asOf) return "met by now";
  const say = (date: IsoDate | null, otherwise: string) => (date === null ? otherwise : f.forecast(date, p10, p90));
  return `${say(p10, "")} – ${say(p50, "no likely date")} – ${say(p90, "no late end")}`;
}

/** How sure the class of a booking is, in a few words. */
export function sureWords(f: Formats, { sure, work }: Pick<KeptBooking, "sure" | "work">): string {
  if (sure !== null) return `${f.probability(sure)} this class`;
  return work.cures.length > 1 ? "cures both classes" : "no class foreseen";
}

/** The three figures of a range, on the job card and on the quote alike. */
export const edges = ["low", "likely", "high"] as const;

/** "Parts, 3,226 expected": what is told of the model at the prices of the week, as the parts to order have it. */
export const materialName = (f: Formats, of: "parts" | "machining", expected: number, currency: string): string =>
  `${of === "parts" ? "Parts" : "Machining, outside"}, ${f.money(expected, currency)} expected`;

/** What the three figures are, and what is expected beside them. */
export const edgesSay =
  "Low to high is meant to hold 8 times in 10; likely is the middle, as often exceeded as not; expected is the mean over all that may come.";

/** How the plan's amount for a booking's work, the mean at the prices of its week, and the middle of the range hang together. */
export function reckonedWords(
  f: Formats,
  booking: Pick<KeptBooking, "work" | "start">,
  { workshop, asOf, plan: { firstMonday, currency } }: Pick<PlanRow, "workshop" | "asOf" | "plan">,
): string {
  const prices = priceGrowthOf(workshop, asOf);
  const at = (date: IsoDate) => f.money(Math.round(workCost(booking.work, prices, date)), currency);
  const [plan, week] = [at(firstMonday), at(booking.start)];
  const grown = plan === week ? "the same in its week" : `grown to its week, ${week}`;
  return `The plan reckons with ${plan} for the work: expected, at the prices of ${f.date(firstMonday)}, whichever the week; ${grown}.`;
}

/** What to set aside beside a quote, by the setting in force, in a sentence. */
export function contingencyWords(
  f: Formats,
  booking: Pick<KeptBooking, "work" | "start">,
  {
    row: { workshop, asOf, plan },
    limits,
  }: {
    readonly row: Pick<PlanRow, "workshop" | "asOf" | "plan">;
    readonly limits: { readonly workshop: Pick<Workshop, "contingencyPercent"> };
  },
): string {
  const percent = limits.workshop.contingencyPercent;
  const expected = workCost(booking.work, priceGrowthOf(workshop, asOf), booking.start);
  const amount = f.money(Math.round((percent / 100) * expected), plan.currency);
  return `Contingency beside it: ${amount}, ${f.percent(percent, enteredDecimals(percent))} of what the work is expected to cost (a setting; 10 to 20 % for planned work, 25 to 40 % until the engine is opened, is common practice, no source).`;
}

const hours = (f: Formats, value: number): string => f.number(value, value < 20 ? 1 : 0);

/** "10.6 h" */
export const hoursFigure = (f: Formats, value: number): string => `${hours(f, value)}${noBreak}h`;

/** "10.6 to 17.7 h" */
export const hoursRange = (f: Formats, { low, high }: AmountRange): string =>
  `${hours(f, low)} to ${hours(f, high)}${noBreak}h`;

/** Why one unit is not planned, as a clause. */
export const leftOutWords: Record<WhyLeftOut, string> = {
  retired: "it is retired, and in service no more",
  "too-few-tests": "its tests are too few to foresee anything: test it first",
  "no-depot": "it has no depot on file",
  "no-costs": "its engine model tells no costs of repairs, or of an exchange engine alone, and none is in stock",
};

/** Why a unit has no booking, in sentences; where a repair was booked and made, that. */
export function notBookedWords(
  f: Formats,
  unit: string,
  {
    plan,
    made,
    dropped,
  }: {
    readonly plan: Pick<KeptPlan, "notFitted" | "waiting" | "leftOut" | "currency" | "weeks">;
    /** Day of the last of its repairs that a plan had booked; null: none. */
    readonly made: IsoDate | null;
    /** What people chose not to have booked. */
    readonly dropped: readonly { readonly unit: string; readonly scope: PlanScope; readonly by: string }[];
  },
): string {
  const sentences = [
    ...(made === null ? [] : [`It was repaired on ${f.date(made)}, and that booking is closed.`]),
    ...dropped
      .filter((of) => of.unit === unit)
      .map(({ scope, by }) =>
        sentenceWords(`${planScopeWords[scope]}: dropped by ${by}; the plan tells what that costs.`),
      ),
    ...plan.notFitted
      .filter((of) => of.unit === unit)
      .map(
        ({ of, extra }) =>
          `A ${of.map((one) => classWords[one]).join(" and ")} repair found no room; waiting costs ${f.money(extra, plan.currency)}.`,
      ),
    ...plan.leftOut
      .filter((of) => of.unit === unit)
      .map(({ why }) => sentenceWords(`it is not planned: ${leftOutWords[why]}.`)),
    ...plan.waiting
      .filter((of) => of.unit === unit && !isDropped(dropped, of))
      .map(
        ({ of, chance, sold }) =>
          `${sentenceWords(classWords[of])}: ${f.probability(chance)} likely to fall due ${sold === undefined ? `within the plan’s ${f.number(plan.weeks)} weeks` : `before it is sold in ${weekWords(f, sold.start)}`}; waiting for the next test costs less than any week for it.`,
      ),
  ];
  return sentences.length === 0 ? "Nothing is foreseen to fall due within the plan." : sentences.join(" ");
}
