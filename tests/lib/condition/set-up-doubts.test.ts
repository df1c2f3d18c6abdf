import { describe, expect, test } from "vitest";
import type { SetUp } from "@/lib/schema/facts.ts";
import type { Measure } from "@/lib/schema/words.ts";
import { conditioned } from "./histories.ts";

const only = (measure: Measure, setUp: Partial<SetUp>) => {
  const value = measure === "leak-down" ? 8 : 1150;
  return conditioned({ tests: [{ x: 50_000, measure, values: [value, value, value, value], setUp }] }).tests[0];
};

describe("slow cranking", () => {
  test("below 0.7 of the reference speed a compression test is kept, not used", () => {
    const slow = only("compression-dry", { crankingRpm: 110 });
    expect(slow?.weights).toEqual([0, 0, 0, 0]);
    expect(slow?.doubts).toEqual([
      {
        code: "slow-cranking",
        cylinder: null,
        weight: 0,
        words: "cranked at 110/min, reference 200/min: kept, not used",
      },
    ]);
    expect(only("compression-wet", { crankingRpm: 139 })?.weights).toEqual([0, 0, 0, 0]);
  });
  test("at 0.7 exactly, and for a leak-down test, it is no doubt", () => {
    expect(only("compression-dry", { crankingRpm: 140 })?.doubts).toEqual([]);
    expect(only("leak-down", { crankingRpm: 110 })?.doubts).toEqual([]);
  });
});

describe("set-up columns", () => {
  test.each([
    ["compression-dry", { warm: false }, 0.25],
    ["leak-down", { warm: false }, 0.25],
    ["compression-dry", { throttleOpen: false }, 0],
    ["leak-down", { throttleOpen: false }, 1],
    ["compression-dry", { allPlugsOut: false }, 0.25],
    ["leak-down", { allPlugsOut: false }, 1],
    ["leak-down", { tdcConfirmed: false }, 0.5],
    ["compression-dry", { tdcConfirmed: false }, 1],
    ["leak-down", { gaugeZeroed: false }, 0.25],
    ["leak-down", { gaugeZeroed: false, tdcConfirmed: false }, 0.125],
  ] as const)("%s with %o weighs %d", (measure, setUp, weight) => {
    expect(only(measure, setUp)?.weights).toEqual([weight, weight, weight, weight]);
    expect(only(measure, setUp)?.doubts.every((d) => d.code === "set-up-not-met" && d.words !== "")).toBe(true);
  });
  test("what was done, or not recorded, is no doubt", () => {
    const done = { warm: true, throttleOpen: true, allPlugsOut: true, tdcConfirmed: true, gaugeZeroed: true };
    expect(only("compression-dry", done)?.doubts).toEqual([]);
    expect(only("leak-down", {})?.doubts).toEqual([]);
  });
});

test("story: slow cranking nine days before a good test leaves only the good one to be used", () => {
  const { tests } = conditioned({
    tests: [
      {
        x: 50_000,
        date: "2026-03-01",
        measure: "compression-dry",
        values: [1080, 1090, 1085, 1000],
        setUp: { crankingRpm: 110 },
      },
      { x: 50_000, date: "2026-03-01", values: [8, 9, 8, 9] },
      {
        x: 50_200,
        date: "2026-03-10",
        measure: "compression-dry",
        values: [1200, 1210, 1205, 1195],
        setUp: { crankingRpm: 210 },
      },
    ],
  });
  expect(tests.map((t) => t.weights[0])).toEqual([0, 1, 1]);
});
