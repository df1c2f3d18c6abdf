import { expect, test } from "vitest";
import { onScale, rounded, roundedRate, roundedReading, unitOf } from "@/lib/assessment/rounding.ts";

test("rounds to the decimals asked for, halves up", () => {
  expect(rounded(12.345, 1)).toBe(12.3);
  expect(rounded(0.25, 1)).toBe(0.3);
  expect(rounded(-2.34567, 3)).toBe(-2.346);
  expect(rounded(1234.5, 0)).toBe(1235);
});

test("never tells minus nought", () => {
  expect(Object.is(rounded(-0.001, 2), 0)).toBe(true);
  expect(Object.is(roundedRate(-0.00001), 0)).toBe(true);
});

test("leakage keeps hundredths of a per cent, pressure tenths of a kPa, rates four decimals", () => {
  expect(roundedReading("leak-down", 12.3456)).toBe(12.35);
  expect(roundedReading("compression-dry", 1012.3456)).toBe(1012.3);
  expect(roundedReading("compression-wet", 1012.3456)).toBe(1012.3);
  expect(roundedRate(0.123_456)).toBe(0.1235);
});

test("only leakage is told in per cent", () => {
  expect([unitOf("leak-down"), unitOf("compression-dry"), unitOf("compression-wet")]).toEqual(["%", "kPa", "kPa"]);
});

test("what runs off the scale stays at its end: no leakage below 0 or above 100 %, no pressure below 0", () => {
  expect([-1.5, 12, 104].map((value) => onScale("leak-down", value))).toEqual([0, 12, 100]);
  expect([-1.5, 1200].map((value) => onScale("compression-dry", value))).toEqual([0, 1200]);
});
