import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { bridgeBetween, bridgeOf, drawnBridge, dropOutdated } from "@/app/_jobs/bridge-of.ts";
import { budgetAnew } from "@/app/_jobs/budget-anew.ts";
import { jobView, subscribeToJob } from "@/app/_jobs/job-registry.ts";
import { recordFacts } from "@/app/_jobs/record-facts.ts";
import { runScenarioOf } from "@/app/_jobs/run-scenario.ts";
import {
  inThisThread,
  type RunTask,
  type TaskInput,
  type TaskName,
  type TaskResult,
} from "@/app/_jobs/worker/tasks.ts";
import { unitReport } from "@/db/assessments.ts";
import {
  type BudgetRow,
  budgetInputsOf,
  budgetOf,
  budgetOfToday,
  freezeBudget,
  frozenBudgets,
  withdrawBudget,
} from "@/db/budgets.ts";
import { keepScenarioResult, nameScenario, scenariosTold, withdrawScenario } from "@/db/scenarios.ts";
import type { Store } from "@/db/store.ts";
import type { BudgetBridge } from "@/lib/schema/bridge.ts";
import type { KeptBudgetInputs } from "@/lib/schema/kept-budget.ts";
import { classCostsOf } from "@/lib/schema/workshop.ts";
import { openDemoStore } from "./demo-store.ts";
import { act } from "./made-up-files.ts";

const doer = { by: act.by, at: act.now.toISOString() };
const sum = (amounts: readonly number[]) => amounts.reduce((a, b) => a + b, 0);

let store: Store;
let today: BudgetRow;
let frozen: number;

async function budgetNow(): Promise<BudgetRow> {
  await budgetAnew(store, act, {}, inThisThread);
  const row = await budgetOfToday(store);
  if (row === null) throw new Error("no budget was drawn");
  return row;
}

beforeAll(async () => {
  store = await openDemoStore();
  today = await budgetNow();
  frozen = (await freezeBudget(store, { seen: today.id, name: "Board" }, doer)) as number;
}, 120_000);

afterAll(() => store.close());

it("keeps a frozen budget with what it was drawn from, beside today's", async () => {
  expect((await budgetOf(store, frozen))?.document).toEqual(today.document);
  expect(await budgetInputsOf(store, frozen)).toEqual(await budgetInputsOf(store, today.id));
  expect((await budgetOfToday(store))?.id).toBe(today.id);
});

it("freezes no second one under a name that stands, and none but the one that was seen", async () => {
  expect(await freezeBudget(store, { seen: today.id, name: "BOARD" }, doer)).toBe("name-taken");
  expect(await freezeBudget(store, { seen: frozen, name: "Other" }, doer)).toBe("other");
  const second = (await freezeBudget(store, { seen: today.id, name: "Second" }, doer)) as number;
  expect((await frozenBudgets(store)).map(({ name }) => name)).toEqual(["Second", "Board"]);
  const [year] = today.document.fiscalYears;
  expect((await frozenBudgets(store))[1]).toMatchObject({
    id: frozen,
    currency: today.document.currency,
    fiscalYears: expect.arrayContaining([expect.objectContaining({ name: year?.name, p80: year?.p80 })]),
  });
  expect(await withdrawBudget(store, second, doer)).toBe(true);
  expect(await withdrawBudget(store, second, doer)).toBe(false);
  expect(await withdrawBudget(store, today.id, doer)).toBe(false);
  expect((await frozenBudgets(store)).map(({ name }) => name)).toEqual(["Board"]);
});

it("bridges from the frozen budget to one after a repair, to the minor unit", async () => {
  const was = (await budgetOf(store, frozen)) as BudgetRow;
  const [year] = was.document.fiscalYears;
  const [unit] = year?.units ?? [];
  if (year === undefined || unit === undefined) throw new Error("the demo's budget has no money in it");
  const meter = (await unitReport(store, unit.unit))?.assessment.meter.value ?? 0;
  const repair = { unit: unit.unit, date: was.asOf, meter, scope: "top-end", cylinders: "all" } as const;
  const work = { cost: 1234.56, labourHours: 10, downtimeDays: 3, engineSerial: null, remarks: null };
  const told = { repairs: [{ ...repair, ...work, found: [], findings: [], file: "", line: 1 }] };
  await recordFacts(store, { title: "Repair", told }, act);
  const now = await budgetNow();
  const bridge = (await bridgeBetween(store, { was, now, year: year.name }, {}, inThisThread)) as BudgetBridge;
  for (const of of ["expected", "p50", "p80"] as const)
    expect(sum(bridge.steps.map((step) => step[of]))).toBe(bridge.to[of] - bridge.from[of]);
  const repairs = bridge.steps.find(({ cause }) => cause === "repairs");
  expect(repairs?.units.map((one) => one.unit)).toEqual([unit.unit]);
  // With the three days off the road, at what a day of its class costs.
  const { workshop } = (await budgetInputsOf(store, now.id)) as KeptBudgetInputs;
  const unitClass = (await unitReport(store, unit.unit))?.unitClass ?? null;
  expect(bridge.to.spent - bridge.from.spent).toBe(123_456 + 300 * classCostsOf(workshop, unitClass).dayOff);
  expect(bridge.steps.at(-1)).toMatchObject({ cause: "unexplained", expected: 0, p50: 0 });
});

