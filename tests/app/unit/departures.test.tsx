import { renderToStaticMarkup } from "react-dom/server";
import { describe, expect, it } from "vitest";
import { CourseChart } from "@/app/_ui/unit/course-chart.tsx";
import { departedAt, departureWords } from "@/app/_ui/unit/departures.ts";
import { courseDrawing } from "@/app/_ui/unit/small-course.tsx";
import { TestsTable } from "@/app/_ui/unit/tests-table.tsx";
import { TrendKey } from "@/app/_ui/unit/trend-key.tsx";
import { trendSeries } from "@/app/_ui/unit/trend-series.ts";
import { trendSource } from "@/app/_ui/unit/trend-source.ts";
import { trendStops } from "@/app/_ui/unit/trend-stops.ts";
import { trendLabel } from "@/app/_ui/unit/trend-words.ts";
import type { UnitReport, WarningLine } from "@/lib/schema/report.ts";
import { formatsOf } from "@/lib/viewing/formats.ts";
import { plainPreferences } from "@/lib/viewing/preferences.ts";
import { diesel } from "./fixture.ts";

const f = formatsOf(plainPreferences);
const warning: WarningLine = {
  measure: "leak-down",
  cylinder: 3,
  date: "2026-08-24",
  meter: 148_300,
  x: 148_300,
  amount: 9,
  amountSince: 9,
  sd: 1.3,
  statistic: 7.2,
  limit: 5.1,
  heardAt: ["exhaust"],
  falseAlarms: 1.5,
};
const warned: UnitReport = { ...diesel, earlyWarnings: [warning] };
const choice = { measure: "leak-down", cylinder: 3, values: "referred" } as const;
const series = (report: UnitReport, over: object = {}) => trendSeries(trendSource(report, { ...choice, ...over }));
const words = (html: string) => html.replace(/<[^>]+>/g, " ").replace(/\s+/g, " ");

describe("the test at which a cylinder left its family", () => {
  it("is a place in the chart of its measure alone, at the reading itself", () => {
    expect(series(warned).departures).toEqual([{ cylinder: 3, x: 148_300, date: "2026-08-24", value: 22 }]);
    expect(series(warned, { cylinder: 1 }).departures).toHaveLength(1);
    expect(series(warned, { measure: "compression-dry" }).departures).toEqual([]);
    expect(series(diesel).departures).toEqual([]);
  });

  it("is judged by referred values, so raw ones do not carry it", () => {
    expect(series(warned, { values: "raw" }).departures).toEqual([]);
  });

  it("has no mark where its reading is not in view or not in the chart", () => {
    expect(trendSeries(trendSource(warned, choice), [24_000, 100_000]).departures).toEqual([]);
    expect(series({ ...diesel, earlyWarnings: [{ ...warning, x: 1 }] }).departures).toEqual([]);
  });

  it("is told in the key, in the chart's words, at its test, and nowhere where there is none", () => {
    const key = (report: UnitReport) =>
      words(
        renderToStaticMarkup(<TrendKey trend={series(report)} colour="red" f={f} windowClass="top" squares={null} />),
      );
    const label = (report: UnitReport) =>
      trendLabel({ title: "Leakage", axis: "km", trend: series(report), told: null, f });
    expect(key(warned)).toContain("early warning: cylinder 3 left its family at the test of 24 Aug 2026");
    expect(key(diesel)).not.toContain("early warning");
    expect(label(warned)).toContain("Early warning: 24 Aug 2026: cylinder 3 left its family.");
    expect(label(diesel)).not.toContain("arly warning");
    const stops = trendStops(trendSource(warned, choice), [0, 200_000], [0, 36]);
    expect(stops.map((s) => s.departed)).toEqual([...Array(10).fill([]), [3]]);
  });

  it("stands in the table of tests, the chart's twin", () => {
    const table = (report: UnitReport) =>
      words(
        renderToStaticMarkup(
          <TestsTable
            report={report}
            of="L-203"
            filesAt="/units/L-203"
            isAll
            addresses={{ all: "/a", latest: "/b" }}
            f={f}
          />,
        ),
      );
    expect(table(warned).match(/Early warning: cylinder 3 left its family/g)).toHaveLength(1);
    expect(table(diesel)).not.toContain("Early warning");
  });

  it("is marked in the cylinder's small chart and on paper, where a key tells it", () => {
    const chart = warned.charts[0]!;
    const small = (cylinder: number) =>
      courseDrawing({ chart, cylinder, limit: 28, trend: series(warned), square: false }).departure;
    expect(small(3)).not.toBeNull();
    expect(small(1)).toBeNull();
    const paper = (report: UnitReport) =>
      renderToStaticMarkup(<CourseChart report={report} chart={chart} chosen={3} label="Leakage" f={f} />);
    expect(paper(warned)).toContain("course-departure");
    expect(words(paper(warned))).toContain("early warning: cylinder 3 left its family at the test of 24 Aug 2026");
    expect(paper(diesel)).not.toContain("course-departure");
  });
});

it("matches a test by measure, day, place and cylinder", () => {
  const [test] = diesel.tests;
  expect(departedAt(test!, [warning])).toEqual([3]);
  expect(departedAt(test!, [{ ...warning, cylinder: 7 }])).toEqual([]);
  expect(departedAt(test!, [{ ...warning, measure: "compression-dry" }])).toEqual([]);
  expect(departedAt(test!, [{ ...warning, date: "2026-08-23" }])).toEqual([]);
});

it("has words for one, for several, and for an engine of one cylinder", () => {
  expect([departureWords([3], 4), departureWords([2, 3], 4), departureWords([1], 1)]).toEqual([
    "cylinder 3 left its family",
    "cylinders 2, 3 left their family",
    "the cylinder left its own course",
  ]);
});
