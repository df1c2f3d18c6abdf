import { addDays, daysBetween } from "../../../lib/calendar.ts";
import type { CylinderAssessment, UnitAssessment } from "../../../lib/schema/assessment.ts";
import { median } from "../../../lib/statistics/quantile.ts";
import { brierLoss, pinballLoss } from "../../../lib/statistics/scores.ts";
import { assessFleet, lookForward } from "./ask.ts";
import { quantileLevels, type RivalName, rivalDistances, rivalLoss, rivalNames } from "./rivals.ts";
import {
  type Fleet,
  horizonYears,
  type Kind,
  limitPercent,
  simulateFleet,
  type TrueCylinder,
  type TrueUnit,
  type World,
} from "./simulate.ts";

/** One cylinder's forecast of leak-down beside what came. Distances in hours of use from the as-of date. */
export interface Case {
  readonly came: number;
  readonly horizon: number;
  /** At 10, 50 and 90 %; what is not foreseen stands at the horizon. */
  readonly told: readonly [number, number, number];
  readonly closed: boolean;
  /** Whether a range was told at all. */
  readonly ranged: boolean;
  readonly fault: TrueCylinder["fault"];
  readonly held: boolean;
  readonly withinYear: { readonly told: number; readonly came: boolean } | null;
  readonly rivals: Readonly<Record<RivalName, number>>;
}

export interface Warnings {
  /** Faults that had begun and were not yet half of the way to the limit at some test. */
  readonly faults: number;
  /** Of these, told before that: past limit, to plan, or leaving its siblings. */
  readonly early: number;
  /** Warnings of cylinders without a fault in engines that do not wear, and the cylinder-years they were watched. */
  readonly falseOnes: number;
  readonly cylinderYears: number;
  /** Early warnings of cylinders without a fault beside one that has one, and the years of such cylinders. */
  readonly siblingOnes: number;
  readonly siblingYears: number;
}

export interface ClassCalls {
  /** Right calls and all of them, where the truth was a top-end fault and where it was ring wear. */
  readonly top: readonly [right: number, all: number];
  readonly bottom: readonly [right: number, all: number];
}

export interface Judged {
  readonly cases: readonly Case[];
  /** Cylinders that are far from the limit and are told past it or to plan. */
  readonly alarms: readonly [alarms: number, cylinders: number];
  readonly calls: ClassCalls;
}

const daysOfYear = 365;

/** The columns of tests.csv. */
function readingsOf(fleet: Fleet): ReadonlyMap<string, { readonly x: number[]; readonly y: number[] }> {
  const all = new Map<string, { x: number[]; y: number[] }>();
  for (const line of fleet.files["tests.csv"].trimEnd().split("\n").slice(1)) {
    const [unit, , , meter, , test, cylinder, value] = line.split(",");
    if (test !== "leak-down") continue;
    const key = `${unit} ${cylinder}`;
    const of = all.get(key) ?? { x: [], y: [] };
    all.set(key, of);
    of.x.push(Number(meter));
    of.y.push(Number(value));
  }
  return all;
}

/** Assesses one fleet as of its day and holds every cylinder against the truth. */
export async function judgeFleet(kind: Kind, world: World, seed: number): Promise<Judged> {
  const fleet = simulateFleet(kind, world, seed);
  const told = new Map((await assessFleet(fleet, fleet.asOf)).map((unit) => [unit.unit, unit]));
  const readings = readingsOf(fleet);
  const cases: Case[] = [];
  const calls = { top: [0, 0] as [number, number], bottom: [0, 0] as [number, number] };
  let alarms = 0;
  let cylinders = 0;
  for (const unit of fleet.units) {
    const assessed = told.get(unit.unit) as UnitAssessment;
    for (const truth of unit.cylinders) {
      const cylinder = assessed.cylinders[truth.cylinder - 1] as CylinderAssessment;
      cylinders += 1;
      if (cylinder.band === "past-limit" || cylinder.band === "plan") alarms += 1;
      const one = caseOf(unit, truth, cylinder, readings.get(`${unit.unit} ${truth.cylinder}`));
      if (one !== null) cases.push(one);
      countCall(calls, truth, cylinder, readings.get(`${unit.unit} ${truth.cylinder}`)?.y.at(-1) ?? 0);
    }
  }
  return { cases, alarms: [alarms, cylinders], calls };
}

