import { afterEach, beforeAll, beforeEach, expect, it } from "vitest";
import { budgetAnew } from "@/app/_jobs/budget-anew.ts";
import { cancelJob, subscribeToJob } from "@/app/_jobs/job-registry.ts";
import { giveUp, isFull, mostWaiting, nameAndReckon, reckon, reckoningOf, takeUp } from "@/app/_jobs/what-ifs.ts";
import {
  inThisThread,
  type RunTask,
  type TaskInput,
  type TaskName,
  type TaskResult,
} from "@/app/_jobs/worker/tasks.ts";
import { nameScenario, scenariosTold } from "@/db/scenarios.ts";
import type { Store } from "@/db/store.ts";
import { openDemoStore } from "./demo-store.ts";
import { act } from "./made-up-files.ts";

const doer = { by: act.by, at: act.now.toISOString() };
const wait = { kind: "postpone", months: 3 } as const;

let store: Store;
let count = 0;
const named = async (change: Parameters<typeof nameScenario>[1]["change"] = wait) =>
  (await nameScenario(store, { name: `What if ${++count}`, change }, doer)) as number;
const ended = (job: string | null) =>
  new Promise((resolve) => {
    subscribeToJob(job ?? "", ({ state }) => {
      if (state !== "running") resolve(state);
    });
  });

/** Reckons none before it is let; what was begun, and how many at once at most. */
function held() {
  let [running, most, begun] = [0, 0, 0];
  let letGo = () => {};
  const isLet = new Promise<void>((resolve) => (letGo = resolve));
  const run: RunTask = async <N extends TaskName>(name: N, input: TaskInput<N>): Promise<TaskResult<N>> => {
    most = Math.max(most, ++running);
    begun++;
    await isLet;
    const result: TaskResult<N> = await inThisThread(name, input, {});
    running--;
    return result;
  };
  return { run, letGo: () => letGo(), most: () => most, begun: () => begun };
}

beforeAll(async () => {
  store = await openDemoStore();
  await budgetAnew(store, act, {}, inThisThread);
  return () => store.close();
}, 60_000);

let hand: ReturnType<typeof held>;
beforeEach(() => {
  hand = held();
});
afterEach(() => hand.letGo());

it("reckons what-ifs one after the other, whether anybody looks or not", async () => {
  const ids = [await named(), await named()];
  const jobs = ids.map((id) => reckon(store, id, act, hand.run));
  expect(reckon(store, ids[1] as number, act, hand.run)).toBe(jobs[1]);
  expect(reckoningOf(store, ids[1] as number)).toEqual({ state: "running", job: jobs[1] });
  hand.letGo();
  expect(await Promise.all(jobs.map(ended))).toEqual(["done", "done"]);
  expect([hand.begun(), hand.most()]).toEqual([2, 1]);
  const told = (await scenariosTold(store)).filter(({ id }) => ids.includes(id));
  expect(told.map((one) => one.told === null)).toEqual([false, false]);
  expect(reckoningOf(store, ids[1] as number)).toBeNull();
});

it("lets so many wait and no more", async () => {
  const ids: number[] = [];
  for (let i = 0; i <= mostWaiting; i++) ids.push(await named());
  const jobs = ids.map((id) => reckon(store, id, act, hand.run));
  expect(jobs.map((job) => job === null)).toEqual([...Array(mostWaiting).fill(false), true]);
  expect(isFull(store)).toBe(true);
  // One that is given up while it waits makes room.
  giveUp(store, ids[3] as number);
  expect(await ended(jobs[3] as string)).toBe("cancelled");
  expect(isFull(store)).toBe(false);
  for (const id of ids) giveUp(store, id);
  hand.letGo();
  await Promise.all(jobs.slice(0, mostWaiting).map(ended));
});

it("takes up what was never begun, and leaves to a person what failed or was ended", async () => {
  const [fresh, failed, cancelled] = [
    await named(),
    await named({ kind: "capacity", percent: 10, depot: "Nowhere" }),
    await named(),
  ];
  takeUp(store, [fresh, failed, cancelled], act, hand.run);
  const jobs = [fresh, failed, cancelled].map((id) => {
    const known = reckoningOf(store, id);
    return known?.state === "running" ? known.job : null;
  });
  cancelJob(jobs[2] ?? "");
  expect(await ended(jobs[2] ?? "")).toBe("cancelled");
  hand.letGo();
  expect(await Promise.all(jobs.slice(0, 2).map(ended))).toEqual(["done", "failed"]);
  expect(reckoningOf(store, failed)).toEqual({ state: "failed", problem: "No unit stands at Nowhere." });
  takeUp(store, [failed, cancelled], act, hand.run);
  expect([failed, cancelled].map((id) => reckoningOf(store, id)?.state)).toEqual(["failed", "failed"]);
});

it("keeps a what-if that was named as the last place went, without a job, and nothing where none was left", async () => {
  // Of the same database, with places of its own.
  const own = { ...store };
  const ids: number[] = [];
  for (let i = 0; i < mostWaiting; i++) ids.push(await named());
  const asked = { name: "The last place", change: wait };
  expect(await nameAndReckon(own, { ...asked, name: `What if ${count}` }, act, hand.run)).toBe("name-taken");
  for (const id of ids.slice(1)) reckon(own, id, act, hand.run);
  // While it is being named, another one takes the place.
  const naming = nameAndReckon(own, asked, act, hand.run);
  reckon(own, ids[0] as number, act, hand.run);
  expect(await naming).toEqual({ job: null });
  expect((await scenariosTold(store)).map(({ name }) => name)).toContain(asked.name);
  expect(await nameAndReckon(own, { ...asked, name: "Too late" }, act, hand.run)).toBe("full");
  expect((await scenariosTold(store)).map(({ name }) => name)).not.toContain("Too late");
  for (const id of ids) giveUp(own, id);
});
