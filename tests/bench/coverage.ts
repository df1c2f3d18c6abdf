import { type Random, seededRandom } from "../../demo-data/random.ts";
import { addDays } from "../../lib/calendar.ts";
import { aheadGrid, crossingDistribution, useQuantile } from "../../lib/projection/crossing.ts";
import type { Segment, TestObservation, WearObservations } from "../../lib/projection/observations.ts";
import { fitWearPool } from "../../lib/projection/pool.ts";
import type { UseForecast } from "../../lib/projection/types.ts";
import { fitEngineWear } from "../../lib/projection/wear-model.ts";
import { engineModelSchema } from "../../lib/schema/engine-model.ts";
import { median } from "./sampling.ts";

/**
 * Coverage and error of the projection on simulated linear wear. Each engine's cylinders wear along straight lines whose
 * levels and rates differ between engines and cylinders; tests carry a common error and each reading its own, rounded to
 * whole per cent, as trade practice has it (1.5 points a test; 1 point and 7 % of the level a reading). The truth is when
 * the straight line meets the limit. A truth beyond the horizon is held by a range without a late end.
 */

const model = engineModelSchema.parse({
  id: "simulated",
  cylinders: 4,
  leakDown: { watchPercent: 10, planPercent: 20, limitPercent: 30 },
});
const limit = 30;
const use: UseForecast = { perDay: 3, logSd: 0.001, intervals: 10 };
/** Long, so that most ranges close and the 80 % range is measured rather than its open end. */
const horizonDays = 25 * 365;

export interface FleetKind {
  readonly name: string;
  readonly engines: number;
  readonly tests: number;
  readonly hoursBetweenTests: number;
  /** Points for each 1,000 h: mean over engines, spread over engines, spread over an engine's cylinders. */
  readonly rate: readonly [number, number, number];
}

export interface CoverageResult {
  readonly kind: string;
  readonly cylinders: number;
  /** Share of true crossings inside P10 to P90, all projected cylinders. */
  readonly coverage: number;
  /** What that share should be: 0.8 for a closed range, 0.9 for one without a late end. */
  readonly nominal: number;
  /** The same for those whose range is closed. */
  readonly closedCoverage: number;
  readonly closed: number;
  /** Median of |likely - true| / true distance, where both lie within the horizon. */
  readonly medianRelativeError: number;
  /** The same for a straight line by least squares through the cylinder's own readings. */
  readonly leastSquaresError: number;
}

interface Engine {
  readonly observations: WearObservations;
  /** True level at the last test and rate per hour, a cylinder each. */
  readonly truth: readonly { readonly level: number; readonly rate: number }[];
  readonly xNow: number;
}

function simulateEngine(random: Random, kind: FleetKind): Engine {
  const [mean, engineSd, cylinderSd] = kind.rate;
  const base = random.between(4, 16);
  const common = Math.max(0.05, random.normal(mean, engineSd)) / 1000;
  const truth = [1, 2, 3, 4].map(() => ({
    start: base + random.normal(0, 1.2),
    rate: Math.max(0.00002, common + random.normal(0, cylinderSd) / 1000),
  }));
  const segments: Segment[] = truth.map((_, i) => ({
    cylinder: i + 1,
    current: true,
    begunBy: null,
    usableTests: kind.tests,
    ownTests: kind.tests,
  }));
  const tests: TestObservation[] = [];
  let x = random.between(500, 6000);
  const x0 = x;
  for (let t = 0; t < kind.tests; t++) {
    if (t > 0) x += kind.hoursBetweenTests * random.between(0.7, 1.3);
    const shared = random.normal(0, 1.5);
    tests.push({
      x,
      date: addDays("2020-01-01", Math.round(x)),
      weight: 1,
      segment: [0, 1, 2, 3],
      badness: truth.map((c) => {
        const level = c.start + c.rate * (x - x0);
        return Math.max(0, Math.round(level + shared + random.normal(0, Math.hypot(1, 0.07 * level))));
      }),
      referralVariance: [0, 0, 0, 0],
      weights: [1, 1, 1, 1],
    });
  }
  return {
    observations: { measure: "leak-down", cylinders: 4, segments, tests, sharedLevelVariance: 0 },
    truth: truth.map((c) => ({ level: c.start + c.rate * (x - x0), rate: c.rate })),
    xNow: x,
  };
}

