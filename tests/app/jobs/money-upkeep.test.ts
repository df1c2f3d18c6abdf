import { expect, it } from "vitest";
import { budgetAnew, budgetDue, isPlanDue, programName } from "@/app/_jobs/budget-anew.ts";
import { subscribeToJob } from "@/app/_jobs/job-registry.ts";
import { makeMoneyIfDue, moneyStanding } from "@/app/_jobs/money-upkeep.ts";
import { reassessDay } from "@/app/_jobs/reassess-day.ts";
import { recordFacts } from "@/app/_jobs/record-facts.ts";
import { inThisThread } from "@/app/_jobs/worker/tasks.ts";
import { keptAsOf, unitNames, unitReport } from "@/db/assessments.ts";
import { budgetOfToday } from "@/db/budgets.ts";
import { planInForce } from "@/db/plans.ts";
import { changeSettings } from "@/db/settings.ts";
import type { Store } from "@/db/store.ts";
import { repairFact } from "../../lib/sealing/facts.ts";
import { demoStore } from "./demo-store.ts";
import { act } from "./made-up-files.ts";

const ended = (id: string | null) =>
  new Promise((resolve) => {
    if (id === null) return resolve(null);
    subscribeToJob(id, ({ state }) => {
      if (state !== "running") resolve(state);
    });
  });

/** Looks at a store, by a clock that is moved by hand. */
function upkeepOf(store: Store) {
  let minutes = 0;
  const clock = () => new Date(act.now.getTime() + 60_000 * minutes);
  return {
    clock,
    /** So many minutes after the beginning; what came of the job that this began, null: none. */
    lookAt: async (at: number) => {
      minutes = at;
      return await ended(await makeMoneyIfDue(store, clock, inThisThread));
    },
  };
}

it("draws no budget, and makes no plan, from reports that are behind the facts", async () => {
  const store = await demoStore();
  const { clock, lookAt } = upkeepOf(store);
  const [unit] = await unitNames(store);
  const controller = new AbortController();
  const onProgress = ({ phase }: { readonly phase: string }) => {
    if (phase === "assessing") controller.abort(new Error("ended"));
  };
  const meter = (await unitReport(store, unit as string))?.assessment.meter.value;
  const repair = repairFact({
    unit: unit as string,
    date: (await keptAsOf(store)) as string,
    meter: meter as number,
    scope: "complete",
  });
  await expect(
    recordFacts(store, { title: "Repair", told: { repairs: [repair] } }, act, {
      signal: controller.signal,
      onProgress,
    }),
  ).rejects.toThrow("made good at the next start");
  expect(await lookAt(0)).toBeNull();
  expect(await lookAt(10)).toBeNull();
  expect(await moneyStanding(store, clock())).toEqual({ state: "waiting", until: "reports" });
  expect(await planInForce(store)).toBeNull();
  // Drawn all the same, as by an older program: it is due again once the reports are made.
  await budgetAnew(store, { by: programName, now: clock() }, {}, inThisThread);
  const [plan, budget] = [await planInForce(store), await budgetOfToday(store)];
  await reassessDay(store, { ...act, now: clock() });
  expect(await isPlanDue(store, clock())).toBe(true);
  expect(await lookAt(20)).toBeNull();
  expect(await lookAt(30)).toBe("done");
  expect((await planInForce(store))?.id).not.toBe(plan?.id);
  expect((await budgetOfToday(store))?.id).not.toBe(budget?.id);
  expect(await moneyStanding(store, clock())).toEqual({ state: "current" });
});

it("waits after midnight for the reports of the new day", async () => {
  const store = await demoStore();
  await changeSettings(store, { asOf: null }, { by: act.by, at: act.now.toISOString() });
  await reassessDay(store, act);
  const { clock, lookAt } = upkeepOf(store);
  await lookAt(0);
  expect(await lookAt(10)).toBe("done");
  const aDay = 24 * 60;
  await lookAt(aDay);
  expect(await lookAt(aDay + 10)).toBeNull();
  expect(await moneyStanding(store, clock())).toEqual({ state: "waiting", until: "reports" });
  // Drawn all the same, as by one that had begun: it is due again once the reports are made.
  await budgetAnew(store, { by: programName, now: clock() }, {}, inThisThread);
  expect(await budgetDue(store, clock())).toBeNull();
  await reassessDay(store, { ...act, now: clock() });
  expect(await budgetDue(store, clock())).not.toBeNull();
  await lookAt(aDay + 20);
  expect(await lookAt(aDay + 30)).toBe("done");
  expect((await budgetOfToday(store))?.asOf).toBe("2026-07-01");
});