it("reckons a what-if from today's budget, and keeps what came of it", async () => {
  const model = (await budgetInputsOf(store, frozen))?.models.find(({ leakDown }) => leakDown !== undefined);
  const change = { kind: "limit", engineModel: model?.id ?? "", of: "leak-down", by: -3 } as const;
  const id = (await nameScenario(store, { name: "Stricter", change }, doer)) as number;
  expect(await nameScenario(store, { name: "stricter", change }, doer)).toBeNull();
  await runScenarioOf(store, id, act, {}, inThisThread);
  const [told] = await scenariosTold(store);
  const result = told?.told?.result;
  const budget = (await budgetOfToday(store)) as BudgetRow;
  expect(told?.told?.basis).toBe(budget.basis);
  expect(result?.base.map(({ expected }) => expected)).toEqual(
    budget.document.fiscalYears.map(({ expected }) => expected),
  );
  const whole = (years: typeof result extends undefined ? never : readonly { expected: number }[]) =>
    sum(years.map(({ expected }) => expected));
  expect(whole(result?.scenario ?? [])).toBeGreaterThan(whole(result?.base ?? []));
  await keepScenarioResult(store, id, {
    madeAt: doer.at,
    basis: "other",
    result: result as NonNullable<typeof result>,
  });
  expect((await scenariosTold(store))[0]?.told?.basis).toBe("other");
  expect(await withdrawScenario(store, id, doer)).toBe(true);
  expect(await scenariosTold(store)).toEqual([]);
});

it("says why a what-if cannot be reckoned", async () => {
  const change = { kind: "capacity", percent: 10, depot: "Nowhere" } as const;
  const id = (await nameScenario(store, { name: "Nowhere", change }, doer)) as number;
  await expect(runScenarioOf(store, id, act, {}, inThisThread)).rejects.toThrow("No unit stands at Nowhere.");
});

describe("a bridge that a page asks for", () => {
  /** Draws none before it is let; how many were being drawn at once at most. */
  function held() {
    let [running, most] = [0, 0];
    let begin = () => {};
    const begun = new Promise<void>((resolve) => (begin = resolve));
    let letGo = () => {};
    const isLet = new Promise<void>((resolve) => (letGo = resolve));
    const run: RunTask = async <N extends TaskName>(name: N, input: TaskInput<N>): Promise<TaskResult<N>> => {
      most = Math.max(most, ++running);
      begin();
      await isLet;
      const result: TaskResult<N> = await inThisThread(name, input, {});
      running--;
      return result;
    };
    return { run, begun, letGo: () => letGo(), most: () => most };
  }
  const ended = (id: string) =>
    new Promise((resolve) => {
      subscribeToJob(id, ({ state }) => {
        if (state !== "running") resolve(state);
      });
    });
  const jobOf = (of: ReturnType<typeof bridgeOf>): string => {
    if ("bridge" in of) throw new Error("it is drawn already");
    return of.job;
  };

  it("is drawn once, and alone: the next one waits for it", async () => {
    const [was, now] = [await budgetOf(store, frozen), await budgetOfToday(store)] as [BudgetRow, BudgetRow];
    const [first, second] = now.document.fiscalYears.map(({ name }) => ({ was, now, year: name }));
    if (first === undefined || second === undefined) throw new Error("the demo's budget has one year");
    const { run, begun, letGo, most } = held();
    const jobs = [jobOf(bridgeOf(store, first, run)), jobOf(bridgeOf(store, second, run))];
    expect(bridgeOf(store, second, run)).toEqual({ job: jobs[1] });
    await begun;
    letGo();
    expect(await Promise.all(jobs.map(ended))).toEqual(["done", "done"]);
    expect(most()).toBe(1);
    expect(bridgeOf(store, second, run)).toMatchObject({ bridge: { year: second.year } });
    expect(await drawnBridge(store, first)).toMatchObject({ year: first.year });
  });

  it("is ended where another budget has taken that one's place, drawn or waiting", async () => {
    const [was, now] = [await budgetOf(store, frozen), await budgetNow()] as [BudgetRow, BudgetRow];
    const [first, second] = now.document.fiscalYears.map(({ name }) => ({ was, now, year: name }));
    if (first === undefined || second === undefined) throw new Error("the demo's budget has one year");
    const { run, begun, letGo, most } = held();
    const jobs = [jobOf(bridgeOf(store, first, run)), jobOf(bridgeOf(store, second, run))];
    await begun;
    dropOutdated(store, now.id);
    expect(jobs.map((job) => jobView(job)?.state)).toEqual(["running", "running"]);
    const after = await budgetNow();
    const next = jobOf(bridgeOf(store, { was, now: after, year: first.year }, run));
    expect(await ended(jobs[1] as string)).toBe("cancelled");
    letGo();
    expect(await ended(next)).toBe("done");
    expect(most()).toBe(1);
    expect(await drawnBridge(store, { was, now: after, year: second.year }, run)).toMatchObject({ year: second.year });
    // What it was asked for is not taken for drawn.
    expect(await ended(jobOf(bridgeOf(store, first, run)))).toBe("done");
  });
});