/** Distance to the limit by ordinary least squares through one cylinder's readings; Infinity where it does not rise. */
function leastSquaresDistance(engine: Engine, cylinder: number): number {
  const points = engine.observations.tests.map((t) => [t.x, t.badness[cylinder] as number] as const);
  const xMean = points.reduce((s, p) => s + p[0], 0) / points.length;
  const yMean = points.reduce((s, p) => s + p[1], 0) / points.length;
  const spread = points.reduce((s, p) => s + (p[0] - xMean) ** 2, 0);
  const slope = points.reduce((s, p) => s + (p[0] - xMean) * (p[1] - yMean), 0) / spread;
  const now = yMean + slope * (engine.xNow - xMean);
  return slope > 0 ? Math.max(0, (limit - now) / slope) : Number.POSITIVE_INFINITY;
}

/** One cylinder's projection beside the truth. */
interface Judged {
  readonly inside: boolean;
  readonly closed: boolean;
  /** Of the likely and of the least-squares distance; null where the truth lies beyond the horizon. */
  readonly errors: { readonly likely: number; readonly leastSquares: number } | null;
}

/** All cylinders of one fleet of that kind that are projected: those not yet at the limit, in truth or by the model. */
function judgeFleet(kind: FleetKind, seed: number): Judged[] {
  const random = seededRandom(seed);
  const engines = Array.from({ length: kind.engines }, () => simulateEngine(random, kind));
  const pool = fitWearPool(
    model,
    "leak-down",
    "h",
    engines.map((e, i) => ({ key: String(i), observations: e.observations })),
  );
  const ahead = aheadGrid(use, horizonDays);
  const horizon = use.perDay * horizonDays;
  const judged: Judged[] = [];
  for (const engine of engines) {
    const fit = fitEngineWear(engine.observations, pool, engine.xNow);
    for (const [c, truth] of engine.truth.entries()) {
      const state = fit.states[c];
      if (state === undefined || state.level >= limit || truth.level >= limit) continue;
      const distribution = crossingDistribution([{ probability: 1, ...state }], limit, pool.wanderVariance, ahead);
      const [p10, p50, p90] = [0.1, 0.5, 0.9].map((p) => useQuantile(distribution, p)) as (number | null)[];
      if (p10 === null || p10 === undefined || p10 > horizon) continue;
      const distance = (limit - truth.level) / truth.rate;
      const late = p90 === null || p90 === undefined || p90 > horizon ? Number.POSITIVE_INFINITY : p90;
      const errorOf = (told: number) => Math.abs(Math.min(told, horizon) - distance) / distance;
      judged.push({
        inside: distance >= p10 && distance <= late,
        closed: Number.isFinite(late),
        errors:
          distance <= horizon
            ? { likely: errorOf(p50 ?? horizon), leastSquares: errorOf(leastSquaresDistance(engine, c)) }
            : null,
      });
    }
  }
  return judged;
}

/** The cylinders of one fleet for each seed, all together. */
export function coverageOf(kind: FleetKind, ...seeds: readonly number[]): CoverageResult {
  const judged = seeds.flatMap((seed) => judgeFleet(kind, seed));
  const closed = judged.filter((one) => one.closed);
  const held = (of: readonly Judged[]) => of.filter((one) => one.inside).length / of.length;
  const errors = judged.flatMap((one) => one.errors ?? []);
  return {
    kind: kind.name,
    cylinders: judged.length,
    coverage: held(judged),
    nominal: (0.8 * closed.length + 0.9 * (judged.length - closed.length)) / judged.length,
    closedCoverage: held(closed),
    closed: closed.length,
    medianRelativeError: median(errors.map((error) => error.likely)),
    leastSquaresError: median(errors.map((error) => error.leastSquares)),
  };
}

export const fleetKinds: readonly FleetKind[] = [
  { name: "3 tests each", engines: 150, tests: 3, hoursBetweenTests: 500, rate: [2.5, 1.2, 0.8] },
  { name: "6 tests each", engines: 150, tests: 6, hoursBetweenTests: 500, rate: [2.5, 1.2, 0.8] },
  { name: "15 tests each", engines: 150, tests: 15, hoursBetweenTests: 300, rate: [2.5, 1.2, 0.8] },
  { name: "30 tests each", engines: 150, tests: 30, hoursBetweenTests: 250, rate: [2.0, 0.8, 0.5] },
  { name: "slow wear", engines: 150, tests: 8, hoursBetweenTests: 500, rate: [0.8, 0.4, 0.3] },
  { name: "small fleet", engines: 5, tests: 6, hoursBetweenTests: 500, rate: [2.5, 1.2, 0.8] },
];
