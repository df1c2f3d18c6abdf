import { type AssessedUnit, assessUnit } from "../assess.ts";
import type { MeasureState } from "../assessment/engine.ts";
import { causeCountsFor, type FleetPools, familySpreadsFor } from "../assessment/pools.ts";
import { onScale, rounded, roundedReading } from "../assessment/rounding.ts";
import { daysBetween } from "../calendar.ts";
import { tableFor } from "../cause/table.ts";
import { worseSign } from "../condition/series.ts";
import type { ConditionedEngine } from "../condition/types.ts";
import { probabilityWithinDays, useQuantile } from "../projection/crossing.ts";
import { toldProbability } from "../projection/tell.ts";
import { distanceWithin } from "../projection/use-ahead.ts";
import type { InstrumentBias } from "../schema/comparison.ts";
import type { IsoDate } from "../schema/facts.ts";
import type { AssessmentSettings } from "../schema/settings.ts";
import { type Forecaster, type LevelCase, type LimitCase, toldLevels } from "../schema/track-record.ts";
import type { Band, JudgedMeasure } from "../schema/words.ts";
import type { FleetIndex, SealedTest } from "../sealing/types.ts";
import { type Life, type LifeReading, lifeAround, limitMet } from "./life.ts";
import { type MissedForecast, reasonOf } from "./reasons.ts";
import { fixedIntervalDistances, lastTimeDistances, lastTimeLevels, straightLine } from "./rivals.ts";
import { readingQuantiles, readingSd, standardised } from "./told.ts";
import { withinDays } from "./within.ts";

/** A test so soon after another repeats it, mostly because it was in doubt: it is no forecast's outcome. */
const shortestDays = 14;
/** One later test is taken from each span, by the days that it ends with. */
const spanEnds = [182, 365, 730, Number.POSITIVE_INFINITY] as const;

export interface Cut {
  /** As it is known now. */
  readonly now: ConditionedEngine;
  /** The fleet, or the part of it that the engine was in, with what was known on the day. */
  readonly then: FleetIndex;
  /** `then` leaves out repairs of the day itself, for they came after its tests. */
  readonly beforeOpening: boolean;
  readonly unit: string;
  readonly date: IsoDate;
  readonly pools: FleetPools;
  readonly settings: AssessmentSettings;
  /** Distance between repairs by the fixed-interval rule, for the engine's kind; null: none. */
  readonly interval: number | null;
  /** Instruments that read off, by all tests of the fleet that are known now: they explain misses, and change no forecast. */
  readonly biases: readonly InstrumentBias[];
}

/** What the engine's cylinders were told on the day, for what was found later. */
export interface ToldBand {
  readonly cylinder: number;
  readonly measure: JudgedMeasure;
  readonly date: IsoDate;
  /** The unit was repaired on the day, and this was told before. */
  readonly beforeOpening: boolean;
  readonly band: Band | null;
}

export interface CutCases {
  readonly levels: readonly LevelCase[];
  readonly limits: readonly LimitCase[];
  readonly bands: readonly ToldBand[];
  /** Later readings that were passed over because they are doubted themselves: "date measure cylinder". */
  readonly doubted: readonly string[];
}

const nothing: CutCases = { levels: [], limits: [], bands: [], doubted: [] };

/** Makes the forecast of one day anew, and holds it against what came. */
export function casesOfCut(cut: Cut): CutCases {
  const { now, then, unit, date, pools, settings } = cut;
  const known = then.units.find((u) => u.unit === unit);
  if (known === undefined) return nothing;
  const assessed = assessUnit(then, known, { asOf: date, settings, pools });
  const levels: LevelCase[] = [];
  const limits: LimitCase[] = [];
  const bands: ToldBand[] = [];
  const doubted: string[] = [];
  for (const { diagnosis, measures } of assessed.state.cylinders) {
    const { cylinder } = diagnosis;
    const told = assessed.assessment.cylinders.find((c) => c.cylinder === cylinder);
    for (const state of measures) {
      const { measure } = state;
      const isOfDay = ({ test }: { test: SealedTest }) =>
        test.unit === unit &&
        test.date === date &&
        test.measure === measure &&
        test.readings.some((r) => r.cylinder === cylinder);
      const from = now.tests.findLast(isOfDay)?.test;
      const fromThen = assessed.state.conditioned.tests.findLast(isOfDay)?.test;
      if (from === undefined || fromThen === undefined) continue;
      const band = told?.measures.find((m) => m.measure === measure)?.band ?? null;
      bands.push({ cylinder, measure, date, beforeOpening: cut.beforeOpening, band });
      if (!state.wear.enough) continue;
      const life = lifeAround(now, measure, cylinder, from);
      const one: One = { cut, assessed, state, life, from, fromThen, cylinder, band };
      levels.push(...levelCases(one));
      const limit = limitCase(one);
      if (limit !== null) limits.push(limit);
      doubted.push(...life.doubted.map((day) => `${day} ${measure} ${cylinder}`));
    }
  }
  return { levels, limits, bands, doubted };
}

