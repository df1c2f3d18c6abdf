import { isoWeek } from "../../../lib/calendar.ts";
import type { Choice } from "../../../lib/plan/amended.ts";
import type { WaitWeek } from "../../../lib/plan/can-wait.ts";
import type { DropCost } from "../../../lib/plan/moves.ts";
import { planGap, totalOf } from "../../../lib/plan/types.ts";
import { mondayOf } from "../../../lib/plan/week-costs.ts";
import { minorDigits } from "../../../lib/schema/currency.ts";
import type { IsoDate } from "../../../lib/schema/facts.ts";
import type {
  KeptBooking,
  KeptPlan,
  Overload,
  PlanScope,
  RepairClass,
  Resource,
  WhyImpossible,
  WhyLeftOut,
} from "../../../lib/schema/kept-plan.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { countWord, listWords, sentenceWords } from "../../../lib/wording.ts";

/** Amounts in whole units of the currency: an expected cost is no bill. */
export function wholeMoney(f: Formats, currency: string): (amount: number) => string {
  const minor = 10 ** minorDigits(currency);
  return (amount) => f.money(Math.round(amount / minor) * minor, currency);
}

/** The same where there is little room. */
export const shortScope: Readonly<Record<PlanScope, string>> = {
  "top-end": "top-end",
  "bottom-end": "bottom-end",
  both: "both ends",
  exchange: "exchange",
};

export const classWords: Readonly<Record<RepairClass, string>> = { topEnd: "top-end", bottomEnd: "bottom-end" };

/** "week 42", and its year where that is not the day's. */
export function weekWords(monday: IsoDate, asOf: IsoDate): string {
  const { year, week } = isoWeek(monday);
  return year === isoWeek(asOf).year ? `week\u00a0${week}` : `week\u00a0${week} of ${year}`;
}

const dearWords: Readonly<Record<WaitWeek["dearBy"][number], string>> = {
  closed: "off the road while the workshop is closed",
  peak: "off the road in peak weeks",
};

/** Why a week is dear that is so by its days off the road, as a clause; empty: it is not. */
export const whyDear = ({ dearBy }: Pick<WaitWeek, "dearBy">): string => listWords(dearBy.map((why) => dearWords[why]));

/** The plan in one or two sentences: how much fits, and the one conflict that it resolves or leaves. */
export function planFinding(
  f: Formats,
  {
    plan,
    bookings,
    overloads,
    asOf,
  }: {
    readonly plan: KeptPlan;
    readonly bookings: readonly KeptBooking[];
    readonly overloads: readonly Overload[];
    readonly asOf: IsoDate;
  },
): string {
  const waits = plan.notFitted.length;
  const fits =
    bookings.length === 0
      ? "No repair pays within the plan"
      : `${sentenceWords(countWord(bookings.length))} ${bookings.length === 1 ? "repair is" : "repairs are"} booked`;
  const rest = waits === 0 ? "." : `, ${countWord(waits)} ${waits === 1 ? "finds" : "find"} no room.`;
  return `${fits}${rest} ${conflictWords(f, { plan, bookings, overloads, asOf })}`.trim();
}

function conflictWords(f: Formats, { plan, bookings, overloads, asOf }: Parameters<typeof planFinding>[1]): string {
  const [over] = overloads;
  if (over !== undefined) return overloadWords(f, over, plan.firstMonday, asOf);
  const money = wholeMoney(f, plan.currency);
  const avoided = avoidedAtOneDepot(bookings);
  const [first] = avoided;
  if (first !== undefined) {
    const units = listWords(avoided.map(({ booking }) => booking.unit));
    const weeks = avoided.map(({ booking }) => weekWords(booking.start, asOf));
    const early = avoided.reduce((sum, { booking }) => sum + booking.cost.early, 0);
    const late = avoided.reduce((sum, { booking, instead }) => sum + instead.cost.late - booking.cost.late, 0);
    const opens = weekWords(first.instead.start, asOf);
    const depot = first.booking.depot;
    const taking = avoided.length === 1 ? `taking it in ${weeks[0]} gives` : `taking them in ${listWords(weeks)} gives`;
    return `${units} would ${avoided.length === 2 ? "both " : ""}fall due while ${depot} is closed: ${taking} away ${money(early)} of unused life and avoids ${money(late)} of risk until ${opens}.`;
  }
  const [left] = plan.notFitted;
  if (left !== undefined) return `${left.unit} waits, which costs ${money(left.extra)}.`;
  const [next] = bookings;
  return next === undefined
    ? "What may fall due is cheaper to wait for than to book now."
    : `The first is ${next.unit} in ${weekWords(next.start, asOf)} at ${next.depot}.`;
}

