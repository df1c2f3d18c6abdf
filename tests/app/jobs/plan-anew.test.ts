import { mkdirSync, rmSync } from "node:fs";
import path from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";
import { budgetAnew, budgetDue, isPlanDue, programName } from "@/app/_jobs/budget-anew.ts";
import { planAnew, planBasis } from "@/app/_jobs/plan-anew.ts";
import { planNow } from "@/app/_jobs/plan-now.ts";
import { recordFacts } from "@/app/_jobs/record-facts.ts";
import { inWorker } from "@/app/_jobs/worker/in-worker.ts";
import {
  inThisThread,
  type RunTask,
  type TaskInput,
  type TaskName,
  type TaskResult,
} from "@/app/_jobs/worker/tasks.ts";
import { unitReport } from "@/db/assessments.ts";
import { budgetOfToday } from "@/db/budgets.ts";
import { repairFacts } from "@/db/facts.ts";
import { choicesInForce, chooseForUnit } from "@/db/plan-choices.ts";
import { bookingsOf, planHeads, planInForce } from "@/db/plans.ts";
import { changeSettings } from "@/db/settings.ts";
import type { Store } from "@/db/store.ts";
import { changeWorkshop, workshopTold } from "@/db/workshop.ts";
import { repairKey } from "@/lib/plan/still-booked.ts";
import { bundle } from "../../../cli/setup/build.mjs";
import { repairFact } from "../../lib/sealing/facts.ts";
import { demoStore } from "./demo-store.ts";
import { act, newStore } from "./made-up-files.ts";

const doer = { by: act.by, at: act.now.toISOString() };
/** Within the project, where it finds its packages. */
const worker = path.resolve(import.meta.dirname, `../../../dist/worker-tried-${process.pid}.mjs`);

beforeAll(async () => {
  mkdirSync(path.dirname(worker), { recursive: true });
  await bundle("app/_jobs/worker/main.ts", worker);
});
afterAll(() => rmSync(worker, { force: true }));

async function planned(): Promise<Store> {
  const store = await demoStore();
  await planAnew(store, act, {}, inThisThread);
  return store;
}

it("makes no plan and no budget of an empty fleet", async () => {
  const store = await newStore();
  expect(await planAnew(store, act, {}, inThisThread)).toBeNull();
  expect(await budgetDue(store, act.now)).toBeNull();
});

it("keeps a plan that the demo fleet's workshops have room for, and finds its bookings by unit", async () => {
  const store = await planned();
  const row = await planInForce(store);
  const bookings = row?.plan.bookings ?? [];
  expect(bookings.length).toBeGreaterThan(3);
  expect(row?.plan.overloads).toEqual([]);
  for (const { depot, weeks } of row?.plan.depots ?? []) {
    for (const [week, { hours, bayDays }] of weeks.entries()) {
      const of = bookings
        .filter((b) => b.depot === depot)
        .flatMap(({ span }) => span.filter((use) => use.week === week));
      expect(of.reduce((sum, use) => sum + use.hours, 0)).toBeLessThanOrEqual(hours + 1e-6);
      expect(of.reduce((sum, use) => sum + use.bayDays, 0)).toBeLessThanOrEqual(bayDays + 1e-6);
    }
  }
  const [first] = bookings;
  const [found] = await bookingsOf(store, [first?.unit ?? ""]);
  expect(found).toMatchObject({ plan: row?.id, start: first?.start, scope: first?.scope });
});

