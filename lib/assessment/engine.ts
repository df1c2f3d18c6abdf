import { diagnoseEngine } from "../cause/diagnose.ts";
import { type CauseTable, tableFor } from "../cause/table.ts";
import type { CylinderDiagnosis } from "../cause/types.ts";
import { leakDownLimitsInForce, spreadBreaches } from "../condition/band.ts";
import { conditionEngine } from "../condition/condition.ts";
import { type EarlyWarning, earlyWarnings } from "../condition/early-warning.ts";
import { bottomEndRenewal } from "../condition/lives.ts";
import { fleetErrors } from "../condition/reading-errors.ts";
import { type DoubtfulTests, reweighed } from "../condition/reweigh.ts";
import { worseSign } from "../condition/series.ts";
import type { ConditionedEngine } from "../condition/types.ts";
import { crossedNow, crossingDistribution } from "../projection/crossing.ts";
import type { Before } from "../projection/life-start.ts";
import { likelyLevel, poolBranches, projectEngine, readEngine } from "../projection/project.ts";
import type { WearScale } from "../projection/scale.ts";
import { toldProbability } from "../projection/tell.ts";
import type { CrossingDistribution, CylinderWear, EngineWear, WearBranch } from "../projection/types.ts";
import { widened } from "../projection/widen.ts";
import type { EngineModel, LeakDownLimits } from "../schema/engine-model.ts";
import type { IsoDate } from "../schema/facts.ts";
import { type JudgedMeasure, judgedMeasures, type MeterUnit } from "../schema/words.ts";
import type { EngineHistory } from "../sealing/types.ts";
import { numberWords, probabilityWords } from "../wording.ts";
import { causeCountsFor, type FleetPools, familySpreadsFor, wearPoolFor, widthFor } from "./pools.ts";
import { onScale, roundedReading } from "./rounding.ts";

/** What one engine's readings come to at the as-of date: before bands, dates and words. */
export interface EngineState {
  readonly conditioned: ConditionedEngine;
  readonly diagnoses: readonly CylinderDiagnosis[];
  /** The evidence table that they were made with: the model's, as strip-downs have sharpened it. */
  readonly table: CauseTable;
  readonly wear: Readonly<Record<JudgedMeasure, EngineWear>>;
  /** What the ranges of `wear` have been multiplied by, as the model's past forecasts asked. */
  readonly widths: Readonly<Record<JudgedMeasure, number>>;
  /** Ascending by cylinder. */
  readonly cylinders: readonly CylinderState[];
}

export interface CylinderState {
  readonly diagnosis: CylinderDiagnosis;
  /** For each judged measure, what is known of it; a measure that was never taken has no branches and 0 tests. */
  readonly measures: readonly MeasureState[];
}

export interface MeasureState {
  readonly measure: JudgedMeasure;
  readonly scale: WearScale;
  readonly wear: CylinderWear;
  /** Estimate of the true value now, as measured (kPa, %); null: no usable reading since the last repair. */
  readonly level: number | null;
  /** Limits of leakage in force; null for compression, or where the model has none. */
  readonly leakDownLimits: LeakDownLimits | null;
  /** The limit that a crossing runs to, as measured; null: not judged on this measure. */
  readonly limit: number | null;
  readonly crossed: boolean;
  /**
   * Set where the level met the limit only since the last test, by the wear that is expected: what was read then. null: it had
   * met it by then, by the estimate or by the reading, or has not now.
   */
  readonly crossedAfter: { readonly date: IsoDate; readonly level: number } | null;
  /** null: not judged on this measure, or too few tests. */
  readonly distribution: CrossingDistribution | null;
  /**
   * What its one or two tests and the model's pool say together: no range of its own is told, but it is not to be
   * forgotten where other cylinders of the unit have a range. null: tests enough, or none.
   */
  readonly thinDistribution: CrossingDistribution | null;
  /** The wear of rings and bores carried on through a top-end repair that no test has followed; null: there is none. */
  readonly carriedDistribution: CrossingDistribution | null;
  /** What the model's pool alone would say; null: not judged on this measure, or tests enough of its own. */
  readonly poolDistribution: CrossingDistribution | null;
  /** Set where the cylinder breaks the model's rule on spread. */
  readonly spread: { readonly breached: boolean; readonly words: string } | null;
  /** That the cylinder left its family by this measure most; null: it did not. */
  readonly earlyWarning: EarlyWarning | null;
  /**
   * That the last test of all cylinders is either wrong or shows that they stepped, in words, which a further test has to tell; null: not so.
   * The level is the median over both.
   */
  readonly unsettled: string | null;
}

