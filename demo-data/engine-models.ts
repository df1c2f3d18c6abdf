import type { z } from "zod";
import type { engineModelFileSchema } from "../lib/schema/engine-model.ts";

type ModelFile = z.input<typeof engineModelFileSchema>;
type Model = ModelFile["engineModels"][number];

/** Bores of the two kinds of leak-down tester: 0.040 in and 0.060 in. */
export const smallOrificeMm = 1.016;
export const largeOrificeMm = 1.524;

const inLine = (cylinders: number): [number, number][] =>
  Array.from({ length: cylinders - 1 }, (_, i) => [i + 1, i + 2]);

/** Limits, labour hours, parts, machining, days off the road and what an unplanned repair costs more: all invented. */
const models: Model[] = [
  {
    id: "petrol-4-a",
    name: "2.2 litre in-line four, petrol",
    fuel: "petrol",
    cylinders: 4,
    neighbours: inLine(4),
    layout: "in-line",
    compression: { newKpa: 1250, minimumKpa: 900, spreadPercent: 25, spreadRule: "of-highest", referenceRpm: 200 },
    leakDown: {
      watchPercent: 10,
      planPercent: 20,
      limitPercent: 30,
      orificeMm: smallOrificeMm,
      supplyKpa: 550,
      valves: { watchPercent: 8, planPercent: 12, limitPercent: 18 },
    },
    repairs: {
      topEnd: { labourHours: 14, parts: 900, machining: 220, downtimeDays: 3, unplannedFactor: 1.8 },
      bottomEnd: { labourHours: 38, parts: 2600, machining: 650, downtimeDays: 8, unplannedFactor: 2.2 },
    },
    testInterval: { meter: 30_000, days: 365 },
  },
  {
    id: "diesel-4-a",
    name: "3.0 litre in-line four, diesel",
    fuel: "diesel",
    cylinders: 4,
    neighbours: inLine(4),
    layout: "in-line",
    compression: { newKpa: 2900, minimumKpa: 2300, spreadPercent: 15, spreadRule: "of-highest", referenceRpm: 200 },
    leakDown: { watchPercent: 10, planPercent: 18, limitPercent: 28, orificeMm: smallOrificeMm, supplyKpa: 550 },
    repairs: {
      topEnd: { labourHours: 20, parts: 1400, machining: 320, downtimeDays: 5, unplannedFactor: 1.8 },
      bottomEnd: { labourHours: 46, parts: 3700, machining: 900, downtimeDays: 10, unplannedFactor: 2.3 },
    },
    testInterval: { meter: 40_000, days: 365 },
  },
  {
    id: "diesel-6-a",
    name: "7.2 litre in-line six, diesel",
    fuel: "diesel",
    cylinders: 6,
    neighbours: inLine(6),
    layout: "in-line",
    compression: { newKpa: 2800, minimumKpa: 2250, spreadPercent: 15, spreadRule: "of-highest", referenceRpm: 200 },
    leakDown: { watchPercent: 8, planPercent: 14, limitPercent: 25, orificeMm: largeOrificeMm, supplyKpa: 550 },
    repairs: {
      topEnd: { labourHours: 36, parts: 3200, machining: 620, downtimeDays: 8, unplannedFactor: 2 },
      bottomEnd: { labourHours: 84, parts: 8200, machining: 2100, downtimeDays: 16, unplannedFactor: 2.5 },
      exchange: { labourHours: 34, parts: 19_500, downtimeDays: 5, leadDays: 30 },
    },
    // In units that count km and in units that count hours: only days hold for both.
    testInterval: { days: 365 },
  },
  {
    id: "petrol-v8-a",
    name: "5.4 litre V8, petrol",
    fuel: "petrol",
    cylinders: 8,
    // Two banks, 1 to 4 and 5 to 8: the banks share no gasket.
    neighbours: [
      [1, 2],
      [2, 3],
      [3, 4],
      [5, 6],
      [6, 7],
      [7, 8],
    ],
    layout: "v",
    compression: { newKpa: 1300, minimumKpa: 950, spreadPercent: 25, spreadRule: "of-highest", referenceRpm: 200 },
    leakDown: { watchPercent: 10, planPercent: 20, limitPercent: 30, orificeMm: smallOrificeMm, supplyKpa: 550 },
    repairs: {
      topEnd: { labourHours: 22, parts: 1600, machining: 420, downtimeDays: 5, unplannedFactor: 1.7 },
      bottomEnd: { labourHours: 52, parts: 4300, machining: 1100, downtimeDays: 11, unplannedFactor: 2 },
    },
    testInterval: { meter: 500, days: 365 },
  },
  {
    id: "air-1-a",
    name: "0.4 litre single, air-cooled, with decompressor",
    fuel: "petrol",
    cylinders: 1,
    neighbours: [],
    layout: "in-line",
    cooling: "air",
    leakDown: { watchPercent: 15, planPercent: 25, limitPercent: 35, orificeMm: smallOrificeMm, supplyKpa: 550 },
    repairs: {
      topEnd: { labourHours: 4, parts: 180, machining: 40, downtimeDays: 2, unplannedFactor: 1.4 },
      bottomEnd: { labourHours: 9, parts: 420, machining: 120, downtimeDays: 4, unplannedFactor: 1.5 },
    },
    testInterval: { meter: 300, days: 365 },
  },
  {
    id: "air-flat4-a",
    name: "5.8 litre opposed four, air-cooled, aircraft",
    fuel: "petrol",
    cylinders: 4,
    // Separate barrels: no two share a gasket.
    neighbours: [],
    layout: "opposed",
    cooling: "air",
    aircraft: true,
    // Held 70, 66 and 60 of 80 psi.
    leakDown: { watchPercent: 12.5, planPercent: 17.5, limitPercent: 25, orificeMm: largeOrificeMm, supplyKpa: 550 },
    repairs: {
      topEnd: { labourHours: 24, parts: 4200, machining: 600, downtimeDays: 10, unplannedFactor: 1.5 },
      bottomEnd: { labourHours: 110, parts: 14_000, machining: 2500, downtimeDays: 45, unplannedFactor: 2 },
    },
    testInterval: { meter: 100, days: 365 },
  },
];

export const engineModelFile = { schemaVersion: 1, engineModels: models } as const satisfies ModelFile;

const byId = new Map(models.map((model) => [model.id, model]));

export function modelNamed(id: string): Model {
  const model = byId.get(id);
  if (model === undefined) throw new Error(`no engine model ${id}`);
  return model;
}

export type { Model };
