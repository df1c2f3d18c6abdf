import type { ConditionedEngine } from "../condition/types.ts";
import type { EngineModel } from "../schema/engine-model.ts";
import type { IsoDate } from "../schema/facts.ts";
import { median } from "../statistics/quantile.ts";
import { type Falling, fallingOf, type Parting, partingOf } from "./parting.ts";
import { presentReadings, type RecentReading, type RecentTests, recentTests } from "./recent.ts";

/** Where a cylinder stands on one measure in its present life. */
export interface Standing {
  /** The last two readings, the latest counting double: a single reading is too noisy to compare by. */
  readonly level: number;
  readonly latest: number;
  readonly trust: number;
  readonly renewed: number;
  /** Latest first. */
  readonly readings: readonly RecentReading[];
}

/** What the observers look at, worked out once for an engine; index 0 is cylinder 1. */
export interface EngineView {
  readonly model: EngineModel;
  readonly engine: ConditionedEngine;
  readonly asOf: IsoDate;
  readonly recent: RecentTests;
  readonly leakDown: readonly (Standing | null)[];
  readonly compression: readonly (Standing | null)[];
  /** How the leakage of each parted from that of all others; null: nothing to compare with. */
  readonly partings: readonly (Parting | null)[];
  /** How the compression of each fell beside that of all others; null: nothing to compare with. */
  readonly fallings: readonly (Falling | null)[];
  /** Physical neighbours of each cylinder, by cylinder number. */
  readonly neighbours: readonly (readonly number[])[];
  /** Leakage from which a cylinder is watched. */
  readonly watchPercent: number;
  readonly planPercent: number;
}

/** Good leakage ends here where the model names no limits (trade practice: 10 to 15 %). */
const usualWatchPercent = 10;
const usualPlanPercent = 20;

export function engineView(engine: ConditionedEngine, asOf: IsoDate): EngineView {
  const { model } = engine.history;
  const recent = recentTests(engine, asOf);
  const neighbours: number[][] = Array.from({ length: model.cylinders }, () => []);
  for (const [a, b] of model.neighbours) {
    neighbours[a - 1]?.push(b);
    neighbours[b - 1]?.push(a);
  }
  const leakDown = recent.byMeasure["leak-down"].map(standing);
  const compression = recent.byMeasure["compression-dry"].map(standing);
  return {
    model,
    engine,
    asOf,
    recent,
    leakDown,
    partings: leakDown.map((own, at) =>
      own === null ? null : partingOf(own.readings, engine.history.meterUnit, (cylinder) => cylinder !== at + 1),
    ),
    compression,
    fallings: compression.map((own, at) =>
      own === null ? null : fallingOf(own.readings, engine.history.meterUnit, (cylinder) => cylinder !== at + 1),
    ),
    neighbours,
    watchPercent: model.leakDown?.watchPercent ?? usualWatchPercent,
    planPercent: model.leakDown?.planPercent ?? usualPlanPercent,
  };
}

function standing(list: readonly RecentReading[]): Standing | null {
  const readings = presentReadings(list);
  const [latest, previous] = readings;
  if (latest === undefined) return null;
  const level = previous === undefined ? latest.value : (2 * latest.value + previous.value) / 3;
  return { level, latest: latest.value, trust: latest.trust, renewed: latest.renewed, readings };
}

/** Median level of the cylinders other than those named; null: none of them was measured. */
export function medianOfOthers(standings: readonly (Standing | null)[], except: readonly number[]): number | null {
  const levels: number[] = [];
  standings.forEach((own, index) => {
    if (own !== null && !except.includes(index + 1)) levels.push(own.level);
  });
  return levels.length === 0 ? null : median(levels);
}

/** How far a compression lies below a reference, %; 0 where nothing is held in the reference cylinders either. */
export const deficitPercent = (levelKpa: number, referenceKpa: number): number =>
  referenceKpa > 0 ? 100 * (1 - levelKpa / referenceKpa) : 0;

/** 0 up to `from`, 1 from `to` on, straight between. */
export const ramp = (value: number, from: number, to: number): number =>
  Math.min(1, Math.max(0, (value - from) / (to - from)));