/**
 * Runs one engine through condition, cause and projection.
 * @param ahead use ahead at which distributions are kept, common to all cylinders
 */
export function stateOfEngine(
  history: EngineHistory,
  pools: FleetPools,
  meterUnit: MeterUnit,
  xNow: number,
  ahead: Float64Array,
  asOf: IsoDate,
  doubtful: DoubtfulTests = "weighed",
): EngineState {
  const { model } = history;
  const spreads = familySpreadsFor(pools, model, meterUnit);
  const conditioned = reweighed(conditionEngine(history, fleetErrors(spreads), pools.biases), doubtful);
  const table = tableFor(model, causeCountsFor(pools, model));
  const diagnoses = diagnoseEngine(conditioned, { asOf, table });
  const widths = {
    "leak-down": widthFor(pools, model, "leak-down", meterUnit),
    "compression-dry": widthFor(pools, model, "compression-dry", meterUnit),
  };
  const poolOf = {
    "leak-down": wearPoolFor(pools, model, "leak-down", meterUnit),
    "compression-dry": wearPoolFor(pools, model, "compression-dry", meterUnit),
  };
  const read = {
    "leak-down": readEngine(conditioned, poolOf["leak-down"]),
    "compression-dry": readEngine(conditioned, poolOf["compression-dry"]),
  };
  const wearOf = (measure: JudgedMeasure, other: JudgedMeasure) => {
    const beside = poolOf[measure].other === null ? null : read[other];
    return widened(projectEngine(conditioned, read[measure], xNow, beside), widths[measure]);
  };
  const wear = {
    "leak-down": wearOf("leak-down", "compression-dry"),
    "compression-dry": wearOf("compression-dry", "leak-down"),
  };
  const spread = spreadOf(model, wear["compression-dry"]);
  const warnings = earlyWarnings(conditioned, spreads);
  const cylinders = diagnoses.map((diagnosis, i) => ({
    diagnosis,
    measures: judgedMeasures.map((measure): MeasureState => {
      const engine = wear[measure];
      const own = engine.cylinders[i];
      if (own === undefined) throw new Error(`cylinder ${diagnosis.cylinder} is missing from the wear of ${measure}`);
      const leakDownLimits =
        measure === "leak-down" && model.leakDown ? leakDownLimitsInForce(model.leakDown, diagnosis) : null;
      const limit =
        measure === "leak-down" ? (leakDownLimits?.limitPercent ?? null) : (model.compression?.minimumKpa ?? null);
      const sign = worseSign[measure];
      // With few tests of its own only the sisters' rate could carry it forward: it stays what it was when last tested.
      const badness = own.enough ? likelyLevel(own.branches, engine.scale) : own.levelAtLastTest;
      // Judged as it is told, so that a reader of the figures comes to the same band.
      const level = badness === null ? null : roundedReading(measure, onScale(measure, sign * badness));
      const crossed = level !== null && limit !== null && sign * level >= sign * limit;
      const crossingOf = (branches: readonly WearBranch[]) =>
        limit === null || branches.length === 0
          ? null
          : crossingDistribution(branches, engine.scale.of(sign * limit), ahead);
      return {
        measure,
        scale: engine.scale,
        wear: own,
        level,
        leakDownLimits,
        limit,
        crossed,
        crossedAfter:
          crossed && limit !== null ? crossedSince(conditioned, { measure, own, limit: sign * limit }) : null,
        distribution: limit === null || !own.enough ? null : crossed ? crossedNow(ahead) : crossingOf(own.branches),
        thinDistribution: own.enough ? null : crossed ? crossedNow(ahead) : crossingOf(own.branches),
        carriedDistribution: crossingOf(own.carried),
        poolDistribution: own.enough
          ? null
          : crossingOf(poolBranches(engine.pool, neverRead(history, diagnosis.cylinder, xNow))),
        earlyWarning: warnings.find((w) => w.measure === measure && w.cylinder === diagnosis.cylinder) ?? null,
        unsettled: unsettledWords(engine, { own, level, isDoubted: isLastOfFew(conditioned, measure) }),
        spread: measure === "compression-dry" ? (spread.get(diagnosis.cylinder) ?? null) : null,
      };
    }),
  }));
  return { conditioned, diagnoses, table, wear, widths, cylinders };
}

