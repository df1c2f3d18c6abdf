import { expect, it } from "vitest";
import { budgetAnew, programName } from "@/app/_jobs/budget-anew.ts";
import { planAnew } from "@/app/_jobs/plan-anew.ts";
import { planOutcomes } from "@/app/_jobs/plan-papers.ts";
import { recordFacts } from "@/app/_jobs/record-facts.ts";
import { inThisThread } from "@/app/_jobs/worker/tasks.ts";
import { unitReport } from "@/db/assessments.ts";
import { budgetOfToday, freezeBudget } from "@/db/budgets.ts";
import { bookingsOf, keepPlan, newestPlan, type PlanRow, planHeads, planInForce } from "@/db/plans.ts";
import { addDays } from "@/lib/calendar.ts";
import type { KeptBooking } from "@/lib/schema/kept-plan.ts";
import { repairFact } from "../../lib/sealing/facts.ts";
import { demoStore } from "./demo-store.ts";
import { act } from "./made-up-files.ts";

const doer = { by: act.by, at: act.now.toISOString() };
const own = { ...act, by: programName };

it("removes plans that nobody made, saw or will ask for, and no other", async () => {
  const store = await demoStore();
  const persons = await planAnew(store, act, {}, inThisThread);
  const row = (await planInForce(store)) as PlanRow;
  const booking = row.plan.bookings.find(({ unit, work }) => {
    return work.cures.length === 1 && row.plan.bookings.filter((of) => of.unit === unit).length === 1;
  });
  if (booking === undefined) throw new Error("no unit of the demo has one booking of one class");
  const { unit, scope } = booking;
  const others = row.plan.bookings.filter((of) => of.unit !== unit);
  const keep = async (bookings: readonly KeptBooking[] = [], asOf = row.asOf): Promise<number> => {
    const plan = { ...row.plan, bookings };
    const [seen, at] = [await newestPlan(store), doer.at];
    return (await keepPlan(store, { ...row, plan, asOf, by: programName, at, seen })) as number;
  };

  const budgeted = await keep(row.plan.bookings);
  await budgetAnew(store, own, {}, inThisThread);
  const today = await budgetOfToday(store);
  expect(today?.plan).toBe(budgeted);
  await freezeBudget(store, { seen: today?.id ?? 0, name: "Board" }, doer);
  const repaired = await keep(row.plan.bookings);
  const repair = repairFact({
    unit,
    date: row.asOf,
    meter: (await unitReport(store, unit))?.assessment.meter.value as number,
    scope: scope === "top-end" ? "top-end" : "bottom-end",
  });
  await recordFacts(store, { title: "Repair", told: { repairs: [repair] } }, act);
  const aWeekAgo = addDays(row.asOf, -7);
  const passed = [await keep([], aWeekAgo), await keep(others), await keep()];
  const lastOfWeek = await keep([], aWeekAgo);
  const outcomes = await planOutcomes(store);
  const newest: number[] = [];
  for (let i = 0; i < 19; i++) newest.push(await keep());

  await budgetAnew(store, own, {}, inThisThread);
  const made = (await planInForce(store))?.id as number;
  const left = (await planHeads(store)).map(({ id }) => id).toReversed();
  expect(left).toEqual([persons, budgeted, repaired, lastOfWeek, ...newest, made]);
  expect(await planOutcomes(store)).toEqual(outcomes);
  const booked = new Set((await bookingsOf(store, [others[0]?.unit ?? ""])).map(({ plan }) => plan));
  expect(booked).toContain(repaired);
  for (const id of passed) expect(booked).not.toContain(id);
});
