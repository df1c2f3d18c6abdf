import { cpSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { setTimeout as pause } from "node:timers/promises";
import { eq, sql } from "drizzle-orm";
import { beforeAll, expect, it, onTestFinished } from "vitest";
import { commitImport } from "@/app/_jobs/commit-import.ts";
import { whatIsLeft } from "@/app/_jobs/reassess-day.ts";
import { undoImport } from "@/app/_jobs/undo-import.ts";
import { ensureCommand, ensurePages } from "@/cli/setup/build.mjs";
import { importDetail } from "@/db/imports.ts";
import type { ImportState } from "@/db/schema-imports.ts";
import { changeSettings } from "@/db/settings.ts";
import { openStore, type Store } from "@/db/store.ts";
import { seededRandom } from "@/demo-data/random.ts";
import { act, everything, source, take } from "../app/jobs/made-up-files.ts";
import { fleetFiles, more } from "../cli/import-to-end.ts";
import { importFile, type Step, steps, type Told } from "./import-page.ts";
import { type RunningServer, startServer } from "./start-server.ts";

/** The server is killed at any moment of an import by the Import page: all of it is there afterwards, or nothing. */

const seed = 20_260_701;
const moments = 50;
/** Folders, each with a server of its own, that go from kill to kill side by side: a start waits more than it works. */
const lanes = 2;
/** Steps are of very different lengths; none is left to chance. The rest is given out by their lengths. */
const fewestOfStep = 6;
/** More than any recovery takes, on a machine that others use as well. */
const patienceMs = 60_000;

beforeAll(async () => {
  await ensureCommand();
  await ensurePages(console.log);
}, 600_000);

const databaseIn = (folder: string) => path.join(folder, "borecast.db");

async function lookInto<T>(folder: string, look: (store: Store) => Promise<T>): Promise<T> {
  const store = await openStore(databaseIn(folder));
  try {
    return await look(store);
  } finally {
    await store.close();
  }
}

function temporaryFolder(): string {
  const folder = mkdtempSync(path.join(tmpdir(), "borecast-killed-"));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

async function smallFleet(): Promise<string> {
  const folder = temporaryFolder();
  await lookInto(folder, async (store) => {
    // A run over midnight must not tell the fleet for another day.
    await changeSettings(store, { asOf: "2026-06-30" }, { by: act.by, at: act.now.toISOString() });
    await take(
      store,
      Object.entries(fleetFiles).map(([name, text]) => source(name, text)),
    );
  });
  return folder;
}

function copyOf(base: string): string {
  const folder = temporaryFolder();
  cpSync(base, folder, { recursive: true });
  return folder;
}

type Imports = ReadonlyMap<string, { readonly state: ImportState; readonly purged: boolean }>;

async function importsIn({ q, imports }: Store): Promise<Imports> {
  const rows = await q.select({ id: imports.id, state: imports.state, purged: imports.purged }).from(imports);
  return new Map(rows.map(({ id, ...row }) => [id, row]));
}

/** Waits until the server, started again, has put in order what the killed one left. Gives the imports then. */
async function putInOrder(store: Store): Promise<Imports> {
  const end = performance.now() + patienceMs;
  let left = "";
  while (performance.now() < end) {
    const imports = await importsIn(store);
    const isSwept = [...imports.values()].every(({ state, purged }) =>
      state === "discarded" ? purged : state !== "staging",
    );
    const { isBehind, isOtherDay } = await whatIsLeft(store, new Date());
    if (isSwept && !isBehind && !isOtherDay) return imports;
    const states = [...imports.values()].map(({ state, purged }) => (purged ? `${state}, purged` : state));
    left = JSON.stringify({ isBehind, isOtherDay, states });
    await pause(10);
  }
  throw new Error(`the server started again and did not put in order what was left: ${left}`);
}

/** Rows and parts of files that an import still has. */
async function rowsOf({ q, tests, readings, importFileParts: parts }: Store, importId: string) {
  const count = sql<number>`count(*)`;
  const [tested] = await q.select({ count }).from(tests).where(eq(tests.importId, importId));
  const [read] = await q
    .select({ count })
    .from(readings)
    .innerJoin(tests, eq(tests.id, readings.testId))
    .where(eq(tests.importId, importId));
  const [kept] = await q.select({ count }).from(parts).where(eq(parts.importId, importId));
  return { tests: tested?.count, readings: read?.count, parts: kept?.count };
}

const originalOf = async ({ origin }: RunningServer, importId: string) =>
  await (await fetch(`${origin}/api/imports/${importId}/files/1`)).text();

/** How long each step of an import lasts that nobody disturbs, on a server that has just started; and what then stands. */
async function undisturbed(base: string) {
  const folder = copyOf(base);
  const server = await startServer(folder);
  const begun: { readonly step: Step; readonly at: number }[] = [];
  await lookInto(folder, putInOrder);
  const told = await importFile(server.origin, more, (step) => begun.push({ step, at: performance.now() }));
  const end = performance.now();
  await server.kill();
  expect(told).toMatchObject({ isDone: true });
  const lastedMs = Object.fromEntries(
    begun.map(({ step, at }, i) => [step, (begun[i + 1]?.at ?? end) - at]),
  ) as Readonly<Record<Step, number>>;
  const { taken, rows } = await lookInto(folder, async (store) => ({
    taken: JSON.stringify(await everything(store)),
    rows: await rowsOf(store, told.staged as string),
  }));
  return { lastedMs, taken, rows };
}

interface Moment {
  readonly step: Step;
  /** Of the step's length. */
  readonly share: number;
}

/** Moments of all steps, spread evenly over each, in the order in which they come. */
function momentsOf(lastedMs: Readonly<Record<Step, number>>): readonly Moment[] {
  const random = seededRandom(seed);
  const whole = steps.reduce((sum, step) => sum + lastedMs[step], 0);
  const free = moments - fewestOfStep * steps.length;
  const counts = steps.map((step) => fewestOfStep + Math.floor((free * lastedMs[step]) / whole));
  const longest = steps.reduce((best, step, i) => (lastedMs[step] > lastedMs[steps[best] as Step] ? i : best), 0);
  counts[longest] = (counts[longest] as number) + moments - counts.reduce((sum, count) => sum + count, 0);
  return steps.flatMap((step, i) => {
    const count = counts[i] as number;
    return Array.from({ length: count }, (_, nth) => ({ step, share: (nth + random.uniform()) / count }));
  });
}

interface Killed {
  readonly told: Told;
  /** The step that the page knew of when the server was killed; `end`: the import had ended before. */
  readonly during: Step | "end";
}

async function killAt(
  server: RunningServer,
  { step, share }: Moment,
  lastedMs: Readonly<Record<Step, number>>,
): Promise<Killed> {
  let now: Step | "end" = "upload";
  let during: Killed["during"] = "end";
  let killed: Promise<void> | undefined;
  const told = await importFile(server.origin, more, (begun) => {
    now = begun;
    if (begun !== step) return;
    killed = pause(share * lastedMs[step]).then(() => {
      during = now;
      return server.kill();
    });
  });
  now = "end";
  if (killed === undefined) throw told.brokenBy;
  await killed;
  return { told, during };
}

it(`a server killed at ${moments} moments of an import leaves all of it or nothing`, async () => {
  const base = await smallFleet();
  const untouched = await lookInto(base, async (store) => JSON.stringify(await everything(store)));
  const first = await undisturbed(base);
  const second = await undisturbed(base);
  const { taken, rows } = first;
  expect(second.taken).toBe(taken);
  expect(taken).not.toBe(untouched);
  // The faster of two: a moment after the end of a step tells less.
  const lastedMs = Object.fromEntries(
    steps.map((step) => [step, Math.min(first.lastedMs[step], second.lastedMs[step])]),
  ) as Readonly<Record<Step, number>>;

  const during: Record<Killed["during"], number> = { upload: 0, stage: 0, look: 0, commit: 0, assess: 0, end: 0 };
  const left = { nothing: 0, discarded: 0, staged: 0, committed: 0 };

  /** One lane: kill, start again on the same folder, look, take back what is in, and on to the next moment. */
  const lane = async (its: readonly Moment[]) => {
    const folder = copyOf(base);
    let server = await startServer(folder);
    const store = await openStore(databaseIn(folder));
    try {
      let before = await putInOrder(store);
      for (const moment of its) {
        const killed = await killAt(server, moment, lastedMs);
        during[killed.during] += 1;
        const at = `killed after ${moment.share.toFixed(3)} of ${moment.step}, at ${killed.during}`;
        const expectThat = (what: string, value: unknown) => ({
          is: (wanted: unknown) => expect({ at, [what]: value }).toEqual({ at, [what]: wanted }),
        });

        server = await startServer(folder);
        const imports = await putInOrder(store);
        const fresh = [...imports].filter(([id]) => !before.has(id));
        expectThat("imports begun", fresh.length).is(killed.told.staged === null ? fresh.length && 1 : 1);
        const [id, { state }] = fresh[0] ?? ["", { state: null }];
        // What the page was told is true for good.
        if (killed.told.staged !== null) expectThat("import", id).is(killed.told.staged);
        if (killed.told.staged !== null) expectThat("kept", state === "staged" || state === "committed").is(true);
        if (killed.told.isDone) expectThat("state", state).is("committed");

        const stands = JSON.stringify(await everything(store));
        if (state !== "committed") expectThat("as before", stands === untouched).is(true);
        if (state === null) left.nothing += 1;
        else if (state === "discarded") {
          left.discarded += 1;
          expectThat("rows", await rowsOf(store, id)).is({ tests: 0, readings: 0, parts: 0 });
        } else {
          expect(["staged", "committed"]).toContain(state);
          left[state as "staged" | "committed"] += 1;
          expectThat("rows", await rowsOf(store, id)).is(rows);
          expectThat("original kept", (await originalOf(server, id)) === more.text).is(true);
          // What waits can still be taken in, with the same end. By this process, which is warm: a server just started is slow.
          if (state === "staged") {
            const outcome = await commitImport(store, id, { ...act, takeChanges: true });
            expectThat("taken in", outcome.ok).is(true);
          }
          expectThat("all there", JSON.stringify(await everything(store)) === taken).is(true);
          expectThat("state told", (await importDetail(store, id))?.state).is("committed");
          expectThat("undone", (await undoImport(store, id, act)).ok).is(true);
          expectThat("taken back", JSON.stringify(await everything(store)) === untouched).is(true);
        }
        before = await importsIn(store);
      }
    } finally {
      await store.close();
      await server.kill();
    }
  };
  const all = momentsOf(lastedMs);
  expect(all).toHaveLength(moments);
  await Promise.all(Array.from({ length: lanes }, (_, nth) => lane(all.filter((_, i) => i % lanes === nth))));

  const ms = steps.map((step) => `${step} ${Math.round(lastedMs[step])} ms`).join(", ");
  console.log(`Undisturbed: ${ms}. Killed during ${JSON.stringify(during)}; left ${JSON.stringify(left)}.`);
  // Else the moments did not lie within the import, or all in a part of it. Steps are faster at times than when measured.
  for (const step of steps) expect({ step, hit: during[step] > 0 }).toEqual({ step, hit: true });
  expect(during.end).toBeLessThan(moments / 2);
  expect(Math.min(...Object.values(left))).toBeGreaterThan(0);
}, 900_000);
