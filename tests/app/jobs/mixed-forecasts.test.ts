import { expect, it } from "vitest";
import { bridgeBetween } from "@/app/_jobs/bridge-of.ts";
import { budgetAnew } from "@/app/_jobs/budget-anew.ts";
import { mixedForecasts } from "@/app/_jobs/mixed-forecasts.ts";
import { recordFacts } from "@/app/_jobs/record-facts.ts";
import { saveModel } from "@/app/_jobs/save-model.ts";
import { inThisThread } from "@/app/_jobs/worker/tasks.ts";
import { type BudgetRow, budgetInputsOf, budgetOf, budgetOfToday, freezeBudget } from "@/db/budgets.ts";
import { standingModel } from "@/db/engine-models.ts";
import { testsAndUnits } from "@/db/facts.ts";
import type { Store } from "@/db/store.ts";
import { type BudgetInputs, readInputs } from "@/lib/budget/inputs.ts";
import type { BridgeCause, BudgetBridge } from "@/lib/schema/bridge.ts";
import type { EngineModel } from "@/lib/schema/engine-model.ts";
import { demoStore } from "./demo-store.ts";
import { act } from "./made-up-files.ts";

const doer = { by: act.by, at: act.now.toISOString() };
const unit = "L-206";

async function drawn(store: Store): Promise<BudgetRow> {
  await budgetAnew(store, act, {}, inThisThread);
  return (await budgetOfToday(store)) as BudgetRow;
}

async function bridgeSince(store: Store, frozen: number): Promise<BudgetBridge> {
  const [was, now] = [(await budgetOf(store, frozen)) as BudgetRow, await drawn(store)];
  // The second year: what falls due is not booked yet, so that no plan moves it.
  const year = now.document.fiscalYears[1]?.name ?? "";
  return (await bridgeBetween(store, { was, now, year }, {}, inThisThread)) as BudgetBridge;
}

/** The demo with a frozen budget, and the unit's last leak-down test. */
async function frozenDemo() {
  const store = await demoStore();
  const { id } = await drawn(store);
  const frozen = (await freezeBudget(store, { seen: id, name: "Board" }, doer)) as number;
  const { tests } = await testsAndUnits(store, [unit]);
  const last = tests.filter(({ test }) => test === "leak-down").toSorted((a, b) => (a.date < b.date ? 1 : -1))[0];
  if (last === undefined) throw new Error("the demo has no such test");
  return { store, frozen, last };
}

const of = ({ steps }: BudgetBridge, cause: BridgeCause) =>
  steps.find((step) => step.cause === cause)?.units.find((one) => one.unit === unit);

it("puts a new test and a limit that moved after it down to each by itself", async () => {
  const { store, frozen, last } = await frozenDemo();
  const readings = last.readings.map((reading) => ({ ...reading, value: (reading.value ?? 0) + 9 }));
  const test = { ...last, date: "2026-08-24", meter: last.meter + 2_000, readings };
  await recordFacts(store, { title: "Test", told: { tests: [test] } }, act);
  const tested = await bridgeSince(store, frozen);
  const byTest = of(tested, "tests");
  expect(byTest?.because.join()).toMatch(/leak-down test on 24 Aug 2026/);
  expect(byTest?.expected).toBeGreaterThan(0);
  expect(of(tested, "limits")).toBeUndefined();

  const seen = (await standingModel(store, "diesel-4-a")) as EngineModel;
  const { leakDown } = seen;
  if (leakDown === undefined) throw new Error("the demo's model has no limit");
  const lower = leakDown.limitPercent - 2;
  const planPercent = Math.min(lower, leakDown.planPercent);
  const model = { ...seen, leakDown: { ...leakDown, limitPercent: lower, planPercent } };
  await saveModel(store, { model, seen }, act);
  const both = await bridgeSince(store, frozen);
  const [again, byLimit] = [of(both, "tests"), of(both, "limits")];
  expect(byLimit?.because.join()).toMatch(/limit from/);
  expect(again?.because.join()).not.toMatch(/limit/);
  // Pools are fitted anew under the new limit, so not to the cent.
  expect(Math.abs((again?.expected ?? 0) - (byTest?.expected ?? 0))).toBeLessThan(0.25 * (byTest?.expected ?? 0));
  expect(byLimit?.expected).toBeGreaterThan(0);
  for (const amount of ["expected", "p50", "p80"] as const) {
    const sum = both.steps.reduce((total, step) => total + step[amount], 0);
    expect(sum).toBe(both.to[amount] - both.from[amount]);
  }
  expect(both.steps.at(-1)).toMatchObject({ cause: "unexplained", expected: 0, p50: 0, p80: 0 });
}, 300_000);

it("gives no forecasts in between of a unit of which more is on file now than the later budget knew", async () => {
  const { store, frozen, last } = await frozenDemo();
  const worse = (by: number, date: string) => ({
    ...last,
    date,
    meter: last.meter + 100 * by,
    readings: last.readings.map((reading) => ({ ...reading, value: (reading.value ?? 0) + by })),
  });
  const seen = (await standingModel(store, "diesel-4-a")) as EngineModel;
  const limitPercent = (seen.leakDown?.limitPercent ?? 0) - 2;
  const leakDown = {
    ...seen.leakDown,
    limitPercent,
    planPercent: Math.min(limitPercent, seen.leakDown?.planPercent ?? 0),
  };
  await saveModel(store, { model: { ...seen, leakDown } as EngineModel, seen }, act);
  await recordFacts(store, { title: "Test", told: { tests: [worse(9, "2026-08-24")] } }, act);
  const today = await drawn(store);
  const ends = async () => {
    const [was, now] = await Promise.all([budgetInputsOf(store, frozen), budgetInputsOf(store, today.id)]);
    if (was === null || now === null) throw new Error("the inputs were not kept");
    return { was: readInputs(was) as BudgetInputs, now: readInputs(now) as BudgetInputs };
  };
  const asDrawn = await mixedForecasts(store, await ends());
  expect(asDrawn.get(unit)?.has("tests")).toBe(true);

  await recordFacts(store, { title: "Test", told: { tests: [worse(15, "2026-08-28")] } }, act);
  const later = await mixedForecasts(store, await ends());
  expect(later.get(unit)?.size).toBe(0);
}, 300_000);
