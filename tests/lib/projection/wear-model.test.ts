import { describe, expect, it } from "vitest";
import { seededRandom } from "../../../demo-data/random.ts";
import { addDays } from "../../../lib/calendar.ts";
import type { Segment, TestObservation, WearObservations } from "../../../lib/projection/observations.ts";
import type { WearPool } from "../../../lib/projection/types.ts";
import { fitEngineWear } from "../../../lib/projection/wear-model.ts";

const pool: WearPool = {
  engineModel: "m",
  measure: "leak-down",
  meterUnit: "h",
  engines: 0,
  tests: 0,
  levelMean: 9,
  levelSd: 4,
  rateMean: 0.002,
  rateSd: 0.001,
  cylinderLevelSd: 1.5,
  cylinderRateSd: 0.0008,
  testSd: 1.5,
  readingSd: 1,
  readingShare: 0,
  wanderVariance: 0,
  fingerprint: "",
};

const segment = (cylinder: number): Segment => ({
  cylinder,
  current: true,
  begunBy: null,
  usableTests: 5,
  ownTests: 5,
});

function observations(cylinders: number, rows: readonly (readonly [number, readonly number[]])[]): WearObservations {
  const tests = rows.map(
    ([x, badness]): TestObservation => ({
      x,
      date: addDays("2020-01-01", Math.round(x)),
      weight: 1,
      segment: badness.map((_, i) => i),
      badness,
      referralVariance: badness.map(() => 0),
      weights: badness.map(() => 1),
    }),
  );
  return {
    measure: "leak-down",
    cylinders,
    tests,
    sharedLevelVariance: 0,
    segments: Array.from({ length: cylinders }, (_, i) => segment(i + 1)),
  };
}

/** Solves A x = b by Gaussian elimination with pivoting: slow and obvious. */
function solve(a: number[][], b: number[]): number[] {
  const n = b.length;
  const m = a.map((row, i) => [...row, b[i] as number]);
  for (let j = 0; j < n; j++) {
    const pivot = m.slice(j).reduce((best, row, i) => (Math.abs(row[j]!) > Math.abs(m[best]![j]!) ? i + j : best), j);
    [m[j], m[pivot]] = [m[pivot]!, m[j]!];
    for (let i = 0; i < n; i++) {
      if (i === j) continue;
      const f = m[i]![j]! / m[j]![j]!;
      for (let k = j; k <= n; k++) m[i]![k]! -= f * m[j]![k]!;
    }
  }
  return m.map((row, i) => row[n]! / row[i]!);
}

/**
 * The twin: the joint normal of level and rate of one cylinder given all readings, from the full covariance matrix of
 * the readings, without integrating anything out and without reweighting.
 */
function kriging(obs: WearObservations, xNow: number, cylinder: number) {
  const centre = obs.tests.reduce((s, t) => s + t.x, 0) / obs.tests.length;
  const points = obs.tests.flatMap((t, test) => t.badness.map((y, i) => ({ y, test, c: i + 1, dx: t.x - centre })));
  const common = (p: { dx: number }, q: { dx: number }) => pool.levelSd ** 2 + pool.rateSd ** 2 * p.dx * q.dx;
  const own = (p: { dx: number }, q: { dx: number }) =>
    pool.cylinderLevelSd ** 2 + pool.cylinderRateSd ** 2 * p.dx * q.dx;
  const covariance = points.map((p, i) =>
    points.map(
      (q, j) =>
        common(p, q) +
        (p.c === q.c ? own(p, q) : 0) +
        (p.test === q.test ? pool.testSd ** 2 : 0) +
        (i === j ? pool.readingSd ** 2 : 0),
    ),
  );
  const now = { dx: xNow - centre, c: cylinder };
  const withLevel = points.map((p) => common(p, now) + (p.c === cylinder ? own(p, now) : 0));
  const withRate = points.map((p) => p.dx * (pool.rateSd ** 2 + (p.c === cylinder ? pool.cylinderRateSd ** 2 : 0)));
  const residual = points.map((p) => p.y - pool.levelMean - pool.rateMean * p.dx);
  const dot = (a: number[], b: number[]) => a.reduce((s, v, i) => s + v * b[i]!, 0);
  const weights = solve(covariance, residual);
  const levelSolved = solve(covariance, withLevel);
  return {
    level: pool.levelMean + pool.rateMean * now.dx + dot(withLevel, weights),
    rate: pool.rateMean + dot(withRate, weights),
    levelVariance: common(now, now) + own(now, now) - dot(withLevel, levelSolved),
    rateVariance: pool.rateSd ** 2 + pool.cylinderRateSd ** 2 - dot(withRate, solve(covariance, withRate)),
    covariance: now.dx * (pool.rateSd ** 2 + pool.cylinderRateSd ** 2) - dot(withRate, levelSolved),
  };
}

