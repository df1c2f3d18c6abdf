import { isoWeek } from "../lib/calendar.ts";
import type { WaitWeek } from "../lib/plan/can-wait.ts";
import { loadOf } from "../lib/plan/load.ts";
import { orderBy } from "../lib/plan/order-by.ts";
import { totalOf } from "../lib/plan/types.ts";
import { likelyWaiting } from "../lib/plan/waiting.ts";
import { mondayOf } from "../lib/plan/week-costs.ts";
import { minorUnits } from "../lib/plan/works-of.ts";
import type { Resource, WhyLeftOut } from "../lib/schema/kept-plan.ts";
import { dateWords, listWords, numberWords, percentWords } from "../lib/wording.ts";
import { classWords, type ToldPlan, weekName } from "./plan-document.ts";
import { table } from "./table.ts";

const moneyIn = (currency: string) => {
  const minor = minorUnits(currency);
  return (amount: number) => numberWords(amount / minor);
};

/** One decimal where there is one to tell. */
const amountWords = (amount: number) => numberWords(amount, Number.isInteger(Number(amount.toFixed(1))) ? 0 : 1);

/** The bookings, what found no room, the load of each depot, and the costs, as tables and sentences. */
export function planTables(told: ToldPlan): string {
  const { plan, problem, workshop, asOf } = told;
  const money = moneyIn(workshop.currency);
  const named = workshop.currency === "XXX" ? "" : ` ${workshop.currency}`;
  const bookings = table(
    ["week", "begins", "depot", "unit", "repair", "work", "days off", "early", "late", "total", "order by"],
    plan.bookings.map(({ start, depot, unit, scope, cost, isPinned, ...booking }) => [
      weekName(start),
      start,
      depot,
      isPinned ? `${unit} (pinned)` : unit,
      scope,
      money(cost.work),
      money(cost.downtime),
      money(cost.early),
      money(cost.late),
      money(totalOf(cost)),
      orderBy({ start, ...booking }),
    ]),
    [5, 6, 7, 8, 9],
  );
  const against = plan.nothingBookedCost;
  const lines = [
    `${numberWords(plan.bookings.length)} repairs planned from ${dateWords(problem.firstMonday)} on, over ${problem.weeks} weeks, as of ${dateWords(asOf)}.`,
    `Against booking nothing the plan saves ${money(against - plan.cost)}${named} in expected cost; first come, first served saves ${money(against - plan.firstComeCost)}${named}. No plan${plan.bookings.some(({ isPinned }) => isPinned) ? " round these pins" : ""} saves over ${money(against - plan.bound)}${named}.`,
    ...plan.notFitted.map(
      ({ unit, scope, bestWeek, extra }) =>
        `No room for ${unit}, ${scope}, best in ${weekName(mondayOf(problem.firstMonday, bestWeek))}: waiting costs ${money(extra)}${named}.`,
    ),
    ...likelyWaiting(plan.waiting, []).map(
      ({ unit, of, chance }) =>
        `Waits for its next test: ${unit}, ${classWords[of]}, ${percentWords(Math.round(100 * chance))} likely to fall due within the plan, cheaper to leave than to book now.`,
    ),
    ...leftOutLines(told),
  ];
  return `${bookings}\n${loadTable(told)}\n${lines.join("\n")}\n`;
}

const leftOutWords: Record<WhyLeftOut, string> = {
  retired: "Retired",
  "too-few-tests": "Too few tests to foresee anything; test them first",
  "no-depot": "Without a depot",
  "no-costs": "Their engine models tell no cost of repairs, or of an exchange engine alone, and none is in stock",
};

function leftOutLines({ leftOut }: ToldPlan): readonly string[] {
  return Object.entries(leftOutWords).flatMap(([why, words]) => {
    const units = leftOut.filter((one) => one.why === why).map(({ unit }) => unit);
    return units.length === 0 ? [] : [`${words}: ${listWords(units)}.`];
  });
}

/** Weeks in which something is booked. */
function loadTable({ plan, problem }: ToldPlan): string {
  const rows = loadOf(plan, problem).filter(({ bayDays, hours }) => bayDays.used > 0 || hours.used > 0);
  const of = ({ used, has }: { readonly used: number; readonly has: number }) =>
    `${amountWords(used)} of ${amountWords(has)}`;
  return table(
    ["depot", "week", "bay days", "hours"],
    rows.map(({ depot, week, bayDays, hours }) => [
      depot,
      weekName(mondayOf(problem.firstMonday, week)),
      of(bayDays),
      of(hours),
    ]),
    [2, 3],
  );
}

const dearWords = { closed: "closed weeks", peak: "peak weeks" } as const;

/** What each repair of one unit costs and risks by the week in which it begins. */
export function waitTable({ workshop }: ToldPlan, unit: string, weeks: readonly WaitWeek[]): string {
  const money = moneyIn(workshop.currency);
  const share = (probability: number) => percentWords(Math.round(100 * probability));
  const rows = weeks.map(({ start, scope, cost, extra, dearBy, pastLimit, failed }) => [
    scope,
    weekName(start),
    start,
    money(totalOf(cost)),
    money(extra),
    share(pastLimit),
    share(failed),
    dearBy.map((why) => dearWords[why]).join(", "),
  ]);
  const header = [
    "repair",
    "week",
    "begins",
    "expected cost",
    "more than at best",
    "past limit by then",
    "failed by then",
    "dear by",
  ];
  return `Can ${unit} wait? What each week costs and risks, room or no room\n\n${table(header, rows, [3, 4, 5, 6])}`;
}

/** What of the pins can't be kept, or takes more than there is, as sentences: what, where, and by how much to give way. */
export function troubleLines({ plan, problem, outside }: ToldPlan): readonly string[] {
  const weekOf = (week: number) => weekName(mondayOf(problem.firstMonday, week));
  const why = {
    unit: "this plan has no such unit with a forecast",
    work: "its engine model tells no cost of it",
    sold: "the unit is sold by then",
    twice: "an earlier pin of the unit puts the same right",
    closed: "its workshop is closed then, or the work would not be done in time",
  };
  return [
    ...plan.impossible.map(
      ({ pin, why: of }) => `The pin of ${pin.unit}, ${pin.scope}, in ${weekOf(pin.week)} can't be kept: ${why[of]}.`,
    ),
    ...outside.map(
      ({ unit, scope, date }) =>
        `The pin of ${unit}, ${scope}, on ${date} lies outside the plan's weeks, which begin in ${weekOf(0)}.`,
    ),
    ...plan.overloads.map(({ resource, capacity, used }) =>
      resource.kind === "unit"
        ? `Pins have ${resource.unit} in for ${used} repairs at once in week ${isoWeek(mondayOf(problem.firstMonday, resource.week)).week}: pin both ends together, or move one.`
        : `Pins take ${amountWords(used)} ${resourceWords(resource)} in week ${isoWeek(mondayOf(problem.firstMonday, resource.week)).week}, which has ${amountWords(capacity)}: move one, or find ${amountWords(used - capacity)} more.`,
    ),
  ];
}

function resourceWords(resource: Exclude<Resource, { readonly kind: "unit" }>): string {
  if (resource.kind === "spares") return `spare engines of ${resource.engineModel}`;
  if (resource.kind === "out-together") return `units of ${resource.group} off the road`;
  const of = { "bay-days": "bay days", hours: "hours", "builder-hours": "hours of bottom-end builders" }[resource.kind];
  return `${of} at ${resource.depot}`;
}
