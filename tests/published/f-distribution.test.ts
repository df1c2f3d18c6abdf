/**
 * Upper 5 % and 1 % points of the F distribution: NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.3, tables of
 * upper critical values.
 */
import { expect, test } from "vitest";
import { fTail } from "@/lib/statistics/f-distribution.ts";
import { studentTTwoSided } from "@/lib/statistics/student-t.ts";

test.each([
  [0.05, 1, 1, 161.448],
  [0.05, 3, 3, 9.277],
  [0.05, 3, 8, 4.066],
  [0.05, 3, 20, 3.098],
  [0.05, 10, 10, 2.978],
  [0.01, 3, 3, 29.457],
  [0.01, 3, 8, 7.591],
  [0.01, 3, 20, 4.938],
  [0.01, 10, 10, 4.849],
])("%d lies above, with %d and %d degrees of freedom, %d", (share, m, n, f) => {
  expect(fTail(f, m, n) / share).toBeCloseTo(1, 3);
});

test("with one degree of freedom it is the square of Student's t", () => {
  for (const n of [1, 2, 5, 40]) {
    for (const t of [0.3, 1, 4, 6]) expect(fTail(t * t, 1, n) / studentTTwoSided(t, n)).toBeCloseTo(1, 6);
  }
});

test("nothing lies below 0, nothing above infinity", () => {
  expect(fTail(0, 3, 8)).toBe(1);
  expect(fTail(Number.POSITIVE_INFINITY, 3, 8)).toBe(0);
});
