import fc from "fast-check";
import { expect, test } from "vitest";
import { wearScaleOf } from "@/lib/projection/scale.ts";
import { petrol4 } from "../cause/engines.ts";

const leak = wearScaleOf(petrol4, "leak-down");

test("of and back undo each other, and rise, from 0 to 100 % and beyond", () => {
  fc.assert(
    fc.property(
      fc.double({ min: -5, max: 100, noNaN: true }),
      fc.double({ min: 0.01, max: 5, noNaN: true }),
      (at, more) => {
        expect(leak.back(leak.of(at))).toBeCloseTo(at, 6);
        expect(leak.of(at + more)).toBeGreaterThan(leak.of(at));
      },
    ),
  );
});

test("a point is one of the scale at 10 %, and opens more of a leak below it than above", () => {
  expect(leak.slope(10)).toBeCloseTo(1, 6);
  expect(leak.of(10.5) - leak.of(9.5)).toBeCloseTo(1, 2);
  expect(leak.slope(5)).toBeGreaterThan(1.2);
  expect(leak.slope(25)).toBeLessThan(0.9);
});

test("leak areas are in the ratio that the tester's physics gives: from 10 to 30 % about 1.9 times", () => {
  expect(leak.of(30) / leak.of(10)).toBeGreaterThan(1.8);
  expect(leak.of(30) / leak.of(10)).toBeLessThan(2.1);
});

test("compression stays as it is", () => {
  const plain = wearScaleOf(petrol4, "compression-dry");
  expect([plain.of(-1200), plain.back(-1200), plain.slope(-1200)]).toEqual([-1200, -1200, 1]);
});
