import { describe, expect, test } from "vitest";
import { fitWearPool } from "@/lib/projection/pool.ts";
import { expectedRate, likelyLevel, projectEngine, readEngine } from "@/lib/projection/project.ts";
import { wearScaleOf } from "@/lib/projection/scale.ts";
import type { WearPool } from "@/lib/projection/types.ts";
import type { JudgedMeasure } from "@/lib/schema/words.ts";
import { type EngineGiven, engine, petrol4 } from "../cause/engines.ts";

const pool = (measure: JudgedMeasure): WearPool => fitWearPool(petrol4, measure, "km", []);
const leakScale = wearScaleOf(petrol4, "leak-down");

/** One test a half-year and 20,000 km apart, all cylinders alike but for what a row says. */
const tests = (rows: readonly (number | readonly number[])[], measure: JudgedMeasure = "leak-down") =>
  rows.map((row, i) => ({
    measure,
    date: `${2021 + Math.floor(i / 2)}-0${i % 2 === 0 ? 1 : 7}-10`,
    x: 20_000 * (i + 1),
    readings: typeof row === "number" ? [row, row, row, row] : row,
  }));

const project = (given: EngineGiven, xNow: number, measure: JudgedMeasure = "leak-down") => {
  const conditioned = engine(given);
  return projectEngine(conditioned, readEngine(conditioned, pool(measure)), xNow);
};
const levels = (given: EngineGiven, xNow: number, measure?: JudgedMeasure) =>
  project(given, xNow, measure).cylinders.map((c) =>
    likelyLevel(c.branches, wearScaleOf(petrol4, measure ?? "leak-down")),
  );

const worn = [12, 16, 20, 24, 28];
const all = [1, 2, 3, 4];
const repaired = (scope: "top-end" | "adjustment") => [{ date: "2023-02-10", x: 100_500, scope, cylinders: all }];

describe("a repair of all cylinders", () => {
  test.each([1, 2, 3])("gives a new level that %i test(s) since are believed on", (since) => {
    const given = { tests: tests([...worn, ...Array(since).fill(8)]), repairs: repaired("top-end") };
    for (const level of levels(given, 20_000 * (5 + since))) expect(level).toBeLessThan(11);
  });

  test("does so for compression as well", () => {
    const rows = [1150, 1110, 1070, 1030, 980, 1180];
    const given = { tests: tests(rows, "compression-dry"), repairs: repaired("top-end") };
    for (const level of levels(given, 120_000, "compression-dry")) expect(-level).toBeGreaterThan(1120);
  });

  test("after an adjustment too, once a second test bears it out", () => {
    const given = { tests: tests([...worn, 8, 8]), repairs: repaired("adjustment") };
    for (const level of levels(given, 140_000)) expect(level).toBeLessThan(12);
  });

  test("carries the wear of the rings on while no test has followed it", () => {
    const { cylinders } = project({ tests: tests(worn), repairs: repaired("top-end") }, 101_000);
    for (const c of cylinders) {
      expect([c.enough, c.branches, c.levelAtLastTest]).toEqual([false, [], null]);
      expect(likelyLevel(c.carried, leakScale)).toBeGreaterThan(22);
      expect(expectedRate(c.carried, leakScale).mean).toBeGreaterThan(0);
    }
  });
});

describe("a top-end repair that cured one cylinder's valve", () => {
  const rows = worn.map((_, i) => [7 + 0.5 * i, 7 + 0.5 * i, 7 + 0.5 * i + (i < 3 ? 0 : 8 * (i - 2)), 7 + 0.5 * i]);
  const [, sibling, cured] = project({ tests: tests(rows), repairs: repaired("top-end") }, 101_000).cylinders;

  test("leaves no date of the rings behind that the valve alone had brought", () => {
    const carried = cured?.carried ?? [];
    expect(likelyLevel(carried, leakScale)).toBeLessThan(likelyLevel(sibling?.carried ?? [], leakScale) + 3);
    expect(expectedRate(carried, leakScale).mean).toBeLessThan(
      3 * expectedRate(sibling?.carried ?? [], leakScale).mean,
    );
  });
});

test("of several improvements that nobody explained, those before the last are taken as they read", () => {
  const rows = [26, 27, 28, 8, [12, 8, 8, 8], [17, 9, 8, 9], [20, 9, 9, 9], [7, 9, 9, 9]];
  const improved = (afterX: number, date: string, cylinders: readonly number[], testsSince: number) => ({
    measure: "leak-down" as const,
    cylinders,
    beforeX: afterX - 20_000,
    afterX,
    date,
    from: 28,
    to: 8,
    testsSince,
    words: "",
  });
  const given = {
    tests: tests(rows),
    improvements: [improved(80_000, "2022-07-10", all, 5), improved(160_000, "2024-07-10", [1], 1)],
  };
  const { cylinders } = project(given, 160_000);
  for (const c of cylinders.slice(1)) {
    expect(expectedRate(c.branches, leakScale).mean).toBeGreaterThan(-1 / 20_000);
    expect(likelyLevel(c.branches, leakScale)).toBeGreaterThan(8);
  }
  // Half of the belief goes to either past: near 7 %, or still near 22 %.
  const low = (cylinders[0]?.branches ?? []).filter((b) => leakScale.back(b.level) < 14);
  expect(low.reduce((sum, b) => sum + b.probability, 0)).toBeCloseTo(0.5, 6);
});

test("the level at the last test is what one old test said, however long ago", () => {
  const [first] = project({ tests: tests([14]) }, 400_000).cylinders;
  expect(first?.enough).toBe(false);
  expect(first?.levelAtLastTest).toBeGreaterThan(10);
  expect(first?.levelAtLastTest).toBeLessThan(15);
  expect(likelyLevel(first?.branches ?? [], leakScale)).toBeGreaterThan(18);
});

test("an engine adjusted again and again costs no more than its last baselines", () => {
  const rows = Array.from({ length: 60 }, (_, i) => 8 + (i % 3));
  const conditioned = {
    tests: tests(rows).map((t, i) => ({ ...t, date: `${2000 + Math.floor(i / 2)}-0${i % 2 === 0 ? 1 : 7}-10` })),
    repairs: Array.from({ length: 58 }, (_, i) => ({
      date: `${2000 + Math.floor(i / 2)}-0${i % 2 === 0 ? 2 : 8}-10`,
      x: 20_000 * (i + 1) + 10,
      scope: "adjustment" as const,
      cylinders: all,
    })),
  };
  const { cylinders } = project(conditioned, 1_210_000);
  for (const c of cylinders) expect(c.usableTests).toBeLessThan(12);
});