describe("fitEngineWear", () => {
  it("gives the pool where nothing was measured", () => {
    const { states } = fitEngineWear(observations(2, []), pool, 4000);
    expect(states[0]?.level).toBeCloseTo(9, 10);
    expect(states[0]?.rate).toBeCloseTo(0.002, 12);
    expect(Math.sqrt(states[0]?.levelVariance ?? 0)).toBeCloseTo(Math.hypot(4, 1.5), 10);
  });

  it("agrees with kriging on the full covariance matrix where no error is far out", () => {
    // Every residual, test effect and deviation stays within one standard deviation, so nothing is weighed down.
    const obs = observations(3, [
      [1000, [7, 8, 7.5]],
      [1500, [8, 8.6, 8.6]],
      [2100, [9.1, 10.2, 9.5]],
      [2800, [10.4, 11.4, 11.2]],
    ]);
    const { states } = fitEngineWear(obs, pool, 3300);
    for (const [i, state] of states.entries()) {
      const twin = kriging(obs, 3300, i + 1);
      expect(state.level).toBeCloseTo(twin.level, 8);
      expect(state.rate).toBeCloseTo(twin.rate, 11);
      expect(state.levelVariance).toBeCloseTo(twin.levelVariance, 8);
      expect(state.rateVariance / twin.rateVariance).toBeCloseTo(1, 8);
      expect(state.covariance).toBeCloseTo(twin.covariance, 10);
    }
  });

  it("takes a shift of all cylinders in one test for the test's, not for wear", () => {
    const rows: [number, number[]][] = [
      [1000, [8, 8, 8, 8]],
      [1500, [9, 9, 9, 9]],
      [2000, [10, 10, 10, 10]],
      [2500, [11, 11, 11, 11]],
    ];
    const shifted = rows.map(([x, v], i): [number, number[]] => [x, i === 3 ? v.map((y) => y + 9) : v]);
    const before = fitEngineWear(observations(4, rows), pool, 2500).states[0]?.level ?? 0;
    const after = fitEngineWear(observations(4, shifted), pool, 2500).states[0]?.level ?? 0;
    expect(after - before).toBeGreaterThan(0);
    expect(after - before).toBeLessThan(2.5);
  });

  it("lets one cylinder go its own way and leaves its siblings", () => {
    const rows: [number, number[]][] = [0, 1, 2, 3, 4, 5].map((i) => [1000 + 500 * i, [8, 8, 8 + 3 * i, 8]]);
    const { states } = fitEngineWear(observations(4, rows), pool, 3500);
    expect(states[2]?.rate).toBeGreaterThan(0.0045);
    expect(states[0]?.rate).toBeLessThan(0.0015);
  });

  it("shrinks less as tests come in", () => {
    const rows = (n: number): [number, number[]][] =>
      Array.from({ length: n }, (_, i) => [
        1000 + (4000 * i) / (n - 1),
        [8, 8].map((y) => y + (0.005 * 4000 * i) / (n - 1)),
      ]);
    const rate = (n: number) => fitEngineWear(observations(2, rows(n)), pool, 5000).states[0]?.rate ?? 0;
    expect(rate(3)).toBeLessThan(rate(10));
    expect(rate(10)).toBeLessThan(rate(40));
    expect(rate(40)).toBeGreaterThan(0.0046);
  });

  it("does not depend on where the meter starts", () => {
    const random = seededRandom(7);
    const rows: [number, number[]][] = [0, 1, 2, 3, 4].map((i) => [
      500 * i,
      [1, 2, 3].map(() => random.between(6, 14)),
    ]);
    const at = (shift: number) =>
      fitEngineWear(
        observations(
          3,
          rows.map(([x, v]) => [x + shift, v]),
        ),
        pool,
        2500 + shift,
      ).states.map((s) => s.level);
    for (const [i, level] of at(200_000).entries()) expect(level).toBeCloseTo(at(0)[i] ?? 0, 7);
  });
});