/** From this belief on a step of all cylinders is told, and up to the rest of it that it is none. Judgement. */
const openFrom = 0.1;

function unsettledWords(
  { measure, stepped }: EngineWear,
  { own, level, isDoubted }: { readonly own: CylinderWear; readonly level: number | null; readonly isDoubted: boolean },
): string | null {
  if (own.latest === null || level === null || (stepped < openFrom && !isDoubted)) return null;
  const read = roundedReading(measure, onScale(measure, worseSign[measure] * own.latest));
  if (worseSign[measure] * (read - level) <= 0) return null;
  const unit = measure === "leak-down" ? "%" : "kPa";
  // A model whose engines' tests all scatter so believes no step, but nobody should pass over what was read.
  if (stepped < openFrom) return `last read ${numberWords(read)} ${unit}, in doubt by so few tests: test again`;
  return `last read ${numberWords(read)} ${unit}, true with a chance of ${probabilityWords(toldProbability(stepped))} by so few tests: test again`;
}

/** The last test of a measure reads far worse than the one or two before it, and no person took it as it is. */
const isLastOfFew = ({ tests }: ConditionedEngine, measure: JudgedMeasure): boolean =>
  tests.findLast(({ test }) => test.measure === measure)?.doubts.some(({ code }) => code === "last-of-few") === true;

function crossedSince(
  { tests }: ConditionedEngine,
  { measure, own, limit }: { readonly measure: JudgedMeasure; readonly own: CylinderWear; readonly limit: number },
): MeasureState["crossedAfter"] {
  const last = tests.findLast(
    ({ test, weights }) =>
      test.measure === measure &&
      test.readings.some(({ cylinder }, r) => cylinder === own.cylinder && (weights[r] ?? 0) > 0),
  );
  const [level, read] = [own.levelAtLastTest, own.latest].map((badness) =>
    badness === null ? null : roundedReading(measure, onScale(measure, worseSign[measure] * badness)),
  );
  if (last === undefined || level == null || read == null) return null;
  const isPast = (value: number) => worseSign[measure] * value >= limit;
  // What was read past the limit is past it in anybody's eyes, though the estimate lay a little short of it.
  return isPast(level) || isPast(read) ? null : { date: last.test.date, level: read };
}

function neverRead(history: EngineHistory, cylinder: number, xNow: number): Before {
  const renewal = bottomEndRenewal(history, cylinder);
  return { origin: renewal?.x ?? 0, originKnown: renewal !== null, first: xNow };
}

function spreadOf(model: EngineModel, wear: EngineWear): ReadonlyMap<number, { breached: boolean; words: string }> {
  if (model.compression === undefined) return new Map();
  const levels = new Map<number, number>();
  for (const cylinder of wear.cylinders) {
    const badness = cylinder.enough ? likelyLevel(cylinder.branches, wear.scale) : cylinder.levelAtLastTest;
    if (badness !== null) levels.set(cylinder.cylinder, roundedReading("compression-dry", -badness));
  }
  return spreadBreaches(levels, model.compression);
}
