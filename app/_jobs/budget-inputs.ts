import { chunks } from "../../db/chunks.ts";
import { repairFacts } from "../../db/facts.ts";
import { reportsOf } from "../../db/round.ts";
import type { Store } from "../../db/store.ts";
import { type BudgetInputs, type InputUnit, monthsOfRepairs } from "../../lib/budget/inputs.ts";
import { addDays, addMonths, daysBetween } from "../../lib/calendar.ts";
import { outlookOfReport } from "../../lib/plan/outlook-of.ts";
import type { UnitOutlook } from "../../lib/plan/problem-of.ts";
import { minorUnits } from "../../lib/plan/works-of.ts";
import type { IsoDate } from "../../lib/schema/facts.ts";
import type { KeptBudgetBooking, RecordedRepair } from "../../lib/schema/kept-budget.ts";
import type { PlanNow } from "./plan-now.ts";
import { breather, type JobControl, progressOf } from "./progress.ts";
import type { WorkshopNow } from "./workshop-now.ts";

/** Reports are long. */
const readAtOnce = 20;

/** What today's budget is drawn from: the reports in force, the plan as it stands, prices, and what was repaired. */
export async function budgetInputsNow(
  store: Store,
  units: readonly string[],
  {
    plan: { asOf, bookings, row },
    now: { workshop, dropped },
  }: { readonly plan: Pick<PlanNow, "asOf" | "bookings" | "row">; readonly now: WorkshopNow },
  { onProgress, signal }: JobControl = {},
): Promise<BudgetInputs> {
  const breathe = breather(signal);
  const told: InputUnit[] = [];
  const repairs: RecordedRepair[] = [];
  const since = addMonths(asOf, -monthsOfRepairs);
  // Another currency names the same amounts; its minor unit may be another one than that of the day of the plan.
  const minor = minorUnits(workshop.currency) / minorUnits(row.plan.currency);
  for (const part of chunks(units, readAtOnce)) {
    const outlooks: UnitOutlook[] = [];
    for (const report of await reportsOf(store, part)) {
      const { basis, assessment } = report;
      const outlook = outlookOfReport(report);
      outlooks.push(outlook);
      told.push({ outlook, sign: { lastTestDate: assessment.lastTestDate, basis } });
    }
    repairs.push(...(await recordedRepairs(store, outlooks, { since, asOf })));
    onProgress?.(progressOf("gathering", { units: told.length, totalUnits: units.length }));
    await breathe();
  }
  return {
    asOf,
    workshop,
    dropped,
    bookings: bookings.map(({ unit, scope, start, cost, isPinned }): KeptBudgetBooking => {
      return { unit, scope, start: onOrAfter(start, asOf), downtime: cost.downtime * minor, isPinned };
    }),
    repairs,
    units: told.toSorted((a, b) => (a.outlook.unit < b.outlook.unit ? -1 : 1)),
  };
}

/** The Monday itself, or for one that has gone by that of the week of a day. */
function onOrAfter(monday: IsoDate, day: IsoDate): IsoDate {
  const weeks = Math.floor(daysBetween(monday, day) / 7);
  return weeks <= 0 ? monday : addDays(monday, 7 * weeks);
}

async function recordedRepairs(
  store: Store,
  outlooks: readonly UnitOutlook[],
  { since, asOf }: { readonly since: IsoDate; readonly asOf: IsoDate },
): Promise<RecordedRepair[]> {
  const byUnit = new Map(outlooks.map((outlook) => [outlook.unit, outlook]));
  const facts = await repairFacts(store, [...byUnit.keys()]);
  return facts.flatMap(({ unit, date, scope, cost, labourHours, downtimeDays }) => {
    const outlook = byUnit.get(unit);
    if (outlook === undefined || date < since || date > asOf) return [];
    const { depot, unitClass, model } = outlook;
    return [{ unit, depot, unitClass, engineModel: model.id, date, scope, cost, labourHours, downtimeDays }];
  });
}
