import type { AssessedUnit } from "../assess.ts";
import { roundedReading, unitOf } from "../assessment/rounding.ts";
import { wearLives } from "../condition/lives.ts";
import { madeAfter } from "../condition/series.ts";
import type { CourseLife, CoursePoint, CylinderRate, LifeBeginning, WearCourse } from "../schema/comparison.ts";
import { type JudgedMeasure, judgedMeasures, type RepairScope } from "../schema/words.ts";
import type { EngineHistory } from "../sealing/types.ts";

/** The courses of the engine now in the unit, one for each judged measure that it was ever tested in. */
export function wearCourses(assessed: AssessedUnit): WearCourse[] {
  const { unit, state, xNow } = assessed;
  const { model } = unit;
  const { history } = state.conditioned;
  return judgedMeasures.flatMap((measure): WearCourse[] => {
    const lives = courseLives(assessed, measure);
    if (lives.every((life) => life.points.length === 0)) return [];
    const leakDown = measure === "leak-down" ? model.leakDown : undefined;
    return [
      {
        unit: unit.unit,
        engine: unit.engine,
        engineModel: model.id,
        measure,
        meterUnit: history.meterUnit,
        modelName: model.name ?? model.id,
        depot: unit.depot,
        cylinders: model.cylinders,
        limit: leakDown?.limitPercent ?? (unitOf(measure) === "kPa" ? (model.compression?.minimumKpa ?? null) : null),
        plan: leakDown?.planPercent ?? null,
        watch: leakDown?.watchPercent ?? null,
        xNow,
        lives,
        rates: cylinderRates(assessed, measure),
      },
    ];
  });
}

function courseLives({ state }: AssessedUnit, measure: JudgedMeasure): CourseLife[] {
  const { history, tests } = state.conditioned;
  const beginning = isCountedFromNew(history) ? "new" : "unknown";
  return Array.from({ length: history.model.cylinders }, (_, i) => i + 1).flatMap((cylinder) => {
    const lives = wearLives(history).filter((life) => life.cylinder === cylinder);
    const points: CoursePoint[][] = lives.map(() => []);
    for (const { test, weights } of tests) {
      if (test.measure !== measure) continue;
      const index = test.readings.findIndex((r) => r.cylinder === cylinder);
      const reading = test.readings[index];
      if (reading === undefined) continue;
      const life = lives.filter(({ startedBy }) => startedBy !== null && madeAfter(test, startedBy)).length;
      // Before the first repair, lives counts from the history's beginning; a repair at that beginning leaves no such life.
      const place = Math.max(0, lives[0]?.startedBy === null ? life : life - 1);
      points[place]?.push([test.x, roundedReading(measure, reading.value), weights[index] ?? 0]);
    }
    return lives.flatMap(({ fromX, startedBy, toX }, place): CourseLife[] => {
      const begunBy = startedBy === null ? beginning : beginningOf(startedBy.scope);
      const own = points[place] ?? [];
      return own.length === 0 ? [] : [{ cylinder, begunBy, fromX, current: toX === null, points: own }];
    });
  });
}

const beginningOf = (scope: RepairScope): LifeBeginning => (scope === "top-end" ? "top-end" : "bottom-end");

/**
 * Whether the engine's wear meter counts from its first hour: it came with its unit, whose meter began at nought. What an
 * engine that a swap brought in had run before is not known, unless it is known from another unit.
 */
function isCountedFromNew({ fittings, meterUnit }: EngineHistory): boolean {
  const first = fittings[0];
  return first !== undefined && first.fromX <= (meterUnit === "h" ? 50 : 1500);
}

/** Rates of the cylinders that have tests enough for a range, as assessed. */
function cylinderRates({ assessment, state }: AssessedUnit, measure: JudgedMeasure): CylinderRate[] {
  return assessment.cylinders.flatMap(({ cylinder, measures }): CylinderRate[] => {
    const told = measures.find((m) => m.measure === measure);
    const isEnough = state.cylinders[cylinder - 1]?.measures.find((m) => m.measure === measure)?.wear.enough ?? false;
    return told?.rate == null || !isEnough ? [] : [{ cylinder, level: told.level, ...told.rate }];
  });
}