function caseOf(
  unit: TrueUnit,
  truth: TrueCylinder,
  cylinder: CylinderAssessment,
  readings: { readonly x: readonly number[]; readonly y: readonly number[] } | undefined,
): Case | null {
  const crossing = cylinder.measures.find((m) => m.measure === "leak-down")?.crossing;
  if (!crossing || readings === undefined || truth.distance <= 0) return null;
  if (crossing.status === "too-few-tests") return null;
  const horizon = unit.perDay * daysOfYear * horizonYears;
  const came = Math.min(horizon, truth.distance);
  const at = (meter: number | null) =>
    meter === null ? horizon : Math.min(horizon, Math.max(0, meter - unit.meterNow));
  const { p10, p50, p90 } = crossing.meter;
  const bounds = [at(p10), at(p50), at(p90)] as const;
  return {
    came,
    horizon,
    told: bounds,
    closed: p90 !== null,
    ranged: p10 !== null && crossing.status !== "crossed",
    fault: truth.fault,
    held: truth.distance >= bounds[0] && (p90 === null || truth.distance <= bounds[2]),
    withinYear:
      crossing.probabilityWithinYear === null
        ? null
        : { told: crossing.probabilityWithinYear, came: truth.distance <= unit.perDay * daysOfYear },
    rivals: rivalDistances(readings.x, readings.y, { limit: limitPercent, now: unit.meterNow, horizon }),
  };
}

/** Ring wear is judged where a reading lies well above that of a new engine. */
const wornPercent = 12;

function countCall(
  calls: { top: [number, number]; bottom: [number, number] },
  truth: TrueCylinder,
  { topEnd, bottomEnd }: CylinderAssessment,
  last: number,
): void {
  if (last < wornPercent) return;
  const of = truth.fault === null ? calls.bottom : calls.top;
  of[1] += 1;
  if (truth.fault === null ? bottomEnd > topEnd : topEnd > bottomEnd) of[0] += 1;
}

const hasEarlyWarning = (cylinder: CylinderAssessment): boolean =>
  cylinder.measures.some((of) => of.reason.includes("early warning"));

/** A cylinder is warned of where its band or its own part says so. */
const warns = (cylinder: CylinderAssessment): boolean =>
  cylinder.band === "past-limit" || cylinder.band === "plan" || hasEarlyWarning(cylinder);

/** How often pools are fitted and all units looked at, while the fleet is run forward. */
const daysBetweenFits = 30;

/** Runs a fleet forward, every unit looked at when it is tested and once a month, and counts the warnings. */
export async function judgeWarnings(kind: Kind, world: World, seed: number): Promise<Warnings> {
  const fleet = simulateFleet(kind, world, seed);
  const days = [...new Set(fleet.units.flatMap((unit) => unit.testDates))].toSorted();
  const fits: string[] = [];
  for (let day = days[0] as string; day < fleet.asOf; day = addDays(day, daysBetweenFits)) fits.push(day);
  fits.push(fleet.asOf);
  const warned = new Map<string, string>();
  const stillWarned = new Set<string>();
  let falseOnes = 0;
  let siblingOnes = 0;
  for await (const { day, units } of lookForward(fleet, fits)) {
    for (const unit of units) {
      const truth = fleet.units.find((one) => one.unit === unit.unit) as TrueUnit;
      for (const cylinder of unit.cylinders) {
        const key = `${unit.unit} ${cylinder.cylinder}`;
        const isWarned = warns(cylinder);
        if (isWarned && !warned.has(key)) warned.set(key, day);
        const sound = truth.cylinders[cylinder.cylinder - 1]?.fault === null && kind.rate === 0;
        if (sound && isWarned && !stillWarned.has(key)) falseOnes += 1;
        if (isSiblingOf(truth, cylinder.cylinder) && hasEarlyWarning(cylinder) && !stillWarned.has(key))
          siblingOnes += 1;
        if (isWarned) stillWarned.add(key);
        else stillWarned.delete(key);
      }
    }
  }
  let faults = 0;
  let early = 0;
  let cylinderYears = 0;
  let siblingYears = 0;
  for (const unit of fleet.units) {
    const start = unit.testDates[0] as string;
    const years = Math.max(0, daysBetween(start, fleet.asOf)) / daysOfYear;
    cylinderYears += unit.cylinders.length * years;
    siblingYears += unit.cylinders.filter(({ cylinder }) => isSiblingOf(unit, cylinder)).length * years;
    for (const { cylinder, faultFrom, halfWay } of unit.cylinders) {
      if (faultFrom === null || halfWay === null) continue;
      // A fault that no test was made on before half of the way cannot be foreseen by anybody.
      const seen = unit.meters.some((meter) => meter > faultFrom && meter < halfWay);
      if (!seen) continue;
      faults += 1;
      const day = warned.get(`${unit.unit} ${cylinder}`);
      if (day !== undefined && meterOn(unit, day) < halfWay) early += 1;
    }
  }
  return { faults, early, falseOnes, cylinderYears, siblingOnes, siblingYears };
}

