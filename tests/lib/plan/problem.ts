import type { UnitOutlook } from "../../../lib/plan/problem-of.ts";
import type { Need, PlanProblem, PlanUnit } from "../../../lib/plan/types.ts";
import type { DepotWeek, RepairClass, Work } from "../../../lib/schema/kept-plan.ts";
import { normalCdf } from "../../../lib/statistics/normal.ts";

/** Made-up plans. Money in minor units. */

const forecastWeeks = 156;

/** A limit that is met about a week, give or take. */
const crossedAbout = (mean: number, sd: number): Float64Array =>
  Float64Array.from({ length: forecastWeeks + 1 }, (_, w) => normalCdf((w - mean) / sd));

export const need = (of: RepairClass, mean: number, sd = 6, more: Partial<Need> = {}): Need => ({
  of,
  crossed: crossedAbout(mean, sd),
  ageWeeks: 150,
  unplannedFactor: 2,
  ...more,
});

export const never = (of: RepairClass): Need => need(of, 10_000, 1);

export const topEnd: Work = {
  scope: "top-end",
  cures: ["topEnd"],
  labour: 80_000,
  parts: 90_000,
  machining: 0,
  labourHours: 14,
  bayDays: 2,
  daysOff: 3,
  leadDays: 5,
  needsBuilder: false,
  spareOf: null,
};

export const bottomEnd: Work = {
  scope: "bottom-end",
  cures: ["bottomEnd"],
  labour: 220_000,
  parts: 260_000,
  machining: 40_000,
  labourHours: 38,
  bayDays: 5,
  daysOff: 8,
  leadDays: 10,
  needsBuilder: true,
  spareOf: null,
};

export const both: Work = {
  ...bottomEnd,
  scope: "both",
  cures: ["topEnd", "bottomEnd"],
  labour: 240_000,
  parts: 350_000,
  labourHours: 41,
  bayDays: 6,
  daysOff: 9,
};

export const planUnit = (unit: string, more: Partial<PlanUnit> = {}): PlanUnit => ({
  unit,
  depot: "Lowmarsh",
  engineModel: "petrol-4-a",
  needs: [never("topEnd"), never("bottomEnd")],
  works: [topEnd, bottomEnd, both],
  dayCost: 12_000,
  peakFactor: 2,
  peakWeeks: new Set(),
  runningOn: { perWeek: 4_000, failurePerWeek: 0.05, damage: 50_000 },
  disposalWeek: null,
  groups: [],
  otherWork: [],
  ...more,
});

const openWeek: DepotWeek = { openDays: 5, bayDays: 5, hours: 60, builderHours: 40, peakShare: 0 };
export const closedWeek: DepotWeek = { ...openWeek, openDays: 0, bayDays: 0, hours: 0, builderHours: 0 };

export const weeksOf = (count: number, at: (week: number) => Partial<DepotWeek> = () => ({})): DepotWeek[] =>
  Array.from({ length: count }, (_, week) => ({ ...openWeek, ...at(week) }));

export const problemOf = (units: readonly PlanUnit[], more: Partial<PlanProblem> = {}): PlanProblem => ({
  firstMonday: "2026-09-07",
  weeks: 52,
  missWeeks: 8,
  togetherWeeks: 52,
  units,
  depots: [{ depot: "Lowmarsh", weeks: weeksOf(64) }],
  prices: { priceDate: "2026-07-01", labour: 0.03, parts: 0.04 },
  mostOut: {},
  spares: {},
  pins: [],
  dropped: [],
  ...more,
});

/** What is known of a unit beside its costs, as far as a plan's words ask for it. */
export const outlookNamed = (unit: string): UnitOutlook => ({
  unit,
  depot: "Lowmarsh",
  unitClass: null,
  status: "in-service",
  model: { id: "petrol-4-a" } as never,
  disposalDate: null,
  pastLimit: [],
  fromModel: [],
  ageDays: { topEnd: 0, bottomEnd: 0 },
});