interface One {
  readonly cut: Cut;
  readonly assessed: AssessedUnit;
  readonly state: MeasureState;
  readonly life: Life;
  readonly from: SealedTest;
  readonly fromThen: SealedTest;
  readonly cylinder: number;
  readonly band: Band | null;
}

const caseOf = ({ cut, assessed, state, from, cylinder }: One) => ({
  unit: cut.unit,
  engine: cut.now.history.engine,
  engineModel: assessed.unit.model.id,
  meterUnit: assessed.unit.meterUnit,
  measure: state.measure,
  cylinder,
  made: cut.date,
  tester: from.instrument,
  depot: from.depot,
});

/** Use from the forecast to `x` on the axis as it is known now. Both axes count the same use since the test. */
const distanceTo = ({ assessed, from, fromThen }: One, x: number): number =>
  Math.max(0, x - from.x - (assessed.xNow - fromThen.x));

/** What a straight line would have been drawn through, and since when the cylinder was in use, as known on the day. */
function knownThen({ assessed, state, fromThen, cylinder }: One) {
  const { conditioned } = assessed.state;
  const life = lifeAround(conditioned, state.measure, cylinder, fromThen);
  const readings = life.readings.slice(0, life.at + 1);
  const baseline = conditioned.history.repairs.findLast(
    (r) => r.cylinders.includes(cylinder) && r.scope !== "adjustment",
  );
  const start = baseline?.x ?? conditioned.history.fittings[0]?.fromX ?? readings[0]?.x ?? assessed.xNow;
  return { readings, used: Math.max(0, assessed.xNow - start) };
}

function levelCases(one: One): LevelCase[] {
  const { cut, assessed, state, life } = one;
  const { measure } = state;
  const { pool } = assessed.state.wear[measure];
  const { readings: before } = knownThen(one);
  const last = before.at(-1);
  const line = straightLine(
    before.map((r) => r.x),
    before.map((r) => r.badness),
    assessed.xNow,
  );
  const sign = worseSign[measure];
  const asRead = (quantiles: readonly number[] | null) => {
    if (quantiles === null) return null;
    const values = quantiles.map((v) => roundedReading(measure, onScale(measure, sign * v)));
    return sign < 0 ? values.toReversed() : values;
  };
  const cases: LevelCase[] = [];
  let nextSpan = 0;
  for (const [i, reading] of life.readings.entries()) {
    const days = daysBetween(cut.date, reading.date);
    if (i <= life.at || days < shortestDays) continue;
    const span = spanEnds.findIndex((end) => days <= end);
    if (span < nextSpan) continue;
    nextSpan = span + 1;
    const ahead = distanceTo(one, reading.x);
    const told = readingQuantiles(state.wear.branches, pool, state.scale, ahead, {
      referralShare: reading.referralShare,
      // How finely the later test was read nobody knew yet.
      roundingSd: last?.roundingSd ?? 0,
    });
    const z = standardised(told, reading.badness);
    const isLast = i === life.readings.length - 1;
    cases.push({
      ...caseOf(one),
      came: reading.date,
      days,
      distance: rounded(ahead, 1),
      reading: roundedReading(measure, sign * reading.badness),
      told: {
        borecast: asRead(told),
        "straight-line": asRead(line?.levelsAhead(ahead) ?? null),
        "last-time": asRead(
          last === undefined
            ? null
            : lastTimeLevels(last.badness, Math.hypot(readingSd(pool, Math.abs(last.badness)), last.roundingSd)),
        ),
        "fixed-interval": null,
      },
      z: rounded(z, 3),
      reason: isBeyond(z) ? reasonOf({ ...missedBy(one, reading), z }) : null,
      repairedNext:
        isLast && life.endedBy === "repair" && (state.limit === null || limitMet(life, sign * state.limit) === null),
    });
  }
  return cases;
}

