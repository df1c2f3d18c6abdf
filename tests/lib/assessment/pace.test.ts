import { describe, expect, test } from "vitest";
import { paceOf } from "@/lib/assessment/pace.ts";
import type { MeasureAssessment, UnitAssessment } from "@/lib/schema/assessment.ts";
import type { ChartPoint, MeasureChart } from "@/lib/schema/report.ts";
import { compression, crossing, cylinder, leakage, unitOf } from "./documents.ts";

/** Readings of cylinder 1 every 3,000 km, the last of them at 50,000 km; `life` and `weight` of single ones may differ. */
function chartOf(values: readonly number[], changes: Readonly<Record<number, Partial<ChartPoint>>> = {}): MeasureChart {
  const points = values.map((value, i): ChartPoint => {
    const x = 50_000 - 3_000 * (values.length - 1 - i);
    return { x, date: "2026-01-01", value, entered: value, sd: 1, weight: 1, life: 0, doubt: null, ...changes[i] };
  });
  const series = { cylinder: 1, band: null, limit: 30, level: null, points, fan: [], crossing: null, crossingX: null };
  return { measure: "leak-down", unit: "%", limit: 30, plan: 20, watch: 10, cylinders: [series] };
}

const rising = { perThousand: 0.31, p10: 0.2, p90: 0.4 };
/** As the readings of a doubling: to 24 by the share of it that 6,500 km add, or by 12 points in 10,000 km. */
const growing = { perThousand: 2.56, p10: 1.9, p90: 3.2 };
const steady = { perThousand: 1.2, p10: 0.9, p90: 1.5 };
const watched = (level: number, changes: Partial<MeasureAssessment> = {}) =>
  cylinder(1, [leakage(level, { band: "watch", rate: rising, ...changes })]);
const pace = (unit: UnitAssessment, ...charts: readonly MeasureChart[]) => paceOf(unit, charts);

