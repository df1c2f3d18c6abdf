import path from "node:path";
import { commitImport } from "@/app/_jobs/commit-import.ts";
import type { ImportSource } from "@/app/_jobs/import-source.ts";
import { stageImport } from "@/app/_jobs/stage-import.ts";
import { unitNames, unitReport } from "@/db/assessments.ts";
import { fleetFacts } from "@/db/facts.ts";
import type { Store } from "@/db/store.ts";
import {
  comparedModels,
  modelComparisonOf,
  modelRates,
  staleComparisons,
  testerComparisonsKept,
} from "@/db/unit-courses.ts";
import { judgedMeasures } from "@/lib/schema/words.ts";
import { temporaryFile, temporaryStore } from "../../db/made-up.ts";

/** Small fleets as files, and ways to put them into a store of their own. */

export const now = new Date("2026-06-30T08:00:00.000Z");
export const act = { by: "A. Fitter", now };
export const demoFolder = path.resolve(import.meta.dirname, "../../../demo-data");

export const newStore = (): Promise<Store> => temporaryStore(temporaryFile());

export function source(name: string, content: string | Uint8Array): ImportSource {
  const bytes = typeof content === "string" ? new TextEncoder().encode(content) : content;
  return {
    name,
    bytes: bytes.length,
    open: async function* () {
      yield bytes;
    },
  };
}

export const modelsFile = source(
  "models.json",
  JSON.stringify({
    schemaVersion: 1,
    engineModels: [
      {
        id: "petrol-4-a",
        cylinders: 4,
        neighbours: [],
        compression: { newKpa: 1250, minimumKpa: 900 },
        leakDown: { watchPercent: 10, planPercent: 20, limitPercent: 30 },
      },
    ],
  }),
);

const header =
  "unit,engine_model,test_date,meter,meter_unit,test,cylinder,value,value_unit,engine_serial,instrument,remarks";

export interface MadeUpRow {
  readonly unit: string;
  readonly date: string;
  readonly meter: number;
  readonly cylinder: number;
  readonly value: number;
  readonly test?: "leak-down" | "compression-dry";
  readonly serial?: string;
}

export function line({ unit, date, meter, cylinder, value, test = "leak-down", serial = "" }: MadeUpRow): string {
  const valueUnit = test === "leak-down" ? "%" : "kPa";
  return `${unit},petrol-4-a,${date},${meter},h,${test},${cylinder},${value},${valueUnit},${serial},,`;
}

export const csv = (rows: readonly string[]): string => `${[header, ...rows].join("\n")}\n`;

/** A unit tested twice a year on four cylinders; leakage grows by `rate` a test. */
export function history(unit: string, { tests = 5, from = 5, rate = 1.5, serial = "" } = {}): string[] {
  return Array.from({ length: tests }, (_, t) =>
    [1, 2, 3, 4].map((cylinder) =>
      line({
        unit,
        date: `${2024 + Math.floor(t / 2)}-0${t % 2 === 0 ? 2 : 8}-10`,
        meter: 1000 + 400 * t,
        cylinder,
        value: from + rate * t + (cylinder === 2 ? t : 0) + ((t * 7 + cylinder * 3) % 4) * 0.5,
        serial,
      }),
    ),
  ).flat();
}

/** Stages and commits files; a failed commit fails the test. Gives the import's id. */
export async function take(store: Store, files: readonly ImportSource[], { takeChanges = true } = {}): Promise<string> {
  const { id } = await stageImport(store, files, act);
  const outcome = await commitImport(store, id, { ...act, takeChanges });
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.error));
  return id;
}

/** All that stands, and all that is told of it. */
export async function everything(store: Store) {
  const units = await unitNames(store);
  const models = await comparedModels(store);
  return {
    facts: await fleetFacts(store),
    reports: await Promise.all(units.map((unit) => unitReport(store, unit))),
    compared: await Promise.all(models.map((model) => modelComparisonOf(store, model))),
    rates: (await Promise.all(judgedMeasures.map((measure) => modelRates(store, measure)))).flat(),
    testers: await testerComparisonsKept(store),
    stale: await staleComparisons(store),
  };
}
