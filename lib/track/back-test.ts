import { type EngineWearInput, type FleetPools, fitKindSteps, poolKinds, wearInputOf } from "../assessment/pools.ts";
import { stripDownsOf } from "../cause/strip-downs.ts";
import { biasesAmong } from "../comparison/instrument-biases.ts";
import { conditionEngine } from "../condition/condition.ts";
import { wearLives } from "../condition/lives.ts";
import { fewestTests } from "../projection/project.ts";
import type { InstrumentBias } from "../schema/comparison.ts";
import type { FleetFacts, IsoDate } from "../schema/facts.ts";
import type { AssessmentSettings } from "../schema/settings.ts";
import type { FixedInterval, LevelCase, LimitCase } from "../schema/track-record.ts";
import type { MeterUnit } from "../schema/words.ts";
import { indexFleet } from "../sealing/seal.ts";
import type { EngineHistory } from "../sealing/types.ts";
import { median } from "../statistics/quantile.ts";
import { inOneGo } from "../steps.ts";
import { casesOfCut } from "./forecast-cases.ts";
import { asFromThePast, evenly, factParts, factsBeforeOpening, joinedFacts, poolDates, unitsToJudge } from "./past.ts";
import type { EngineTold } from "./warnings.ts";

/** How much of the work the pools of the past are, about. */
const poolsShare = 0.4;

/** Past test dates of one engine that are gone through at most. */
const mostCuts = 8;

export interface BackTestOptions {
  readonly asOf: IsoDate;
  readonly settings: AssessmentSettings;
}

/** All forecasts that were made anew, with what came of each. */
export interface BackTest {
  readonly asOf: IsoDate;
  readonly units: { readonly judged: number; readonly known: number };
  readonly forecasts: number;
  readonly poolDates: readonly IsoDate[];
  readonly doubtedReadings: number;
  /** By engine, then in the order in which they were made. */
  readonly levels: readonly LevelCase[];
  readonly limits: readonly LimitCase[];
  readonly engines: readonly EngineTold[];
  readonly fixedIntervals: readonly FixedInterval[];
}

/** The facts that a back-test of a fleet goes through: those of at most a hundred units of each kind, and what they share engines with. */
export function factsToJudge(facts: FleetFacts, asOf: IsoDate): { readonly facts: FleetFacts; readonly known: number } {
  const { units } = indexFleet(facts, { asOf });
  const kinds = new Map<string, string[]>();
  for (const { unit, model, meterUnit } of units) {
    const key = `${model.id}\u0000${meterUnit}`;
    kinds.set(key, [...(kinds.get(key) ?? []), unit]);
  }
  const judged = unitsToJudge(kinds.values());
  if (judged.length === units.length) return { facts, known: units.length };
  return { facts: joinedFacts(factParts(facts, judged), facts), known: units.length };
}

/**
 * Goes through the past: as of each test date of each engine (from the third on, at most eight of them) the unit is
 * assessed with what was known on the day, under pools that were fitted with what was known at the last quarter's end
 * before it; then each forecast is held against the tests that came. The same facts give the same cases. What lies after
 * a date changes no forecast of that date, only what it is held against.
 *
 * A generator, so that whoever calls it can do other work in between: each step is one engine's worth of work, or
 * a part of fitting a pool, and tells the share that is done, 0 to 1. An engine that cannot be reckoned with is left out.
 *
 * @param known units of the fleet that `facts` were taken from
 */
export function* backTest(
  facts: FleetFacts,
  { asOf, settings }: BackTestOptions,
  known: number,
): Generator<number, BackTest> {
  const dates = poolDates(facts, asOf);
  const past = asFromThePast(facts);
  const pools = yield* pastPools(past, dates);
  const parts = factParts(facts);
  const pastOf = new Map(factParts(past).flatMap((part) => part.tests.map(({ unit }) => [unit, part] as const)));
  const intervals = yield* fixedIntervals(parts, asOf);
  const biases = yield* biasesNow(facts, asOf, pools.at(-1)?.pools ?? noPools);
  const levels: LevelCase[] = [];
  const limits: LimitCase[] = [];
  const engines: EngineTold[] = [];
  const doubted = new Set<string>();
  let forecasts = 0;
  let judged = 0;
  for (const [p, part] of parts.entries()) {
    const index = indexFleet(part, { asOf });
    judged += index.units.length;
    for (const key of index.engineKeys) {
      yield poolsShare + ((1 - poolsShare) * p) / parts.length;
      const made = attempt(() => conditionEngine(index.seal(key)));
      if (made === null) continue;
      const { history } = made;
      const interval =
        intervals.find((i) => i.engineModel === history.model.id && i.meterUnit === history.meterUnit)?.interval ??
        null;
      const own = { bands: [] as EngineTold["bands"][number][], limits: [] as LimitCase[] };
      for (const { unit, date } of cutsOf(history)) {
        const pastPart = pastOf.get(unit);
        if (pastPart === undefined) continue;
        const unopened = factsBeforeOpening(pastPart, history, { unit, date });
        const then = indexFleet(unopened ?? pastPart, { asOf: date });
        const inForce = pools.findLast((of) => of.date <= date)?.pools ?? noPools;
        const cases = attempt(() =>
          casesOfCut({
            now: made,
            then,
            beforeOpening: unopened !== null,
            unit,
            date,
            pools: inForce,
            settings,
            interval,
            biases,
          }),
        );
        if (cases === null) continue;
        if (cases.bands.length > 0) forecasts += 1;
        levels.push(...cases.levels);
        limits.push(...cases.limits);
        own.bands.push(...cases.bands);
        own.limits.push(...cases.limits);
        for (const reading of cases.doubted) doubted.add(`${key} ${reading}`);
      }
      engines.push({ ...own, repairs: history.repairs });
    }
  }
  return {
    asOf,
    units: { judged, known },
    forecasts,
    poolDates: dates,
    doubtedReadings: doubted.size,
    levels,
    limits,
    engines,
    fixedIntervals: intervals,
  };
}

