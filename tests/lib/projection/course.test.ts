import { describe, expect, it } from "vitest";
import { type Course, type CoursePrior, followCourse } from "@/lib/projection/course.ts";
import { seededRandom } from "../../../demo-data/random.ts";

const prior: CoursePrior = {
  level: 10,
  levelSd: 3,
  rate: 0.002,
  rateSd: 0.001,
  wander: 0.0003,
  renewalSd: 6,
  renewsRate: false,
  tails: "normal",
};

const plain = (clock: number[], level: number[], variance = 1): Course => ({
  clock,
  level,
  variance: clock.map(() => variance),
  renewed: clock.map(() => false),
});

/** Gaussian elimination with pivots, for the slow twin. */
function solve(matrix: number[][], right: number[]): number[] {
  const a = matrix.map((row, i) => [...row, right[i] as number]);
  const n = a.length;
  for (let j = 0; j < n; j++) {
    const best = a.slice(j).reduce((k, row, i) => (Math.abs(row[j]!) > Math.abs(a[k]![j]!) ? i + j : k), j);
    [a[j], a[best]] = [a[best]!, a[j]!];
    for (let i = 0; i < n; i++) {
      if (i === j) continue;
      const by = a[i]![j]! / a[j]![j]!;
      for (let k = j; k <= n; k++) a[i]![k] = a[i]![k]! - by * a[j]![k]!;
    }
  }
  return a.map((row, i) => row[n]! / row[i]!);
}

describe("followCourse", () => {
  it("agrees with kriging on the full covariance matrix", () => {
    const clock = [200, 700, 1500, 1900, 3100, 4000];
    const level = [10.8, 12.6, 12.1, 15.3, 17, 18.2];
    const { mean, covariance } = followCourse(plain(clock, level, 1.7), prior, null);
    const now = 4000;
    const shared = (p: number, q: number) =>
      prior.levelSd ** 2 + prior.rateSd ** 2 * p * q + prior.wander * Math.min(p, q);
    const all = clock.map((p, i) => clock.map((q, j) => shared(p, q) + (i === j ? 1.7 : 0)));
    const residual = clock.map((p, i) => (level[i] as number) - prior.level - prior.rate * p);
    const withNow = clock.map((p) => shared(p, now));
    const weights = solve(all, residual);
    const kriged = prior.level + prior.rate * now + withNow.reduce((s, w, i) => s + w * (weights[i] as number), 0);
    const variance = shared(now, now) - solve(all, withNow).reduce((s, w, i) => s + w * (withNow[i] as number), 0);
    expect((mean[0] as number) + now * (mean[1] as number)).toBeCloseTo(kriged, 9);
    const told =
      (covariance[0] as number) + 2 * now * (covariance[1] as number) + now * now * (covariance[3] as number);
    expect(told).toBeCloseTo(variance, 9);
  });

  it("with no reading is the prior", () => {
    const { mean, covariance } = followCourse(plain([], []), prior, null);
    expect([...mean]).toEqual([10, 0.002]);
    expect([...covariance]).toEqual([9, 0, 0, 1e-6]);
  });

  it("lets one far reading move it little, and wears normal errors as they are", () => {
    const clock = Array.from({ length: 12 }, (_, i) => 500 * i);
    const level = clock.map((x) => 10 + 0.002 * x);
    const off = level.map((v, i) => (i === 6 ? v + 15 : v));
    const at = (values: number[], tails: CoursePrior["tails"]) => {
      const { mean } = followCourse(plain(clock, values), { ...prior, tails }, null);
      return (mean[0] as number) + 5500 * (mean[1] as number);
    };
    expect(at(off, "even") - at(level, "even")).toBeLessThan(0.35 * (at(off, "normal") - at(level, "normal")));
  });

  it("takes a new baseline for one, and keeps the rate where that runs on", () => {
    const clock = Array.from({ length: 10 }, (_, i) => 500 * i);
    const level = clock.map((x, i) => 10 + 0.002 * x - (i >= 7 ? 8 : 0));
    const course = { ...plain(clock, level), renewed: clock.map((_, i) => i === 7) };
    const { mean } = followCourse(course, prior, null);
    expect((mean[0] as number) + 4500 * (mean[1] as number)).toBeCloseTo(11, 0);
    expect(mean[1]).toBeCloseTo(0.002, 3);
  });

  it("finds jump and growth of a fault that begins at a known reading", () => {
    const random = seededRandom(5);
    const clock = Array.from({ length: 20 }, (_, i) => 250 * i);
    const since = clock.map((x) => Math.max(0, x - 3600));
    const level = clock.map((x, i) => 10 + 0.002 * x + (i >= 15 ? 4 + 0.006 * since[i]! : 0) + random.normal(0, 0.3));
    const fault = { from: 15, clock: since, jump: 2, jumpSd: 4, growth: 0, growthSd: 0.02 };
    const { mean } = followCourse(plain(clock, level, 0.09), { ...prior, wander: 1e-6 }, fault);
    expect(mean[2]).toBeGreaterThan(3);
    expect(mean[2]).toBeLessThan(5);
    expect(mean[3]).toBeGreaterThan(0.004);
    expect(mean[3]).toBeLessThan(0.008);
  });
});