/** What is known of a forecast that what came lay beyond. */
const missedBy = (one: One, came: LifeReading): Omit<MissedForecast, "z" | "limit"> => ({
  assessed: one.assessed,
  now: one.cut.now,
  table: tableFor(one.cut.now.history.model, causeCountsFor(one.cut.pools, one.cut.now.history.model)),
  measure: one.state.measure,
  cylinder: one.cylinder,
  made: one.cut.date,
  from: one.from,
  biases: one.cut.biases,
  spreads: familySpreadsFor(one.cut.pools, one.assessed.unit.model, one.assessed.unit.meterUnit),
  life: one.life,
  came,
  ahead: distanceTo(one, came.x),
});

/** Outside of the 90 % range. */
const isBeyond = (z: number) => Math.abs(z) > 1.645;

function limitCase(one: One): LimitCase | null {
  const { cut, assessed, state, life, band } = one;
  const { measure, limit, distribution, crossed } = state;
  const last = life.readings.at(-1);
  const from = life.readings[life.at];
  if (limit === null || distribution === null || crossed || last === undefined || from === undefined) return null;
  const followed = distanceTo(one, last.x);
  if (followed <= 0 || daysBetween(cut.date, last.date) < shortestDays) return null;
  const toldLimit: number = limit;
  const sign = worseSign[measure];
  const badnessLimit = sign * toldLimit;
  const met = limitMet(life, badnessLimit);
  const { use } = assessed.telling;
  const then = knownThen(one);
  const lastThen = then.readings.at(-1)?.badness ?? from.badness;
  const horizon = Math.max(followed, distribution.ahead.at(-1) ?? 0);
  const line = straightLine(
    then.readings.map((r) => r.x),
    then.readings.map((r) => r.badness),
    assessed.xNow,
  );
  const told: Record<Forecaster, (number | null)[]> = {
    borecast: toldLevels.map((p) => useQuantile(distribution, p)),
    "straight-line": line?.distances(badnessLimit, horizon) ?? toldLevels.map(() => null),
    "last-time": lastTimeDistances(lastThen, badnessLimit),
    "fixed-interval": fixedIntervalDistances(then.used, cut.interval),
  };
  // The others tell a distance: within a year's use of it is a yes or a no.
  const middle = toldLevels.indexOf(0.5);
  const within = (forecaster: Forecaster) =>
    withinDays.map((days) => {
      const distance = told[forecaster][middle] ?? null;
      return distance !== null && distance <= distanceWithin(use, days) ? 1 : 0;
    });
  const metAt = met === null ? null : distanceTo(one, met.x);
  const roundedAll = (some: readonly (number | null)[]) => some.map((d) => (d === null ? null : rounded(d, 1)));
  return {
    ...caseOf(one),
    limit: toldLimit,
    band,
    followed: rounded(followed, 1),
    until: last.date,
    endedBy: life.endedBy,
    met: metAt === null ? null : rounded(metAt, 1),
    metOn: met?.date ?? null,
    told: {
      borecast: roundedAll(told.borecast),
      "straight-line": roundedAll(told["straight-line"]),
      "last-time": roundedAll(told["last-time"]),
      "fixed-interval": roundedAll(told["fixed-interval"]),
    },
    within: {
      borecast: withinDays.map((days) => toldProbability(probabilityWithinDays(distribution, use, days))),
      "straight-line": within("straight-line"),
      "last-time": within("last-time"),
      "fixed-interval": within("fixed-interval"),
    },
    reason: limitReason(),
  };

  function limitReason(): LimitCase["reason"] {
    const [low, high] = [told.borecast[0] ?? null, told.borecast.at(-1) ?? null];
    const tooSoon = metAt !== null && (low === null || metAt < low);
    const tooLate = (metAt ?? followed) > (high ?? Number.POSITIVE_INFINITY);
    if (!tooSoon && !tooLate) return null;
    const came = life.readings.find((r) => met !== null && r.x >= met.x) ?? (last as LifeReading);
    return reasonOf({ ...missedBy(one, came), z: tooSoon ? 2 : -2, limit: toldLimit });
  }
}
