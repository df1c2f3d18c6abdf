import { unitOf } from "../assessment/rounding.ts";
import type { IsoDate } from "../schema/facts.ts";
import {
  type IssuedRecord,
  type LevelCase,
  type LimitCase,
  type Miss,
  missReasons,
  type TrackRecord,
  type WithinGroup,
} from "../schema/track-record.ts";
import { judgedMeasures } from "../schema/words.ts";
import type { BackTest } from "./back-test.ts";
import { calibrationOf } from "./calibrate.ts";
import { byAhead, groupsOf, heldOf, levelReliability, levelScores, outcomesOf } from "./level-scores.ts";
import { limitReliability, limitScores, withinScores } from "./limit-scores.ts";
import { warningsOf } from "./warnings.ts";
import { withinDays } from "./within.ts";

const missesShown = 25;
const year = withinDays.indexOf(365);

/**
 * The record of a back-test: scores of what was foretold, beside simpler forecasts, in all and by model, tester, depot and
 * how far ahead; the worst misses; how wide ranges should be.
 *
 * @param issued how forecasts turned out as they were issued; null: not known here
 */
export function trackRecordOf(test: BackTest, issued: IssuedRecord | null): TrackRecord {
  const { levels, limits } = test;
  const named = (none: string) => (key: string | null) => key ?? none;
  const measures = judgedMeasures.flatMap((measure) => {
    const some = levels.filter((one) => one.measure === measure);
    if (some.length === 0) return [];
    const early = some.filter((one) => one.repairedNext);
    const heldEarly = early.filter((one) => isWithin(one, 1, 5)).length;
    return [
      {
        measure,
        unit: unitOf(measure),
        overall: levelScores(some),
        byModel: groupsOf(some, (one) => one.engineModel, levelScores, named("")),
        byTester: groupsOf(some, (one) => one.tester, levelScores, named("tester not named")),
        byDepot: groupsOf(some, (one) => one.depot, levelScores, named("depot not named")),
        byAhead: byAhead(some),
        reliability: levelReliability(some),
        repairedEarly: heldOf(heldEarly, early.length, outcomesOf(early)),
      },
    ];
  });
  const reasons = levels.flatMap((one) => one.reason ?? []);
  return {
    schemaVersion: 1,
    asOf: test.asOf,
    units: test.units,
    forecasts: test.forecasts,
    poolDates: [...test.poolDates],
    doubtedReadings: test.doubtedReadings,
    levels: measures,
    limits: {
      overall: limitScores(limits),
      byModel: groupsOf(limits, (one) => one.engineModel, limitScores, named("")),
      byTester: groupsOf(limits, (one) => one.tester, limitScores, named("tester not named")),
      within: withinScores(limits, test.asOf),
      withinByModel: yearBy(limits, test.asOf, (one) => one.engineModel, named("")),
      withinByTester: yearBy(limits, test.asOf, (one) => one.tester, named("tester not named")),
      reliability: limitReliability(limits, test.asOf),
    },
    warnings: warningsOf(test.engines),
    misses: worstMisses(levels),
    reasons: missReasons.map((code) => ({ code, count: reasons.filter((reason) => reason.code === code).length })),
    calibration: calibrationOf(levels),
    fixedIntervals: [...test.fixedIntervals],
    issued,
  };
}

/** "Within a year" by group. */
const yearBy = (
  limits: readonly LimitCase[],
  asOf: IsoDate,
  keyOf: (one: LimitCase) => string | null,
  nameOf: (key: string | null) => string,
): WithinGroup[] =>
  groupsOf(limits, keyOf, (some) => withinScores(some, asOf)[year], nameOf).flatMap(({ key, name, scores }) =>
    scores === undefined ? [] : [{ key, name, within: scores }],
  );

const isWithin = ({ reading, told }: LevelCase, low: number, high: number): boolean => {
  const quantiles = told.borecast;
  return quantiles !== null && reading >= (quantiles[low] ?? 0) && reading <= (quantiles[high] ?? 0);
};

/** The furthest off, each later test once: by the cylinder, and the forecast of it, that were furthest off. */
function worstMisses(levels: readonly LevelCase[]): Miss[] {
  const worst = new Map<string, { readonly of: LevelCase; readonly cylinders: Set<number> }>();
  for (const one of levels) {
    if (one.reason === null) continue;
    const key = `${one.engine}\u0000${one.measure}\u0000${one.came}`;
    const known = worst.get(key);
    const cylinders = (known?.cylinders ?? new Set()).add(one.cylinder);
    const of = known !== undefined && Math.abs(known.of.z) >= Math.abs(one.z) ? known.of : one;
    worst.set(key, { of, cylinders });
  }
  return [...worst.values()]
    .toSorted((a, b) => Math.abs(b.of.z) - Math.abs(a.of.z) || (a.of.came < b.of.came ? 1 : -1))
    .slice(0, missesShown)
    .flatMap(({ of, cylinders }) => {
      const { unit, engineModel, meterUnit, measure, cylinder, made, came, days, reading, z, reason } = of;
      const [, p10, , p50, , p90] = of.told.borecast ?? [];
      if (reason === null || p10 == null || p50 == null || p90 == null) return [];
      const ascending = [...cylinders].toSorted((a, b) => a - b);
      const what = { unit, engineModel, meterUnit, measure, cylinder, cylinders: ascending };
      return [{ ...what, made, came, days, p10, p50, p90, reading, z, reason }];
    });
}