it("keeps to a pin, and lets a dropped repair be", async () => {
  const store = await planned();
  const before = (await planInForce(store))?.plan.bookings ?? [];
  const [moved, dropped] = before;
  if (moved === undefined || dropped === undefined) throw new Error("nothing is booked");
  const later = { ...moved, start: addWeeks(moved.start, 4) };
  const basis = await planBasis(store);
  expect(
    await chooseForUnit(
      store,
      { unit: later.unit, chosen: [{ scope: later.scope, date: later.start }], seen: [], known: [] },
      doer,
    ),
  ).toBe(true);
  expect(
    await chooseForUnit(
      store,
      { unit: dropped.unit, chosen: [{ scope: dropped.scope, date: null }], seen: [], known: [] },
      doer,
    ),
  ).toBe(true);
  expect(await planBasis(store)).not.toBe(basis);
  await planAnew(store, act, {}, inThisThread);
  const after = (await planInForce(store))?.plan.bookings ?? [];
  expect(after.find(({ unit }) => unit === later.unit)).toMatchObject({ start: later.start, isPinned: true });
  expect(after.some(({ unit, scope }) => unit === dropped.unit && scope === dropped.scope)).toBe(false);
  expect(await planHeads(store, { limit: 5 })).toHaveLength(2);
});

it("tells that settings have changed though somebody moved a booking since, and holds bookings against the limits of now", async () => {
  const store = await planned();
  const before = await planNow(store, act.now);
  expect(before).toMatchObject({ isBehind: false, isChosenSince: false, changed: 0, overloads: [] });
  const [first] = before?.bookings ?? [];
  const other = before?.bookings.find(({ unit }) => unit !== first?.unit);
  if (first === undefined || other === undefined) throw new Error("too little is booked");
  const { workshop, id } = await workshopTold(store);
  const groups = [{ name: "Ring road", units: [first.unit, other.unit], mostOut: 1 }];
  await changeWorkshop(store, { ...workshop, groups }, { ...doer, after: id });
  expect(await planNow(store, act.now)).toMatchObject({ isBehind: true, isChosenSince: false, changed: 0 });
  const date = addWeeks(other.start, 1);
  const asked = { unit: other.unit, chosen: [{ scope: other.scope, date }], seen: [], known: [] };
  expect(await chooseForUnit(store, asked, doer)).toBe(true);
  const after = await planNow(store, act.now);
  expect(after).toMatchObject({ isBehind: true, isChosenSince: true });
  expect(after?.limits.workshop.groups).toEqual(groups);
});

it("writes nothing over what somebody else chose meanwhile", async () => {
  const store = await newStore();
  const choose = (date: string | null, seen: readonly number[]) =>
    chooseForUnit(store, { unit: "V-1", chosen: [{ scope: "top-end", date }], seen, known: [] }, doer);
  expect(await choose("2026-07-06", [])).toBe(true);
  expect(await choose("2026-08-03", [])).toBe(false);
  const [first] = await choicesInForce(store);
  expect(await choose(null, [first?.id ?? 0])).toBe(true);
  expect(await choicesInForce(store)).toMatchObject([{ kind: "drop", date: null }]);
});

it("chooses nothing of another plan than the one that was seen", async () => {
  const store = await planned();
  const choose = async (plan: number | undefined) =>
    chooseForUnit(
      store,
      { unit: "V-1", chosen: [{ scope: "top-end", date: null }], seen: [], known: [], plan: plan ?? 0 },
      doer,
    );
  const seen = (await planInForce(store))?.id;
  await planAnew(store, act, {}, inThisThread);
  expect(await choose(seen)).toBe(false);
  expect(await choicesInForce(store)).toEqual([]);
  expect(await choose((await planInForce(store))?.id)).toBe(true);
});