/** Bookings that come before a closing in which they would fall due, of the depot where that saves the most. */
function avoidedAtOneDepot(bookings: readonly KeptBooking[]) {
  const avoided = bookings.flatMap((booking) => {
    const { instead, cost } = booking;
    return instead == null ? [] : [{ booking, instead, saves: totalOf(instead.cost) - totalOf(cost) }];
  });
  const savedAt = (depot: string) =>
    avoided.reduce((sum, one) => sum + (one.booking.depot === depot ? one.saves : 0), 0);
  const depot = [...new Set(avoided.map(({ booking }) => booking.depot))].toSorted(
    (a, b) => savedAt(b) - savedAt(a),
  )[0];
  return avoided.filter(({ booking }) => booking.depot === depot);
}

/** What is taken above what there is, and what would help. */
export function overloadWords(
  f: Formats,
  { resource, capacity, used }: Overload,
  firstMonday: IsoDate,
  asOf: IsoDate,
): string {
  const monday = mondayOf(firstMonday, resource.week);
  if (resource.kind === "unit")
    return `${resource.unit} is booked for ${countWord(used)} repairs at once in ${weekWords(monday, asOf)}: book both ends together, or move one.`;
  const more = used - capacity;
  const amount = f.number(more, Number.isInteger(Number(more.toFixed(1))) ? 0 : 1);
  return `${placeWords(resource)} ${amount} ${resourceWords(resource, more)} over in ${weekWords(monday, asOf)}: move a booking, or find ${amount} more.`;
}

/** What would have to be found for a repair without room, as a clause; empty: nothing by itself, the whole plan is tight. */
export function lacksWords(
  f: Formats,
  lacks: readonly Overload[],
  { firstMonday, asOf }: { readonly firstMonday: IsoDate; readonly asOf: IsoDate },
): string {
  const told = lacks.map(({ resource, capacity, used }) => {
    if (resource.kind === "unit")
      return `${weekWords(mondayOf(firstMonday, resource.week), asOf)} without its other repair`;
    const of = resource.kind === "spares" ? ` of ${resource.engineModel}` : "";
    return `${amountWords(f, resource, used - capacity)}${of} more in ${weekWords(mondayOf(firstMonday, resource.week), asOf)}`;
  });
  return told.length === 0 ? "" : ` ${sentenceWords(listWords(told))} would fit it in.`;
}

/** "1 bay day", "2.5 hours", "1 spare engine" */
export function amountWords(
  f: Formats,
  resource: Exclude<Resource, { readonly kind: "unit" }>,
  amount: number,
): string {
  const told = f.number(amount, Number.isInteger(Number(amount.toFixed(1))) ? 0 : 1);
  const spares = told === f.number(1) ? "spare engine" : "spare engines";
  return `${told} ${resource.kind === "spares" ? spares : resourceWords(resource, amount)}`;
}

/** What it costs that a repair was dropped, as a sentence. */
export function dropWords(money: (amount: number) => string, { extra, week }: DropCost, asOf: IsoDate): string {
  const than = `than its repair in ${weekWords(week, asOf)}`;
  if (money(Math.abs(extra)) === money(0)) return `Leaving it costs no more ${than}.`;
  return `Leaving it costs ${money(Math.abs(extra))} ${extra > 0 ? "more" : "less"} ${than}.`;
}

const placeWords = (resource: Exclude<Resource, { readonly kind: "unit" }>): string => {
  if (resource.kind === "spares") return `Spare engines of ${resource.engineModel} are`;
  return resource.kind === "out-together" ? `${resource.group} has` : `${resource.depot} is`;
};

function resourceWords({ kind }: Exclude<Resource, { readonly kind: "unit" }>, count: number): string {
  const one = Math.abs(count - 1) < 1e-9;
  if (kind === "bay-days") return one ? "bay day" : "bay days";
  if (kind === "hours") return one ? "hour" : "hours";
  if (kind === "builder-hours") return one ? "hour of bottom-end work" : "hours of bottom-end work";
  return kind === "spares" ? "" : one ? "unit off the road" : "units off the road";
}

