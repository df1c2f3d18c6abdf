import { sql } from "drizzle-orm";
import { expect, it, onTestFinished, vi } from "vitest";
import { jobView, startJob, subscribeToJob } from "@/app/_jobs/job-registry.ts";
import { askForRecord, makeRecordIfDue, recordStanding } from "@/app/_jobs/track-record-upkeep.ts";
import { changeSettings } from "@/db/settings.ts";
import { keptTrackRecord } from "@/db/track-record.ts";
import { act, newStore } from "./made-up-files.ts";

/** A store of which a record is due, looked at by a clock that is moved by hand. */
async function upkeep() {
  const store = await newStore();
  let seconds = 0;
  const clock = () => new Date(act.now.getTime() + 1000 * seconds);
  return {
    store,
    /** Looks so many seconds after the beginning; what came of the job that this began, null: none. */
    lookAt: async (at: number) => {
      seconds = at;
      const job = await makeRecordIfDue(store, clock);
      return job === null ? null : await ended(job);
    },
    change: (horizonYears: number) =>
      changeSettings(store, { horizonYears }, { by: act.by, at: act.now.toISOString() }),
    clock,
  };
}

const ended = (id: string) =>
  new Promise((resolve) => {
    subscribeToJob(id, ({ state }) => {
      if (state !== "running") resolve(state);
    });
  });

it("makes the record once changes have paused for five minutes, and not again", async () => {
  const { store, lookAt, change } = await upkeep();
  expect(await lookAt(0)).toBeNull();
  expect(await lookAt(299)).toBeNull();
  await change(4);
  expect(await lookAt(301)).toBeNull();
  expect(await lookAt(600)).toBeNull();
  expect(await recordStanding(store)).toEqual({ state: "waiting", until: "pause" });
  expect(await keptTrackRecord(store)).toBeNull();
  expect(await lookAt(601)).toBe("done");
  expect(await recordStanding(store)).toEqual({ state: "current" });
  expect(await lookAt(2000)).toBeNull();
  // There and back within a look: the pause begins anew with the next change.
  await change(5);
  expect(await lookAt(3000)).toBeNull();
  await change(4);
  expect(await lookAt(3100)).toBeNull();
  await change(5);
  expect(await lookAt(3400)).toBeNull();
  expect(await lookAt(3700)).toBe("done");
});

it("makes it within seconds for who looks at it, and waits again once nobody does", async () => {
  const { store, lookAt, change, clock } = await upkeep();
  await lookAt(0);
  askForRecord(store, clock());
  expect(await lookAt(2)).toBeNull();
  expect(await lookAt(3)).toBe("done");
  await change(4);
  expect(await lookAt(20)).toBeNull();
  expect(await lookAt(100)).toBeNull();
  expect(await lookAt(320)).toBe("done");
});

it("is made once by two looks at the same time, and waits for other jobs", async () => {
  const { store, lookAt, clock } = await upkeep();
  await lookAt(0);
  let finish = () => {};
  const other = startJob("stage", () => new Promise<void>((resolve) => (finish = resolve)));
  await Promise.resolve();
  expect(await lookAt(400)).toBeNull();
  expect(await recordStanding(store)).toEqual({ state: "waiting", until: "job-ended" });
  finish();
  await ended(other);
  const jobs = await Promise.all([makeRecordIfDue(store, clock), makeRecordIfDue(store, clock)]);
  expect(jobs.filter((job) => job !== null)).toHaveLength(1);
  expect(await recordStanding(store)).toEqual({ state: "making" });
  expect(await makeRecordIfDue(store, clock)).toBeNull();
  const [job] = jobs.flatMap((id) => id ?? []);
  expect(await ended(job as string)).toBe("done");
  expect(jobView(job as string)?.result).toBe(true);
});

it("does not wait for a bridge that is drawn for a page", async () => {
  const { lookAt } = await upkeep();
  await lookAt(0);
  let finish = () => {};
  const bridge = startJob("bridge", () => new Promise<void>((resolve) => (finish = resolve)));
  await Promise.resolve();
  expect(await lookAt(400)).toBe("done");
  finish();
  expect(await ended(bridge)).toBe("done");
});

it("tries a record that could not be made again after ever longer pauses, until it can", async () => {
  const error = vi.spyOn(console, "error").mockImplementation(() => undefined);
  onTestFinished(() => error.mockRestore());
  const { store, lookAt, change } = await upkeep();
  const rename = (from: string, to: string) =>
    store.tx(async (q) => void (await q.run(sql.raw(`ALTER TABLE ${from} RENAME TO ${to}`))));
  await rename("track_cases", "away");
  await lookAt(0);
  expect(await lookAt(300)).toBe("failed");
  expect(await recordStanding(store)).toMatchObject({
    state: "failed",
    problem: expect.stringContaining("The server's log says more"),
    again: new Date(act.now.getTime() + 360_000),
  });
  expect(await lookAt(359)).toBeNull();
  expect(await lookAt(360)).toBe("failed");
  expect(await lookAt(479)).toBeNull();
  expect(await lookAt(480)).toBe("failed");
  expect(error).toHaveBeenCalledTimes(3);

  // Other facts or settings are another try, after the usual pause.
  await change(4);
  expect(await lookAt(490)).toBeNull();
  expect(await recordStanding(store)).toEqual({ state: "waiting", until: "pause" });
  expect(await lookAt(790)).toBe("failed");
  await rename("away", "track_cases");
  expect(await lookAt(849)).toBeNull();
  expect(await lookAt(850)).toBe("done");
  expect(await recordStanding(store)).toEqual({ state: "current" });
  expect(await keptTrackRecord(store)).not.toBeNull();
});
