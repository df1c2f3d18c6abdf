import { unitNames, unitReport } from "../../db/assessments.ts";
import { repairFacts } from "../../db/facts.ts";
import { lastChosenAt } from "../../db/plan-choices.ts";
import { type PlanRow, planOf } from "../../db/plans.ts";
import type { Store } from "../../db/store.ts";
import { type Closed, closedBookings, type ForecastAndMade, type Took } from "../../lib/plan/closed-bookings.ts";
import { cures } from "../../lib/plan/cures.ts";
import { planCalendar } from "../../lib/plan/plan-calendar.ts";
import { priceGrowthOf } from "../../lib/plan/problem-of.ts";
import { workCost } from "../../lib/plan/week-costs.ts";
import { minorUnits } from "../../lib/plan/works-of.ts";
import type { IsoDate, RepairFact } from "../../lib/schema/facts.ts";
import type { KeptBooking, PlanScope } from "../../lib/schema/kept-plan.ts";
import type { UnitReport } from "../../lib/schema/report.ts";
import { type BookedEver, type BookedWork, bookedEver, workBooked } from "./booked-ever.ts";
import { type PlanNow, planNow } from "./plan-now.ts";

/** The plan as it stands, of the units that are on the books; null: no plan was made yet, or no unit is left. */
export async function planForPapers(store: Store, now: Date): Promise<PlanNow | null> {
  const [plan, units] = await Promise.all([planNow(store, now), unitNames(store)]);
  if (plan === null || units.length === 0) return null;
  const known = new Set(units);
  const isKnown = ({ unit }: { readonly unit: string }) => known.has(unit);
  return {
    ...plan,
    bookings: plan.bookings.filter(isKnown),
    made: plan.made.filter(({ booking }) => isKnown(booking)),
  };
}

export type UnitPaper =
  | { readonly state: "no-plan" }
  | { readonly state: "unknown-unit" }
  | {
      readonly state: "not-booked";
      readonly plan: PlanNow;
      readonly report: UnitReport;
      /** The last of its repairs that some plan had booked; null: none. */
      readonly made: PlanOutcome | null;
    }
  | {
      readonly state: "booked";
      readonly plan: PlanNow;
      readonly report: UnitReport;
      readonly booking: KeptBooking;
      /** Other repairs of the unit that the plan has booked. */
      readonly others: readonly KeptBooking[];
    };

/** What a paper about one unit's booking is written from: of the scope asked for, else its first. */
export async function unitPaper(
  store: Store,
  unit: string,
  { now, scope }: { readonly now: Date; readonly scope: unknown },
): Promise<UnitPaper> {
  const [plan, report] = await Promise.all([planForPapers(store, now), unitReport(store, unit)]);
  if (report === null) return { state: "unknown-unit" };
  if (plan === null) return { state: "no-plan" };
  const booked = plan.bookings.filter((booking) => booking.unit === unit);
  const booking = booked.find((one) => one.scope === scope) ?? booked[0];
  if (booking === undefined) {
    const [made = null] = await planOutcomes(store, [unit]);
    return { state: "not-booked", plan, report, made };
  }
  return { state: "booked", plan, report, booking, others: booked.filter((one) => one !== booking) };
}

/** When what the bookings say was said last: the plan was made, or somebody chose something since or took it back. */
async function saidAt(store: Store, { row }: PlanNow): Promise<string> {
  const chosen = await lastChosenAt(store);
  return chosen !== null && chosen > row.madeAt ? chosen : row.madeAt;
}

/** The bookings of a depot, or of all (null), as an iCalendar stream; without a plan it has no events. */
export async function planCalendarOf(
  store: Store,
  now: Date,
  { depot, cardOf }: { readonly depot: string | null; readonly cardOf: (unit: string, scope: PlanScope) => string },
): Promise<string> {
  const plan = await planForPapers(store, now);
  const bookings = (plan?.bookings ?? []).filter((booking) => depot === null || booking.depot === depot);
  const repairs = await repairFacts(store, [...new Set(bookings.map(({ unit }) => unit))]);
  const madeBefore = ({ unit, work }: KeptBooking) =>
    repairs.filter((repair) => repair.unit === unit && cures(repair.scope).some((of) => work.cures.includes(of)))
      .length;
  return planCalendar(bookings, {
    name: depot === null ? "Planned repairs" : `Planned repairs, ${depot}`,
    madeAt: plan === null ? now.toISOString() : await saidAt(store, plan),
    madeBefore,
    cardOf: ({ unit, scope }) => cardOf(unit, scope),
  });
}

export interface PlanOutcome extends ForecastAndMade {
  readonly unit: string;
  readonly repair: RepairFact;
  /** As-of date of the plan that had it booked, and what it had booked: for when, at which depot; null: not readable any more. */
  readonly planAsOf: IsoDate;
  readonly scopes: readonly PlanScope[];
  readonly start: IsoDate;
  readonly depot: string | null;
  /** Of the amounts, in its minor units. */
  readonly currency: string | null;
}

/** Every repair on file that a plan, or a pin over it, had booked, of some units or of all, newest first, as forecast and as made. */
export async function planOutcomes(store: Store, units?: readonly string[]): Promise<readonly PlanOutcome[]> {
  const repairs = await repairFacts(store, units ?? (await unitNames(store)));
  // Every plan that was ever made has its bookings on file: only of units that were repaired do they matter.
  const bookings = await bookedEver(store, [...new Set(repairs.map(({ unit }) => unit))]);
  const closed = closedBookings(bookings, repairs);
  const plans = new Map<number, PlanRow | null>();
  for (const id of new Set(closed.map((of) => of.bookings[0]?.plan ?? 0))) plans.set(id, await planOf(store, id));
  const outcomes = await Promise.all(
    closed.map((of) => outcomeOf(store, of, plans.get(of.bookings[0]?.plan ?? 0) ?? null)),
  );
  return outcomes.toReversed();
}

async function outcomeOf(
  store: Store,
  { repair, bookings }: Closed<BookedEver>,
  row: PlanRow | null,
): Promise<PlanOutcome> {
  const [first] = bookings as readonly [BookedEver, ...BookedEver[]];
  const works = row === null ? [] : await Promise.all(bookings.map((booking) => workBooked(store, row, booking)));
  const kept = works.flatMap((work) => work ?? []);
  const isWhole = row !== null && kept.length === bookings.length;
  return {
    unit: repair.unit,
    repair,
    planAsOf: first.asOf,
    scopes: bookings.map(({ scope }) => scope),
    start: bookings.map(({ start }) => start).toSorted()[0] ?? first.start,
    depot: kept[0]?.depot ?? null,
    currency: isWhole ? row.plan.currency : null,
    forecast: isWhole ? forecastOf(row, kept) : nothingKnown,
    made: {
      hours: repair.labourHours,
      cost: repair.cost === null || !isWhole ? null : Math.round(repair.cost * minorUnits(row.plan.currency)),
      daysOff: repair.downtimeDays,
    },
  };
}

const nothingKnown: Took = { hours: null, cost: null, daysOff: null };

/** What the plan expected of the work, at the prices of the weeks it was booked for. */
function forecastOf({ workshop, asOf }: PlanRow, bookings: readonly BookedWork[]): Took {
  const prices = priceGrowthOf(workshop, asOf);
  const sum = (of: (booking: BookedWork) => number) => bookings.reduce((whole, booking) => whole + of(booking), 0);
  return {
    hours: sum(({ work }) => work.labourHours),
    cost: Math.round(sum(({ work, start }) => workCost(work, prices, start))),
    daysOff: sum(({ work }) => work.daysOff),
  };
}
