import { describe, expect, test } from "vitest";
import { plainScale } from "@/lib/projection/scale.ts";
import { normalCdf } from "@/lib/statistics/normal.ts";
import { fixedIntervalDistances, lastTimeDistances, lastTimeLevels, straightLine } from "@/lib/track/rivals.ts";
import { probabilityAt, readingQuantiles, standardised } from "@/lib/track/told.ts";

const pool = { testSd: 3, readingSd: 4, readingShare: 0 };
const running = { wander: 0.25, clock: { from: 0, power: 1, unit: 1000 }, now: 5000, isFault: false };

describe("a reading ahead", () => {
  test("lies about the line with the error of level, wander and reading together", () => {
    const branch = {
      probability: 1,
      level: 10,
      rate: 0.01,
      levelVariance: 11,
      rateVariance: 0,
      covariance: 0,
      ...running,
    };
    const told = readingQuantiles([branch], pool, plainScale, 400, { referralShare: 0, roundingSd: 0 });
    // 11 of the level, 0.25 for each hour, 9 and 16 of the reading: 136 in all.
    const sd = Math.sqrt(136);
    const z = [-1.6448536, -1.2815516, -0.6744898, 0, 0.6744898, 1.2815516, 1.6448536];
    for (const [i, quantile] of told.entries()) expect(quantile).toBeCloseTo(14 + (z[i] as number) * sd, 4);
    for (const came of [-9, 3, 14, 21, 60]) expect(standardised(told, came)).toBeCloseTo((came - 14) / sd, 5);
  });

  test("referring to another tester widens it by a share of the level, rounding by what it adds", () => {
    const branch = { probability: 1, level: 20, rate: 0, levelVariance: 0, rateVariance: 0, covariance: 0, ...running };
    const told = readingQuantiles([branch], { ...pool, testSd: 0, readingSd: 0 }, plainScale, 0, {
      referralShare: 0.3,
      roundingSd: 8,
    });
    expect(((told[5] as number) - 20) / 1.2815516).toBeCloseTo(10, 5);
  });
});

test("a standardised error stays finite where all quantiles lie together", () => {
  const told = [5, 5, 5, 5, 5, 5, 5];
  expect([4, 5, 6].map((came) => standardised(told, came))).toEqual([-8, 0, 8]);
});

test("the probability reached rises with the distance, also where late quantiles are not foreseen", () => {
  const whole = [100, 200, 300, 400, 500, 600, 700];
  expect(probabilityAt(whole, 50)).toBe(0.025);
  expect(probabilityAt(whole, 250)).toBeCloseTo(0.175, 12);
  expect(probabilityAt(whole, 900)).toBe(0.975);
  const open = [100, 200, 300, null, null, null, null];
  expect(probabilityAt(open, 900)).toBe(0.25);
  expect(probabilityAt([null, null, null, null, null, null, null], 900)).toBe(0.025);
});

describe("the others", () => {
  test("a straight line's range is the textbook's prediction interval", () => {
    const line = straightLine([0, 1, 2, 3, 4], [1, 3, 2, 5, 4], 4);
    const told = line?.levelsAhead(2) ?? [];
    // By hand: slope 0.8, mean 3, residual variance 1.2, t(0.9; 3) = 1.63774.
    const sd = Math.sqrt(1.2 * (1 + 1 / 5 + (6 - 2) ** 2 / 10));
    expect(told[3]).toBeCloseTo(6.2, 10);
    expect(told[5]).toBeCloseTo(6.2 + 1.637744 * sd, 5);
    expect(told[1]).toBeCloseTo(6.2 - 1.637744 * sd, 5);
  });

  test("a straight line meets the limit where it crosses it, and never where it falls", () => {
    const rising = straightLine([0, 10, 20], [0, 10.01, 20], 20)?.distances(30, 100);
    expect(rising?.[3]).toBeCloseTo(10, 1);
    expect(rising?.[0]).toBeLessThan(rising?.[3] ?? 0);
    expect(straightLine([0, 10, 20], [20, 10.01, 0], 20)?.distances(30, 100)?.[3]).toBeNull();
    expect(straightLine([0, 10], [1, 2], 10)).toBeNull();
    expect(straightLine([5, 5, 5], [1, 2, 3], 5)).toBeNull();
  });

  test("same as last time: the last reading, with the scatter of two; a limit that was not met is never met", () => {
    const told = lastTimeLevels(12, 2);
    expect(told[3]).toBe(12);
    expect(normalCdf(((told[5] as number) - 12) / (2 * Math.SQRT2))).toBeCloseTo(0.9, 10);
    expect(lastTimeDistances(12, 30)).toEqual(Array(7).fill(null));
    expect(lastTimeDistances(31, 30)).toEqual(Array(7).fill(0));
  });

  test("a fixed interval: what is left of it, nought when it is over", () => {
    expect(fixedIntervalDistances(3000, 5000)[0]).toBe(2000);
    expect(fixedIntervalDistances(6000, 5000)[6]).toBe(0);
    expect(fixedIntervalDistances(6000, null)).toEqual(Array(7).fill(null));
  });
});