/** A back-test in one go. */
export function backTestOf(facts: FleetFacts, options: BackTestOptions, known: number): BackTest {
  return inOneGo(backTest(facts, options, known));
}

function attempt<T>(make: () => T): T | null {
  try {
    return make();
  } catch {
    return null;
  }
}

/** The engine's test dates from the third on that something came after, with the unit that it was tested in. */
function cutsOf({ tests, repairs }: EngineHistory): { unit: string; date: IsoDate }[] {
  const days = new Map<IsoDate, string>();
  for (const { measure, date, unit } of tests) if (measure !== "compression-wet") days.set(date, unit);
  const cuts = [...days].map(([date, unit]) => ({ unit, date })).toSorted((a, b) => (a.date < b.date ? -1 : 1));
  const last = cuts.at(-1)?.date ?? "";
  const isOpenedLast = repairs.some((repair) => repair.date >= last);
  return evenly(cuts.slice(fewestTests - 1, isOpenedLast ? undefined : -1), mostCuts);
}

const noPools: FleetPools = { wear: [], use: [], causes: [] };

/** Instruments that read off by all that is known now: a reason for misses, not a part of any forecast. */
function* biasesNow(facts: FleetFacts, asOf: IsoDate, pools: FleetPools): Generator<number, readonly InstrumentBias[]> {
  const steps = biasesAmong(indexFleet(facts, { asOf }), pools);
  let step = steps.next();
  for (; !step.done; step = steps.next()) yield poolsShare;
  return step.value;
}

interface PastPools {
  readonly date: IsoDate;
  readonly pools: FleetPools;
}

function* pastPools(past: FleetFacts, dates: readonly IsoDate[]): Generator<number, PastPools[]> {
  const fitted: PastPools[] = [];
  for (const [d, date] of dates.entries()) {
    const index = indexFleet(past, { asOf: date });
    const pools: FleetPools[] = [];
    const opened = [...index.opened].toSorted().flatMap((key) => attempt(() => stripDownsOf(index.seal(key))) ?? []);
    for (const kind of poolKinds(index.units)) {
      const inputs: EngineWearInput[] = [];
      for (const key of kind.engines) {
        yield (poolsShare * d) / dates.length;
        const input = attempt(() => wearInputOf(index.seal(key)));
        if (input !== null) inputs.push(input);
      }
      const ofKind = opened.filter((s) => s.engineModel === kind.model.id && s.meterUnit === kind.meterUnit);
      const steps = fitKindSteps(kind, inputs, ofKind, date);
      let step = steps.next();
      for (; !step.done; step = steps.next()) yield (poolsShare * d) / dates.length;
      pools.push(step.value);
    }
    fitted.push({
      date,
      pools: {
        wear: pools.flatMap((of) => of.wear),
        use: pools.flatMap((of) => of.use),
        causes: pools.flatMap((of) => of.causes),
      },
    });
  }
  return fitted;
}

/**
 * The interval of the rule for each kind of engine: the median use from a baseline to the repair that ended it, over all
 * that is known today. Hindsight, in favour of the rule.
 */
function* fixedIntervals(parts: readonly FleetFacts[], asOf: IsoDate): Generator<number, FixedInterval[]> {
  const lives = new Map<string, { engineModel: string; meterUnit: MeterUnit; used: number[] }>();
  for (const part of parts) {
    const index = indexFleet(part, { asOf });
    for (const key of index.engineKeys) {
      yield poolsShare;
      const history = attempt(() => index.seal(key));
      if (history === null) continue;
      const kind = `${history.model.id}\u0000${history.meterUnit}`;
      const of = lives.get(kind) ?? { engineModel: history.model.id, meterUnit: history.meterUnit, used: [] };
      lives.set(kind, of);
      const ended = wearLives(history).flatMap(({ fromX, toX }) => (toX === null ? [] : [toX - fromX]));
      of.used.push(...new Set(ended));
    }
  }
  return [...lives.values()]
    .toSorted((a, b) => (a.engineModel < b.engineModel ? -1 : a.engineModel > b.engineModel ? 1 : 0))
    .map(({ engineModel, meterUnit, used }) => ({
      engineModel,
      meterUnit,
      interval: used.length === 0 ? null : Math.round(median(used)),
      lives: used.length,
    }));
}