describe("how fast the weakest place worsens", () => {
  test("a course that bends upward doubles every so far: from the half of the level to the level", () => {
    // Half of 24 was passed where the third reading stood, 6,000 km ago; the rate says 6,500.
    const bent = unitOf([watched(24, { rate: growing })]);
    expect(pace(bent, chartOf([8, 9, 12, 15, 24]))).toBe("Leakage doubles every 6,000 km.");
  });

  test("the rate that is told beside it decides: where the readings say otherwise, or it is not sure, no doubling is told", () => {
    const chart = chartOf([8, 9, 12, 15, 24]);
    expect(pace(unitOf([watched(24)]), chart)).toBe("Leakage rises 3.1 points per 10,000 km.");
    expect(pace(unitOf([watched(24, { rate: { ...growing, perThousand: 2 } })]), chart)).toBe(
      "Leakage doubles every 8,000 km.",
    );
    expect(pace(unitOf([watched(24, { rate: { ...growing, p10: -0.1 } })]), chart)).toBeNull();
  });

  test("a straight one has doubled, and nothing is said of the next time", () => {
    expect(pace(unitOf([watched(24, { rate: steady })]), chartOf([12, 15, 18, 21, 24]))).toBe(
      "Leakage has doubled over the last 10,000 km.",
    );
  });

  test("a step between the last two readings is told as that: nobody saw it double", () => {
    expect(pace(unitOf([watched(30)]), chartOf([5, 5, 6, 5, 31]))).toBe(
      "Leakage rose from 5 to 31 % between its last two tests.",
    );
    // Less than 8 points are within the scatter, and a rise of less than twice is a course like any other.
    expect(pace(unitOf([watched(11)]), chartOf([5, 5, 5, 4, 11]))).toBe("Leakage rises 3.1 points per 10,000 km.");
    expect(pace(unitOf([watched(30)]), chartOf([18, 18, 18, 18, 30]))).toBe("Leakage rises 3.1 points per 10,000 km.");
  });

  test("what is set aside, and what was read before a repair, are no part of the course", () => {
    const aside = chartOf([8, 9, 12, 2, 15, 24], { 3: { weight: 0 } });
    const bent = unitOf([watched(24, { rate: { ...growing, perThousand: 1.85 } })]);
    expect(pace(bent, aside)).toBe("Leakage doubles every 9,000 km.");
    const repaired = chartOf([2, 9, 18, 20, 24], { 2: { life: 1 }, 3: { life: 1 }, 4: { life: 1 } });
    expect(pace(bent, repaired)).toBe("Leakage rises 19 points per 10,000 km.");
  });

  test("a doubling that takes more than a year of the unit's use is told as a rate", () => {
    const told = (perDay: number) =>
      pace(
        unitOf([watched(24, { rate: growing })], { meter: { value: 50_000, unit: "km", perDay } }),
        chartOf([8, 9, 12, 15, 24]),
      );
    expect(told(20)).toBe("Leakage doubles every 6,000 km.");
    expect(told(10)).toBe("Leakage rises 26 points per 10,000 km.");
    expect(told(0)).toBe("Leakage rises 26 points per 10,000 km.");
  });

  test("a low level that doubles is within the scatter of the tests", () => {
    const low = unitOf([watched(8, { rate: { perThousand: 0.8, p10: 0.5, p90: 1.1 } })]);
    expect(pace(low, chartOf([2, 3, 4, 6, 8]))).toBe("Leakage rises 8.0 points per 10,000 km.");
  });

  test("one point has its decimal, so that it reads as a rate", () => {
    expect(pace(unitOf([watched(14, { rate: { perThousand: 0.102, p10: 0.08, p90: 0.12 } })]))).toBe(
      "Leakage rises 1.0 points per 10,000 km.",
    );
  });

  test("running hours are told by the thousand, compression as a fall", () => {
    const hours = { meter: { value: 5_000, unit: "h", perDay: 4 } } as const;
    expect(pace(unitOf([watched(14)], hours))).toBe("Leakage rises 0.3 points per 1,000 h.");
    const rate = { perThousand: -1.23, p10: -1.5, p90: -0.9 };
    const falling = (more: Partial<MeasureAssessment>) =>
      cylinder(1, [compression(1000, { band: "watch", rate, ...more })]);
    expect(pace(unitOf([falling({})]))).toBe("Compression falls 12 kPa per 10,000 km.");
    expect(pace(unitOf([falling({ rate: { ...rate, p90: 0.1 } })]))).toBeNull();
    // With the digits of the table beside it, not rounded to one that counts.
    const fast = { rate: { perThousand: -178.5, p10: -211, p90: -146 } };
    expect(pace(unitOf([falling(fast)], hours))).toBe("Compression falls 179 kPa per 1,000 h.");
    const slow = { rate: { perThousand: -0.41, p10: -0.6, p90: -0.2 } };
    expect(pace(unitOf([falling(slow)]))).toBe("Compression falls 4.1 kPa per 10,000 km.");
  });

  test("of several cylinders the leading one is named", () => {
    const two = [watched(14), { ...watched(15), cylinder: 2 }];
    expect(pace(unitOf(two))).toBe("Leakage of cylinder 2 rises 3.1 points per 10,000 km.");
  });

  test("nothing is said where the rate may be none, where there is none, or with too few tests", () => {
    expect(pace(unitOf([watched(14, { rate: { ...rising, p10: -0.1 } })]))).toBeNull();
    expect(pace(unitOf([watched(14, { rate: null })]))).toBeNull();
    expect(pace(unitOf([watched(14, { crossing: crossing("too-few-tests") })]))).toBeNull();
    expect(pace(unitOf([watched(14, { rate: { perThousand: 0.001, p10: 0.0005, p90: 0.002 } })]))).toBeNull();
    expect(pace(unitOf([cylinder(1, [leakage(null)])]))).toBeNull();
  });
});