/** Without a fault, in an engine of which another cylinder has one. */
const isSiblingOf = ({ cylinders }: TrueUnit, cylinder: number): boolean =>
  cylinders[cylinder - 1]?.fault === null && cylinders.some(({ fault }) => fault !== null);

function meterOn({ testDates, meters, perDay }: TrueUnit, day: string): number {
  const last = testDates.findLastIndex((date) => date <= day);
  return last < 0 ? 0 : (meters[last] as number) + daysBetween(testDates[last] as string, day) * perDay;
}

export interface Scores {
  readonly cases: number;
  /** Of the told ranges: share that held what came, and the share that should have. */
  readonly coverage: number;
  readonly nominal: number;
  readonly ranges: number;
  /** Median width of closed ranges, as a share of the horizon. */
  readonly width: number;
  /** 1 less the loss over that of the best rival, which is named. */
  readonly skill: number;
  readonly bestRival: RivalName;
  /** Median relative error of the likely distance, and least squares'. */
  readonly error: number;
  readonly leastSquaresError: number;
  readonly brierSkill: number;
}

/** Scores of all cases together. */
export function scoresOf(cases: readonly Case[]): Scores {
  const ranged = cases.filter((one) => one.ranged);
  const closed = ranged.filter((one) => one.closed);
  const loss =
    quantileLevels
      .map(
        (level, i) =>
          cases.reduce((sum, one) => sum + pinballLoss(one.told[i] as number, one.came, level), 0) / cases.length,
      )
      .reduce((a, b) => a + b, 0) / quantileLevels.length;
  const rivals = rivalNames.map((name) => {
    const distances = cases.map(({ rivals: told, came, horizon }) => ({ told: told[name], came, horizon }));
    const losses = quantileLevels.map((level) => rivalLoss(distances, level));
    return { name, loss: losses.reduce((a, b) => a + b, 0) / losses.length };
  });
  const best = rivals.reduce((a, b) => (b.loss < a.loss ? b : a));
  const crossing = cases.filter((one) => one.came < one.horizon && one.came > 0);
  const errorOf = (told: (one: Case) => number) =>
    median(crossing.map((one) => Math.abs(told(one) - one.came) / one.came));
  const years = cases.flatMap((one) => one.withinYear ?? []);
  const base = years.filter((one) => one.came).length / years.length;
  const brier = years.reduce((sum, one) => sum + brierLoss(one.told, one.came), 0) / years.length;
  return {
    cases: cases.length,
    coverage: ranged.filter((one) => one.held).length / ranged.length,
    nominal: (0.8 * closed.length + 0.9 * (ranged.length - closed.length)) / ranged.length,
    ranges: ranged.length,
    width: closed.length === 0 ? Number.NaN : median(closed.map((one) => (one.told[2] - one.told[0]) / one.horizon)),
    skill: 1 - loss / best.loss,
    bestRival: best.name,
    error: crossing.length === 0 ? Number.NaN : errorOf((one) => one.told[1]),
    leastSquaresError: crossing.length === 0 ? Number.NaN : errorOf((one) => one.rivals["least squares"]),
    brierSkill: 1 - brier / (base * (1 - base)),
  };
}
