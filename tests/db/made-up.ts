import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { onTestFinished } from "vitest";
import { finishStaging } from "@/db/comparison.ts";
import { commitImport } from "@/db/import-state.ts";
import { beginImport } from "@/db/imports.ts";
import type { ImportOrigin } from "@/db/schema-imports.ts";
import { type StagedFacts, stageFacts } from "@/db/staging-facts.ts";
import { stageTests } from "@/db/staging-tests.ts";
import { openStore, type Store } from "@/db/store.ts";
import type { EngineModel } from "@/lib/schema/engine-model.ts";
import type { MeterFact, ReadingFact, RepairFact, TestFact, UnitFact } from "@/lib/schema/facts.ts";

/** A made-up clock: instants that a test names. */
export const at = "2026-06-30T08:00:00.000Z";
export const by = "A. Fitter";

/** The path of a database in a folder of its own, which goes when the test has ended. */
export function temporaryFile(name = "borecast.db"): string {
  const folder = mkdtempSync(path.join(tmpdir(), "borecast-db-"));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return path.join(folder, name);
}

export async function temporaryStore(file = ":memory:"): Promise<Store> {
  const store = await openStore(file);
  onTestFinished(() => store.close());
  return store;
}

export const reading = (cylinder: number, value: number, more: Partial<ReadingFact> = {}): ReadingFact => ({
  cylinder,
  value,
  valueUnit: "kPa",
  supply: null,
  firstStroke: null,
  heardAt: [],
  order: null,
  remarks: null,
  line: cylinder + 1,
  ...more,
});

export const test = (more: Partial<TestFact> = {}): TestFact => ({
  unit: "V-1",
  date: "2026-03-01",
  time: null,
  meter: 1000,
  meterUnit: "h",
  test: "compression-dry",
  attempt: 1,
  instrument: null,
  depot: null,
  engineSerial: null,
  engineModel: "petrol-4-a",
  testedBy: null,
  orificeMm: null,
  warm: null,
  throttleOpen: null,
  allPlugsOut: null,
  tdcConfirmed: null,
  gaugeZeroed: null,
  crankingRpm: null,
  altitudeM: null,
  barometerKpa: null,
  file: "tests.csv",
  readings: [reading(1, 1200), reading(2, 1190)],
  ...more,
});

export const unit = (more: Partial<UnitFact> = {}): UnitFact => ({
  unit: "V-1",
  engineModel: null,
  meterUnit: null,
  depot: null,
  class: null,
  inServiceDate: null,
  inServiceMeter: null,
  engineSerial: null,
  disposalDate: null,
  status: "in-service",
  statusReason: null,
  file: "units.csv",
  line: 2,
  ...more,
});

export const repair = (more: Partial<RepairFact> = {}): RepairFact => ({
  unit: "V-1",
  date: "2026-02-01",
  meter: 900,
  scope: "top-end",
  cylinders: "all",
  found: [],
  findings: [],
  cost: null,
  labourHours: null,
  downtimeDays: null,
  engineSerial: null,
  remarks: null,
  file: "repairs.csv",
  line: 2,
  ...more,
});

export const meterReading = (more: Partial<MeterFact> = {}): MeterFact => ({
  unit: "V-1",
  date: "2026-01-01",
  meter: 800,
  meterReset: false,
  file: "meters.csv",
  line: 2,
  ...more,
});

export const model = (more: Partial<EngineModel> = {}): EngineModel => ({
  id: "petrol-4-a",
  cylinders: 4,
  neighbours: [],
  layout: "in-line",
  aircraft: false,
  compression: { newKpa: 1250, minimumKpa: 900, spreadRule: "of-highest" },
  ...more,
});

export interface MadeUpImport extends StagedFacts {
  readonly tests?: readonly TestFact[];
  readonly origin?: ImportOrigin;
}

/** Stages an import whole, up to the comparison. Gives its id and its counts. */
export async function stage(store: Store, { tests = [], origin = "file", ...facts }: MadeUpImport, id?: string) {
  const importId = await beginImport(store, { ...(id === undefined ? {} : { id }), by, at, files: [], origin });
  await stageTests(store, importId, tests);
  await stageFacts(store, importId, facts);
  return { importId, counts: await finishStaging(store, importId) };
}

/** Stages and commits an import; a failed commit fails the test. */
export async function take(store: Store, news: MadeUpImport, { takeChanges = true } = {}): Promise<string> {
  const { importId } = await stage(store, news);
  const outcome = await commitImport(store, importId, { by, at, takeChanges });
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.error));
  return importId;
}
