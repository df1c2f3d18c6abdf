/**
 * NIST/SEMATECH e-Handbook of Statistical Methods, 2.3.4.1: designs 1,1,1 and 1,1,1,1,1 for weighing all pairs of three
 * and of five weights. Each pair weighed is an engine read with two instruments; the handbook's solution matrices give each
 * weight beside its restraint (the first weight; the sum of the first two) from the differences observed. Tolerance 1e-6:
 * the fit's ridge.
 */
import { expect, test } from "vitest";
import { type FitCourse, fitTesters } from "@/lib/comparison/tester-fit.ts";
import { inOneGo } from "@/lib/steps.ts";

const threeSolution = [
  [0, -2, -1],
  [0, -1, -2],
  [0, 1, -1],
];

const fiveSolution = [
  [2, -2, 0, 0, 0],
  [1, -1, -3, -1, -1],
  [1, -1, -1, -3, -1],
  [1, -1, -1, -1, -3],
  [-1, 1, -3, -1, -1],
  [-1, 1, -1, -3, -1],
  [-1, 1, -1, -1, -3],
  [0, 0, 2, -2, 0],
  [0, 0, 2, 0, -2],
  [0, 0, 0, 2, -2],
];

/** Differences observed, by pair in the handbook's order: 1−2, 1−3 … They need not agree with each other. */
const differences = [0.31, -0.12, 0.44, 0.05, -0.27, 0.18, -0.36, 0.09, 0.22, -0.4];

test.each([
  { name: "1,1,1", items: 3, solution: threeSolution, divisor: 3, restraint: [0] },
  { name: "1,1,1,1,1", items: 5, solution: fiveSolution, divisor: 10, restraint: [0, 1] },
])("design $name", ({ items, solution, divisor, restraint }) => {
  const pairs = Array.from({ length: items }, (_, i) => i).flatMap((a) =>
    Array.from({ length: items - a - 1 }, (_, k): [number, number] => [a, a + k + 1]),
  );
  expect(pairs).toHaveLength(solution.length);
  const courses = pairs.map(([a, b], i): FitCourse => {
    const common = { x: 0, sd: 1 };
    const tests = [
      { ...common, instrument: a, above: 7 * i + (differences[i] as number) },
      { ...common, instrument: b, above: 7 * i },
    ];
    return { unit: `U-${i}`, engine: `E-${i}`, rate: 0, rateSd: 1, tests };
  });
  const { offsets } = inOneGo(fitTesters(courses, items));
  const reference = restraint.reduce((sum, j) => sum + (offsets[j] as number), 0) / restraint.length;
  for (let j = 0; j < items; j++) {
    const wanted = solution.reduce((sum, row, i) => sum + (row[j] as number) * (differences[i] as number), 0) / divisor;
    expect(Math.abs((offsets[j] as number) - reference - wanted)).toBeLessThan(1e-6);
  }
});
