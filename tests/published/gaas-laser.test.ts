/**
 * Operating current of 15 GaAs lasers at 80 °C, every 250 h to 4,000 h (Meeker and Escobar, Statistical Methods for
 * Reliability Data, 1998, table C.17; two copies agree on all values).
 *
 * Pseudo-failure times at 10 %: straight lines through each unit's readings, as the book has them. Forecast: with a limit
 * of 5 %, which all units meet, each unit not yet there at 1,000, 1,250 and 1,500 h is forecast with the others as its
 * sisters and itself left out of what they say. These readings are far less noisy than engine tests, so the model must
 * learn its noise from them: where it begins is a share of the way to the limit, as for engines.
 */
import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { crossingDistribution, useQuantile } from "@/lib/projection/crossing.ts";
import type { WearObservations } from "@/lib/projection/observations.ts";
import { fitPool } from "@/lib/projection/pool.ts";
import type { WearStart } from "@/lib/projection/priors.ts";
import { plainScale } from "@/lib/projection/scale.ts";
import { fitEngineWear } from "@/lib/projection/wear-model.ts";
import { leastSquares } from "@/lib/statistics/linear-regression.ts";
import { median } from "@/lib/statistics/quantile.ts";

const read = (file: string) => readFileSync(new URL(`./data/${file}`, import.meta.url), "utf8");
const rows = read("k_gaas_laser.csv")
  .trim()
  .split("\n")
  .slice(1)
  .map((line) => line.split(",").map(Number));
const units = Array.from({ length: 15 }, (_, i) => i + 1);
const courseOf = (unit: number, until: number) =>
  rows
    .filter((row) => row[0] === unit && (row[1] as number) <= until)
    .map(([, hours, value]) => ({ hours: hours as number, value: value as number }));

/** Hours at which the least-squares line of a unit's readings meets a limit. */
function lineMeets(unit: number, until: number, limit: number): number {
  const course = courseOf(unit, until);
  const fit = leastSquares({
    rows: course.map(({ hours }) => [1, hours]),
    response: course.map(({ value }) => value),
  });
  const [intercept, slope] = fit?.coefficients ?? [0, 0];
  return (limit - (intercept as number)) / (slope as number);
}

test("pseudo-failure times at 10 %", () => {
  const { units: published } = JSON.parse(read("k_gaas_laser.json")) as {
    units: { unit: number; pseudo_failure_ols_h: number }[];
  };
  expect(published).toHaveLength(15);
  for (const { unit, pseudo_failure_ols_h } of published) {
    expect(lineMeets(unit, 4000, 10), `unit ${unit}`).toBeCloseTo(pseudo_failure_ols_h, 2);
  }
});

const limit = 5;
const start: WearStart = {
  scale: plainScale,
  span: 1000,
  levelMean: 0,
  levelSd: 0.1 * limit,
  rateMean: limit / 4000,
  rateSd: (0.6 * limit) / 4000,
  ownLevelSd: 0.05 * limit,
  ownRateSd: (0.1 * limit) / 4000,
  wanderShare: 0.1,
  testSd: 0.05 * limit,
  error: { readingSd: 0.03 * limit, readingShare: 0.07 },
  way: limit,
};

const observed = (unit: number, until: number): WearObservations => ({
  measure: "leak-down",
  cylinders: 1,
  origin: 0,
  originKnown: true,
  neighbours: [],
  sharedLevelVariance: 0,
  segments: [{ cylinder: 1, current: true, usableTests: 9, ownTests: 9, begunBy: null }],
  tests: courseOf(unit, until).map(({ hours, value }) => ({
    x: hours,
    date: "",
    weight: 1,
    segment: [0],
    badness: [value],
    referralVariance: [0],
    roundingVariance: [0],
    weights: [1],
    heard: [0],
    ruled: [null],
    spoilt: [0.05],
  })),
});

function forecast(unit: number, until: number) {
  const sisters = units
    .filter((other) => other !== unit)
    .map((other) => ({ key: String(other).padStart(2, "0"), observations: observed(other, until) }));
  const pool = {
    engineModel: "laser",
    measure: "leak-down",
    meterUnit: "h",
    fingerprint: "",
    ...fitPool(start, sisters),
  } as const;
  const fit = fitEngineWear(observed(unit, until), pool, until, plainScale);
  const ahead = Float64Array.from({ length: 500 }, (_, i) => 15 * i);
  const distribution = crossingDistribution(fit.cylinders[0]?.branches ?? [], limit, ahead);
  return [0.1, 0.5, 0.9].map((p) => useQuantile(distribution, p) ?? Number.POSITIVE_INFINITY) as [
    number,
    number,
    number,
  ];
}

/** Hours at which a unit's readings met the limit, straight between two of them. */
function met(unit: number): number {
  const course = courseOf(unit, 4000);
  const i = course.findIndex(({ value }) => value >= limit);
  const [a, b] = [course[i - 1], course[i]];
  if (a === undefined || b === undefined) return Number.NaN;
  return a.hours + ((limit - a.value) / (b.value - a.value)) * (b.hours - a.hours);
}

describe("the forecast of the way to 5 %", () => {
  const cases = [1000, 1250, 1500].flatMap((until) =>
    units
      .filter((unit) => met(unit) > until)
      .map((unit) => {
        const came = met(unit) - until;
        const [p10, p50, p90] = forecast(unit, until);
        return {
          held: came >= p10 && came <= p90,
          error: Math.abs(p50 - came),
          lineError: Math.abs(lineMeets(unit, until, limit) - met(unit)),
        };
      }),
  );

  test("its ranges hold what came about 8 times in 10", () => {
    expect(cases).toHaveLength(45);
    const held = cases.filter((one) => one.held).length / cases.length;
    expect(Math.abs(held - 0.8)).toBeLessThanOrEqual(0.12);
  });

  test("its likely time is nearer than a line's: at most 0.8 of the median error", () => {
    expect(median(cases.map((one) => one.error)) / median(cases.map((one) => one.lineError))).toBeLessThanOrEqual(0.8);
  });
});
