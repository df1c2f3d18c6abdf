import { addDays, daysBetween } from "../lib/calendar.ts";
import type { Measure } from "../lib/schema/words.ts";
import { modelNamed } from "./engine-models.ts";
import { setUpFault } from "./faults.ts";
import { type Course, type EngineTruth, type Fault, firstDay, type Occasion, type UnitPlan } from "./plan.ts";
import type { Random } from "./random.ts";
import { randomOf } from "./use.ts";

/** Leakage past rings on the first day, %, and its growth in a usual year: lowest and highest of sound engines. */
const soundWear: Readonly<
  Record<string, { readonly from: readonly [number, number]; readonly yearly: readonly [number, number] }>
> = {
  "petrol-4-a": { from: [3.5, 6], yearly: [0.4, 1] },
  "diesel-4-a": { from: [3.5, 6], yearly: [0.5, 1.1] },
  "diesel-6-a": { from: [2.5, 4], yearly: [0.4, 0.7] },
  "petrol-v8-a": { from: [4, 6], yearly: [0.5, 0.9] },
  "air-1-a": { from: [6, 8], yearly: [0.5, 1] },
  "air-flat4-a": { from: [4, 6], yearly: [0.4, 0.8] },
};

/** Tests of a usual visit. The decompressor of the singles makes a compression test worthless; aircraft want leak-down. */
export const usualMeasures = (model: string): readonly Measure[] =>
  modelNamed(model).compression === undefined ? ["leak-down"] : ["compression-dry", "leak-down"];

/** An engine whose rings wear alike in all cylinders, save for what castings differ. */
export function evenWear(
  serial: string,
  model: string,
  rings: Course,
  random: Random,
  faults: readonly Fault[] = [],
): EngineTruth {
  const cylinders = Array.from({ length: modelNamed(model).cylinders }, () => ({
    offset: random.normal(0, 0.3),
    pace: random.normal(1, 0.03),
    filling: random.normal(1, 0.006),
  }));
  const engine = random.between(0.975, 1);
  return {
    serial,
    faults,
    rings: cylinders.map(
      ({ offset, pace }) =>
        (years) =>
          Math.max(0.5, rings(years) * pace + offset),
    ),
    filling: cylinders.map(
      ({ filling }) =>
        () =>
          engine * filling,
    ),
  };
}

/** An engine of which nothing is to be told but that it wears. */
export function soundEngine(serial: string, model: string, random: Random, faults: readonly Fault[] = []): EngineTruth {
  const wear = soundWear[model];
  if (wear === undefined) throw new Error(`no usual wear for ${model}`);
  const from = random.between(...(wear.from as [number, number]));
  const yearly = random.between(...(wear.yearly as [number, number]));
  return evenWear(serial, model, (years) => from + yearly * years, random, faults);
}

/** The day itself, or the Monday after a weekend. Day 0 of the calendar was a Thursday. */
export function workday(date: string): string {
  const weekday = (daysBetween("1970-01-01", date) + 3) % 7;
  return weekday < 5 ? date : addDays(date, 7 - weekday);
}

export const dateAt = (years: number): string => workday(addDays(firstDay, Math.round(365.25 * years)));

/** Visits spread over the history, the last `lastYears` after the first day. */
export function visitDates(count: number, random: Random, lastYears = 2.85): string[] {
  const first = random.between(0.06, 0.2);
  const gap = (lastYears - first) / (count - 1);
  return Array.from({ length: count }, (_, i) =>
    dateAt(first + gap * i + (i === 0 || i === count - 1 ? 0 : random.between(-0.15, 0.15) * gap)),
  );
}

const faultShare = 1 / 20;

/** Visits of a unit without a story: one in twenty goes wrong. */
export function usualVisits(model: string, dates: readonly string[], random: Random): Occasion[] {
  return dates.map((date) => {
    const occasion = { date, measures: usualMeasures(model) };
    return random.uniform() < faultShare ? { ...occasion, fault: setUpFault(random, modelNamed(model)) } : occasion;
  });
}

type Fixed = Pick<UnitPlan, "unit" | "model" | "class" | "depot" | "meterUnit" | "yearly" | "startMeter">;

/** A unit that wears as most do; `told` says what is otherwise about it. */
export function ordinaryUnit(
  fixed: Fixed & { readonly serial: string },
  seed: number,
  told: {
    readonly faults?: readonly Fault[];
    readonly rings?: Course;
    readonly lastYears?: number;
    readonly use?: UnitPlan["use"];
    readonly repairs?: UnitPlan["repairs"];
    readonly checks?: UnitPlan["checks"];
    readonly disposalDate?: string;
  } = {},
): UnitPlan {
  const random = randomOf(fixed.unit, "wear", seed);
  const { serial, ...unit } = fixed;
  const truth =
    told.rings === undefined
      ? soundEngine(serial, unit.model, random, told.faults)
      : evenWear(serial, unit.model, told.rings, random, told.faults);
  const dates = visitDates(random.whole(6, 9), random, told.lastYears ?? random.between(2.7, 2.96));
  return {
    ...unit,
    use: told.use ?? "varied",
    engines: [{ from: firstDay, truth }],
    occasions: usualVisits(unit.model, dates, random),
    scatter: 1,
    repairs: told.repairs ?? [],
    checks: told.checks ?? [],
    ...(told.disposalDate === undefined ? {} : { disposalDate: told.disposalDate }),
  };
}
