import { expect, it } from "vitest";
import { jobView, subscribeToJob } from "@/app/_jobs/job-registry.ts";
import { startReplan } from "@/app/_jobs/replan.ts";
import { inThisThread, type RunTask } from "@/app/_jobs/worker/tasks.ts";
import { chooseForUnit } from "@/db/plan-choices.ts";
import { planHeads, planInForce } from "@/db/plans.ts";
import { demoStore } from "./demo-store.ts";
import { act } from "./made-up-files.ts";

const ended = (job: string) =>
  new Promise<void>((resolve) => {
    subscribeToJob(job, ({ state }) => {
      if (state !== "running") resolve();
    });
  });

it("joins a plan in the making of the same choices, and plans again after one that began before a choice", async () => {
  const store = await demoStore();
  await ended(await startReplan(store, act, inThisThread));
  const booking = (await planInForce(store))?.plan.bookings[0];
  if (booking === undefined) throw new Error("nothing is booked");
  const { unit, scope, start } = booking;

  let release = () => {};
  const held = new Promise<void>((resolve) => {
    release = resolve;
  });
  let tasks = 0;
  const slowly: RunTask = (name, input, control) => {
    const begin = () => inThisThread(name, input, control);
    return ++tasks === 1 ? held.then(begin) : begin();
  };
  const first = await startReplan(store, act, slowly);
  expect(await startReplan(store, act, slowly)).toBe(first);
  await expect.poll(() => tasks).toBe(1);
  // It has read what was chosen by now, and plans without this.
  const told = { by: act.by, at: act.now.toISOString() };
  await chooseForUnit(store, { unit, chosen: [{ scope, date: start }], seen: [], known: [] }, told);
  const second = await startReplan(store, act, slowly);
  expect(second).not.toBe(first);
  expect(await startReplan(store, act, slowly)).toBe(second);
  release();
  await ended(second);
  expect([first, second].map((job) => jobView(job)?.state)).toEqual(["done", "done"]);
  expect(await planHeads(store)).toHaveLength(3);
  const plan = (await planInForce(store))?.plan;
  expect(plan?.bookings.find((one) => one.unit === unit && one.scope === scope)).toMatchObject({
    start,
    isPinned: true,
  });
}, 60_000);
