import { describe, expect, it } from "vitest";
import type { Choice } from "@/app/_ui/unit/choice.ts";
import { trendSeries } from "@/app/_ui/unit/trend-series.ts";
import { rawDifference, trendSource } from "@/app/_ui/unit/trend-source.ts";
import type { UnitReport } from "@/lib/schema/report.ts";
import { diesel } from "./fixture.ts";

const referred: Omit<Choice, "allTests"> = { measure: "leak-down", cylinder: 3, values: "referred" };
const raw: Omit<Choice, "allTests"> = { ...referred, values: "raw" };

/** The diesel whose last test was read with a wide tester, and its first as held pressure without a supply. */
const otherTester: UnitReport = {
  ...diesel,
  charts: diesel.charts.map((chart) => ({
    ...chart,
    cylinders: chart.cylinders.map((c) => ({
      ...c,
      points: c.points.map((p, i) => ({
        ...p,
        entered: i === 0 ? null : i === c.points.length - 1 ? p.value / 4 : p.value,
      })),
    })),
  })),
};
const valuesOf = (report: UnitReport, choice: Omit<Choice, "allTests">) =>
  trendSource(report, choice)
    .chart.cylinders.find((c) => c.cylinder === 3)
    ?.points.map((p) => p.value);

describe("what travels to the browser", () => {
  it("is the fan of the chosen cylinder alone", () => {
    const fans = trendSource(diesel, { ...referred, cylinder: 1 }).chart.cylinders.map((c) => c.fan.length);
    expect(fans).toEqual([0, 0, 0, 0]);
    expect(trendSource(diesel, referred).chart.cylinders.map((c) => c.fan.length)).toEqual([0, 0, 4, 0]);
  });

  it("names a measure that the report does not chart", () => {
    expect(() => trendSource({ ...diesel, charts: [] }, referred)).toThrow("no chart of leak-down");
  });
});

describe("raw values", () => {
  it("are the readings as entered, and what was entered as no comparable figure is left out", () => {
    expect(valuesOf(otherTester, referred)).toEqual([6, 8, 9, 5, 12, 6, 7, 8, 9, 13, 22]);
    expect(valuesOf(otherTester, raw)).toEqual([8, 9, 5, 12, 6, 7, 8, 9, 13, 5.5]);
    expect(rawDifference(otherTester.charts[0]!)).toEqual({ differ: 4, untold: 4 });
    expect(rawDifference(diesel.charts[0]!)).toEqual({ differ: 0, untold: 0 });
  });

  it("carry nothing that is judged by referred ones: no limit, wash, fan, crossing or whisker", () => {
    const series = trendSeries(trendSource(otherTester, raw));
    expect(series).toMatchObject({ limits: [], wash: null, hasFan: false, crossing: null, hasWhiskers: false });
    expect(series.rows.some((r) => r["sd"] !== undefined)).toBe(false);
    expect(trendSeries(trendSource(otherTester, referred))).toMatchObject({ hasFan: true, hasWhiskers: true });
  });

  it("have axes of their own, with room for all of them", () => {
    const series = trendSeries(trendSource(otherTester, raw));
    expect(series.y.domain[1]).toBeGreaterThan(13);
    expect(series.x.domain[1]).toBeGreaterThan(series.today);
  });
});
