import { readdirSync, readFileSync } from "node:fs";
import path from "node:path";
import { type APIRequestContext, expect } from "@playwright/test";
import Papa from "papaparse";
import { demoName } from "@/app/_jobs/demo-house.ts";
import type { Assessment, UnitAssessment } from "@/lib/schema/assessment.ts";
import { test } from "./page-checks.ts";

const by = "R. Ames";

export const demoFolder = path.resolve(import.meta.dirname, "../../demo-data");

/** What one drops on the Import page to bring in the demo fleet. */
export const demoFiles: readonly string[] = readdirSync(demoFolder)
  .filter((name) => name.endsWith(".csv") || name === "engine-models.json")
  .map((name) => path.join(demoFolder, name));

interface DemoUnit {
  readonly unit: string;
  readonly engine_model: string;
  readonly depot: string;
}

/** The units as their file names them. */
export const demoUnits: readonly DemoUnit[] = Papa.parse<DemoUnit>(
  readFileSync(path.join(demoFolder, "units.csv"), "utf8"),
  { header: true, skipEmptyLines: true },
).data;

// A connection that is kept may be closed by the server just as it is used again.
const headers = { connection: "close" };

/** Starts work on the server and awaits its end; gives its result. */
async function finish(request: APIRequestContext, address: string, data?: object): Promise<unknown> {
  const begun = await request.post(address, { params: { by }, headers, ...(data === undefined ? {} : { data }) });
  expect(begun.status(), await begun.text()).toBe(202);
  const { job } = (await begun.json()) as { job: string };
  const view = async () =>
    (await (await request.get(`/api/jobs/${job}`, { headers })).json()) as { state: string; result: unknown };
  await expect.poll(async () => (await view()).state, { timeout: 60_000, intervals: [50] }).not.toBe("running");
  const ended = await view();
  expect(ended).toMatchObject({ state: "done", error: null });
  return ended.result;
}

/** Takes files in as a program does, changes and all; gives the import's id. */
export async function importFiles(
  request: APIRequestContext,
  files: Readonly<Record<string, string>>,
): Promise<string> {
  const begun = await request.post("/api/uploads", { params: { by }, headers });
  const { upload } = (await begun.json()) as { upload: string };
  for (const [name, text] of Object.entries(files)) {
    const sent = await request.post(`/api/uploads/${upload}`, { params: { by, name }, headers, data: text });
    expect(sent.status(), await sent.text()).toBe(201);
  }
  const { import: id } = (await finish(request, "/api/imports", { upload })) as { import: string };
  await finish(request, `/api/imports/${id}/commit`, { takeChanges: true });
  return id;
}

/** Takes one import back. */
export async function undoImport(request: APIRequestContext, id: string): Promise<void> {
  await finish(request, `/api/imports/${id}/undo`);
}

/** The ids of the imports that stand, newest first. */
export async function standingImports(request: APIRequestContext): Promise<readonly string[]> {
  return (await standing(request)).map(({ id }) => id);
}

interface StandingImport {
  readonly id: string;
  readonly state: string;
  readonly by: string;
}

async function standing(request: APIRequestContext): Promise<readonly StandingImport[]> {
  const { imports } = (await (await request.get("/api/imports", { headers })).json()) as {
    imports: readonly StandingImport[];
  };
  return imports.filter(({ state }) => state === "committed");
}

/** Takes back whatever a test before this one left in the store. */
export async function emptyStore(request: APIRequestContext): Promise<void> {
  for (const id of await standingImports(request)) await undoImport(request, id);
}

export async function loadDemoFleet(request: APIRequestContext): Promise<void> {
  await finish(request, "/api/demo");
}

/** Has the tests of this file or group find an empty store. */
export function withEmptyStore(): void {
  test.beforeAll(({ request }) => emptyStore(request));
}

/** Has the tests of this file or group find the demo fleet in the store, and nothing else. */
export function withDemoFleet(): void {
  test.beforeAll(async ({ request }) => {
    const all = await standing(request);
    if (all.length === 1 && all[0]?.by === demoName) return;
    await emptyStore(request);
    await loadDemoFleet(request);
  });
}

/** What the server tells programs of the fleet: the pages must say the same. */
export async function assessedUnits(request: APIRequestContext): Promise<readonly UnitAssessment[]> {
  const answer = await request.get("/api/assessment", { headers });
  return ((await answer.json()) as Assessment).units;
}
