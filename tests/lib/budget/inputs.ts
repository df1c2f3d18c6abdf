import type { BudgetInputs, InputUnit } from "../../../lib/budget/inputs.ts";
import { addMonths } from "../../../lib/calendar.ts";
import type { UnitOutlook } from "../../../lib/plan/problem-of.ts";
import { engineModelSchema } from "../../../lib/schema/engine-model.ts";
import type { UnitSign } from "../../../lib/schema/kept-budget.ts";
import { workshopSchema } from "../../../lib/schema/workshop.ts";
import { normalCdf } from "../../../lib/statistics/normal.ts";

/** Made-up inputs of budgets. */

export const petrol = engineModelSchema.parse({
  id: "petrol-4-a",
  cylinders: 4,
  leakDown: { watchPercent: 15, planPercent: 22, limitPercent: 28 },
  compression: { newKpa: 1_200, minimumKpa: 900 },
  repairs: {
    topEnd: { labourHours: 14, parts: 900, downtimeDays: 4, unplannedFactor: 1.6 },
    bottomEnd: { labourHours: 38, parts: 2_600, machining: 400, downtimeDays: 8, unplannedFactor: 1.8 },
    exchange: { labourHours: 12, parts: 4_000, downtimeDays: 3 },
  },
});

const told = (probability: number) => Math.round(1_000 * probability) / 1_000;

/** Chances of two limits that are met about so many months after `asOf`; null: too few tests. */
export const chances = (
  asOf: string,
  { topEnd, bottomEnd }: { readonly topEnd: number; readonly bottomEnd: number },
): UnitOutlook["pastLimit"] =>
  Array.from({ length: 61 }, (_, month) => ({
    date: addMonths(asOf, month),
    topEnd: told(0.5 * normalCdf((month - topEnd) / 4)),
    bottomEnd: told(0.5 * normalCdf((month - bottomEnd) / 4)),
  }));

export const sign: UnitSign = {
  lastTestDate: "2026-06-01",
  basis: {
    perDay: 100,
    meterUnit: "km",
    pools: ["a"],
    limits: {
      minimumKpa: 900,
      spread: null,
      leakDown: { watchPercent: 15, planPercent: 22, limitPercent: 28 },
      valves: null,
    },
    status: "in-service",
    tests: [{ date: "2026-06-01", measure: "leak-down", attempt: 1, used: true, readings: "a" }],
    repairs: [],
    checks: [],
  },
};

export const inputUnit = (unit: string, outlook: Partial<UnitOutlook> = {}, signed: UnitSign = sign): InputUnit => ({
  outlook: {
    unit,
    depot: "Lowmarsh",
    unitClass: null,
    status: "in-service",
    model: petrol,
    disposalDate: null,
    pastLimit: chances("2026-07-01", { topEnd: 10, bottomEnd: 20 }),
    fromModel: [],
    ageDays: { topEnd: 900, bottomEnd: 1_800 },
    ...outlook,
  },
  sign: signed,
});

export const inputsOf = (units: readonly InputUnit[], more: Partial<BudgetInputs> = {}): BudgetInputs => ({
  asOf: "2026-07-01",
  workshop: workshopSchema.parse({ fiscalYearStartMonth: 7, priceDate: "2026-07-01" }),
  dropped: [],
  bookings: [],
  repairs: [],
  units,
  ...more,
});
