import { cpSync, existsSync, mkdirSync, statSync } from "node:fs";
import path from "node:path";
import { setTimeout as pause } from "node:timers/promises";
import { beforeAll, expect, it } from "vitest";
import { reassessDay } from "@/app/_jobs/reassess-day.ts";
import { sweepAbandoned } from "@/app/_jobs/sweep-abandoned.ts";
import { listImports } from "@/db/imports.ts";
import { openStore, type Store } from "@/db/store.ts";
import { seededRandom } from "@/demo-data/random.ts";
import { everything } from "../app/jobs/made-up-files.ts";
import { borecast, buildCommand, folderWith } from "./command.ts";
import { fleetFiles, more } from "./import-to-end.ts";

/** An import whose process is killed at any moment: all of it is there afterwards, or nothing. */

beforeAll(buildCommand, 300_000);

const seed = 20_260_630;
/** The server is killed at more of them, in tests/server: both write by the same jobs. */
const moments = 15;
const act = { by: "A. Fitter", now: new Date() };

const files = { ...fleetFiles, [more.name]: more.text };
const importMore = ["import", more.name, "--take-changes"];

const databaseIn = (folder: string) => path.join(folder, "data", "borecast.db");

/** What stands in a folder once the next start has put in order what an ended process left. */
async function standingIn(folder: string): Promise<string> {
  const store = await openStore(databaseIn(folder));
  try {
    await sweepAbandoned(store, act.now);
    await reassessDay(store, act);
    return JSON.stringify(await everything(store));
  } finally {
    await store.close();
  }
}

async function lookInto<T>(folder: string, look: (store: Store) => Promise<T>): Promise<T> {
  const store = await openStore(databaseIn(folder));
  try {
    return await look(store);
  } finally {
    await store.close();
  }
}

/** How long the import of `more.csv` takes from its first write on, or until it is killed after so many ms. */
async function importIn(
  folder: string,
  killAfterMs: number,
): Promise<{ readonly lastedMs: number; readonly killed: boolean }> {
  const log = `${databaseIn(folder)}-wal`;
  let begun = Number.NaN;
  let ended = false;
  const whole = borecast(folder, importMore, async (child) => {
    while (!ended && !(existsSync(log) && statSync(log).size > 0)) await pause(1);
    begun = performance.now();
    await pause(Math.min(killAfterMs, 60_000), undefined, { ref: false });
    if (!ended) child.kill("SIGKILL");
  });
  const { status } = await whole;
  ended = true;
  return { lastedMs: performance.now() - begun, killed: status === null };
}

it(`an import killed at ${moments} moments leaves all of it or nothing`, async () => {
  const base = folderWith(files);
  expect(await borecast(base, ["import", "models.json", "known.csv"])).toMatchObject({ status: 0 });
  const copyOfBase = () => {
    const folder = folderWith(files);
    mkdirSync(path.join(folder, "data"));
    cpSync(path.join(base, "data"), path.join(folder, "data"), { recursive: true });
    return folder;
  };
  const untouched = await standingIn(copyOfBase());
  // The faster of two: a moment after the end tells nothing.
  let lastedMs = Number.POSITIVE_INFINITY;
  let taken = "";
  for (const folder of [copyOfBase(), copyOfBase()]) {
    const run = await importIn(folder, Number.POSITIVE_INFINITY);
    expect(run.killed).toBe(false);
    lastedMs = Math.min(lastedMs, run.lastedMs);
    taken = await standingIn(folder);
  }
  expect(taken).not.toBe(untouched);

  const random = seededRandom(seed);
  const seen = { nothing: 0, all: 0, halfRead: 0 };
  for (let moment = 0; moment < moments; moment++) {
    const folder = copyOfBase();
    const share = (moment + random.uniform()) / moments;
    await importIn(folder, share * lastedMs);
    const states = await lookInto(folder, async (store) => (await listImports(store)).map((row) => row.state));
    const left = await standingIn(folder);
    const told = `killed after ${share.toFixed(4)} of the import, which then was ${states[0]}`;
    expect([told, left === untouched || left === taken]).toEqual([told, true]);
    if (left === taken) seen.all += 1;
    else seen.nothing += 1;
    if (states.includes("staging")) seen.halfRead += 1;
    const after = await lookInto(folder, async (store) => (await listImports(store)).map((row) => row.state));
    expect(after).not.toContain("staging");
  }
  // Else the moments did not lie within the import.
  expect(Math.min(seen.nothing, seen.all, seen.halfRead)).toBeGreaterThan(0);
}, 240_000);