it("closes a pinned booking by a repair that is put on file late, and can pin the next one", async () => {
  const store = await planned();
  const pin = (
    chosen: readonly { scope: "top-end"; date: string }[],
    seen: readonly number[],
    known: readonly string[],
  ) => chooseForUnit(store, { unit: "V-109", chosen, seen, known }, doer);
  const own = (plan: Awaited<ReturnType<typeof planNow>>) =>
    plan?.bookings.filter(({ unit }) => unit === "V-109") ?? [];
  const [booking] = own(await planNow(store, act.now));
  if (booking === undefined) throw new Error("V-109 is not booked");
  const known = (await repairFacts(store, ["V-109"])).map(repairKey);
  await pin([{ scope: "top-end", date: booking.start }], [], known);
  const meter = (await unitReport(store, "V-109"))?.assessment.meter.value ?? 0;
  const repair = repairFact({ unit: "V-109", date: "2026-08-27", meter, scope: "top-end" });
  await recordFacts(store, { title: "Repair of V-109", told: { repairs: [repair] } }, act);
  const closed = await planNow(store, act.now);
  expect(own(closed)).toEqual([]);
  expect(closed?.made).toMatchObject([{ booking: { unit: "V-109" }, repair: { date: "2026-08-27" } }]);
  await planAnew(store, act, {}, inThisThread);
  expect(await choicesInForce(store)).toEqual([]);
  expect(own(await planNow(store, act.now))).toEqual([]);
  // What is chosen now is chosen with that repair on file.
  const after = (await repairFacts(store, ["V-109"])).map(repairKey);
  await pin([{ scope: "top-end", date: addWeeks(booking.start, 20) }], [], after);
  expect(own(await planNow(store, act.now))).toMatchObject([{ start: addWeeks(booking.start, 20), isPinned: true }]);
});

it("ends a pin whose week has gone by as the plan is made anew", async () => {
  const store = await planned();
  const [booking] = (await planInForce(store))?.plan.bookings ?? [];
  if (booking === undefined) throw new Error("nothing is booked");
  const chosen = [{ scope: booking.scope, date: booking.start }];
  await chooseForUnit(store, { unit: booking.unit, chosen, seen: [], known: [] }, doer);
  await changeSettings(store, { asOf: addWeeks(booking.start, 3) }, doer);
  await planAnew(store, act, {}, inThisThread);
  expect(await choicesInForce(store)).toEqual([]);
  expect((await planInForce(store))?.plan.outside).toEqual([]);
});

it("draws the budget of the plan in force, and again only when something has changed", async () => {
  const store = await demoStore();
  expect(await budgetDue(store, act.now)).not.toBeNull();
  expect(await budgetAnew(store, act, {}, inThisThread)).toBe(true);
  const kept = await budgetOfToday(store);
  expect(kept?.plan).toBe((await planInForce(store))?.id);
  expect(kept?.document.fiscalYears.length).toBeGreaterThan(1);
  expect(await budgetDue(store, act.now)).toBeNull();
  await planAnew(store, act, {}, inThisThread);
  expect(await budgetDue(store, act.now)).not.toBeNull();
});

it("makes a plan anew by itself only while nobody has a hand in it", async () => {
  const store = await demoStore();
  const own = { ...act, by: programName };
  await budgetAnew(store, own, {}, inThisThread);
  expect(await isPlanDue(store, act.now)).toBe(false);
  const aWeekOn = new Date(act.now.getTime() + 7 * 86_400_000);
  await changeSettings(store, { asOf: null }, doer);
  expect(await isPlanDue(store, aWeekOn)).toBe(true);
  await budgetAnew(store, { ...own, now: aWeekOn }, {}, inThisThread);
  expect(await isPlanDue(store, aWeekOn)).toBe(false);
  // Pinned: from now on it is a person's.
  const [booking] = (await planInForce(store))?.plan.bookings ?? [];
  if (booking === undefined) throw new Error("nothing is booked");
  const chosen = [{ scope: booking.scope, date: booking.start }];
  await chooseForUnit(store, { unit: booking.unit, chosen, seen: [], known: [] }, doer);
  expect(await isPlanDue(store, new Date(aWeekOn.getTime() + 21 * 86_400_000))).toBe(false);
  // Made by a person: it stays, whatever changes.
  const [{ id } = { id: 0 }] = await choicesInForce(store);
  await chooseForUnit(store, { unit: booking.unit, chosen: [], seen: [id], known: [] }, doer);
  // Taken back: all is again as the plan was made.
  expect(await isPlanDue(store, aWeekOn)).toBe(false);
  await changeSettings(store, { horizonYears: 3 }, doer);
  expect(await isPlanDue(store, aWeekOn)).toBe(true);
  await planAnew(store, { ...act, now: aWeekOn }, {}, inThisThread);
  await changeSettings(store, { horizonYears: 4 }, doer);
  expect(await isPlanDue(store, aWeekOn)).toBe(false);
});