/** How good the plan is, in one sentence. */
export function qualityWords(
  f: Formats,
  plan: Pick<KeptPlan, "bound" | "currency" | "nothingBookedCost" | "firstComeCost" | keyof Chosen>,
): string {
  const { cost, bound, currency, nothingBookedCost, firstComeCost, unchosenCost } = plan;
  const money = wholeMoney(f, currency);
  const within = cost <= 0 ? 0 : Math.max(0, (100 * (cost - bound)) / cost);
  const round = unchosenCost === null ? "" : " round what people chose";
  const best =
    within < 0.05 ? `no cheaper one exists${round}` : `within ${f.percent(within, 1)} of the best possible${round}`;
  const chosen = unchosenCost === null ? "" : ` ${chosenWords(money, { ...plan, unchosenCost })}`;
  return `${sentenceWords(best)}.${chosen} Against booking nothing it ${savesWords(money, nothingBookedCost - cost)}; first come, first served would ${savesWords(money, nothingBookedCost - firstComeCost, "plain")}.`;
}

type Chosen = Pick<KeptPlan, "cost" | "bound" | "unchosenCost" | "overloads">;

/**
 * What pins and drops cost together, everything else that had to make way for them too, as a sentence. A difference within the slack
 * that the solver was allowed, or within what the plan was left short of proof, may be its own; pins alone that take more than there is
 * can make a plan cheaper.
 */
function chosenWords(
  money: (amount: number) => string,
  { cost, bound, unchosenCost, overloads }: Chosen & { readonly unchosenCost: number },
): string {
  const extra = cost - unchosenCost;
  const isTold = Math.abs(extra) > Math.max(planGap * cost, cost - bound) && money(Math.abs(extra)) !== money(0);
  if (isTold && extra > 0) return `Pins and drops cost ${money(extra)}, against the plan without them.`;
  return isTold && overloads.length > 0
    ? `Pins and drops cost ${money(-extra)} less than the plan without them: they take more than there is.`
    : "Pins and drops cost nothing that can be told.";
}

/** What is saved against booking nothing, or, where pins and drops take more than that, what it costs more. */
function savesWords(money: (amount: number) => string, saved: number, form: "third" | "plain" = "third"): string {
  const s = form === "third" ? "s" : "";
  return saved >= 0
    ? `save${s} ${money(saved)} of expected cost`
    : `cost${s} ${money(-saved)} more, by what people chose`;
}

const whyImpossible: Readonly<Record<WhyImpossible, string>> = {
  unit: "nothing is forecast for this unit",
  work: "its engine model tells no cost of it",
  sold: "the unit is sold by then",
  twice: "an earlier pin of the unit puts the same right",
  closed: "its workshop is closed then, or the work would not be done in time",
};

/** What of pins can't be kept, as sentences. */
export function troubleLines(
  f: Formats,
  {
    plan,
    overloads,
    impossible,
    asOf,
  }: {
    readonly plan: KeptPlan;
    readonly overloads: readonly Overload[];
    readonly impossible: readonly Choice[];
    readonly asOf: IsoDate;
  },
): readonly string[] {
  return [
    ...overloads.map((over) => overloadWords(f, over, plan.firstMonday, asOf)),
    ...plan.impossible.map(
      ({ pin, why }) =>
        `The pin of ${pin.unit}, ${shortScope[pin.scope]}, in ${weekWords(mondayOf(plan.firstMonday, pin.week), asOf)} can’t be kept: ${whyImpossible[why]}.`,
    ),
    ...impossible.map(
      ({ unit, scope, date }) =>
        `The pin of ${unit}, ${shortScope[scope]}, ${date === null ? "" : `in ${weekWords(date, asOf)} `}can’t be kept: its workshop is closed then, its parts can’t be there, or that week lies outside the plan.`,
    ),
  ];
}

export const leftOutWords: Readonly<Record<WhyLeftOut, string>> = {
  "too-few-tests": "Too few tests to foresee anything; test them first",
  "no-depot": "Without a depot, so no workshop is known",
  "no-costs": "Their engine models tell no cost of repairs, or of an exchange engine alone, and none is in stock",
  retired: "Retired",
};