/** While the first task runs, something else happens. */
function meanwhile(happens: () => Promise<void>): RunTask {
  let isFirst = true;
  return async <N extends TaskName>(
    name: N,
    input: TaskInput<N>,
    control: Parameters<RunTask>[2],
  ): Promise<TaskResult<N>> => {
    const result: TaskResult<N> = await inThisThread(name, input, control);
    if (isFirst) {
      isFirst = false;
      await happens();
    }
    return result;
  };
}

it("leaves in force what a person chose and had planned while the program was planning", async () => {
  const store = await planned();
  const own = { ...act, by: programName };
  await planAnew(store, own, {}, inThisThread);
  const [booking] = (await planInForce(store))?.plan.bookings ?? [];
  if (booking === undefined) throw new Error("nothing is booked");
  await changeSettings(store, { horizonYears: 3 }, doer);
  const chosen = [{ scope: booking.scope, date: null }];
  const overtaken = meanwhile(async () => {
    await chooseForUnit(store, { unit: booking.unit, chosen, seen: [], known: [] }, doer);
    await planAnew(store, act, {}, inThisThread);
  });
  await budgetAnew(store, own, {}, overtaken);
  const row = await planInForce(store);
  expect(row).toMatchObject({ by: act.by, basis: await planBasis(store) });
  expect(row?.plan.bookings.some(({ unit, scope }) => unit === booking.unit && scope === booking.scope)).toBe(false);
  expect((await budgetOfToday(store))?.plan).toBe(row?.id);
});

it("makes a person's plan again where the program's came into force meanwhile", async () => {
  const store = await planned();
  const [booking] = (await planInForce(store))?.plan.bookings ?? [];
  if (booking === undefined) throw new Error("nothing is booked");
  await chooseForUnit(
    store,
    { unit: booking.unit, chosen: [{ scope: booking.scope, date: null }], seen: [], known: [] },
    doer,
  );
  const overtaken = meanwhile(async () => {
    await changeSettings(store, { horizonYears: 3 }, doer);
    await planAnew(store, { ...act, by: programName }, {}, inThisThread);
  });
  const id = await planAnew(store, act, {}, overtaken);
  const row = await planInForce(store);
  expect(row).toMatchObject({ id, by: act.by, basis: await planBasis(store) });
});

it("tells the same amounts in a currency without a minor unit, though the plan was made before", async () => {
  const store = await planned();
  await budgetAnew(store, act, {}, inThisThread);
  const before = await budgetOfToday(store);
  const { id, workshop } = await workshopTold(store);
  await changeWorkshop(store, { ...workshop, currency: "JPY" }, { ...doer, after: id });
  await budgetAnew(store, act, {}, inThisThread);
  const after = await budgetOfToday(store);
  // The plan is a person's, and stays.
  expect(after?.plan).toBe(before?.plan);
  const [was, is] = [before, after].map((of) => of?.document.fiscalYears[0]?.expected ?? 0) as [number, number];
  expect(was).toBeGreaterThan(0);
  // Whole yen against cents: each repair is rounded by itself.
  expect(Math.abs(is / (was / 100) - 1)).toBeLessThan(0.005);
});

it("reckons the same in a thread of its own, and ends that when it is cancelled", async () => {
  const run = inWorker(() => worker);
  const store = await demoStore();
  await planAnew(store, act, {}, run);
  const apart = await planInForce(store);
  await planAnew(store, act, {}, inThisThread);
  expect((await planInForce(store))?.plan).toEqual(apart?.plan);
  const ended = new AbortController();
  const plan = planAnew(
    store,
    act,
    { signal: ended.signal, onProgress: () => ended.abort(new Error("Cancelled.")) },
    run,
  );
  await expect(plan).rejects.toThrow("Cancelled.");
  expect(await planHeads(store, { limit: 5 })).toHaveLength(2);
});

const addWeeks = (date: string, weeks: number): string =>
  new Date(Date.parse(date) + weeks * 7 * 86_400_000).toISOString().slice(0, 10);
