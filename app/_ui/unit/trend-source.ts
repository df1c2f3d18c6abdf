import type { EngineModel } from "@/lib/schema/engine-model.ts";
import type { ChartPoint, MeasureChart, RepairMark, UnitReport, WarningLine } from "@/lib/schema/report.ts";
import type { MeterUnit } from "@/lib/schema/words.ts";
import type { Choice } from "./choice.ts";

/** A wet compression of the chosen cylinder: evidence beside the dry ones, never judged. */
export interface WetReading {
  readonly x: number;
  readonly date: string;
  readonly value: number;
}

/** What the large chart is drawn from: of a report no more than it needs, for all of it travels to the browser. */
export interface TrendSource extends Pick<UnitReport, "asOf" | "xNow" | "datesOnAxis"> {
  readonly choice: Omit<Choice, "allTests">;
  readonly meterUnit: MeterUnit;
  readonly model: Pick<EngineModel, "cylinders" | "layout" | "neighbours" | "leakDown">;
  /** Only the chosen cylinder has its fan. With raw values nothing that is judged: no limit, no fan, no crossing. */
  readonly chart: MeasureChart;
  readonly repairs: readonly Pick<RepairMark, "x" | "scope" | "date" | "words">[];
  readonly wet: readonly WetReading[];
  /** Cylinders that left their family by this measure; none with raw values. */
  readonly warnings: readonly Pick<WarningLine, "cylinder" | "x" | "date">[];
}

export function trendSource(report: UnitReport, choice: TrendSource["choice"]): TrendSource {
  const chart = report.charts.find((c) => c.measure === choice.measure);
  if (chart === undefined) throw new Error(`no chart of ${choice.measure}`);
  const { asOf, xNow, datesOnAxis, model, assessment } = report;
  return {
    asOf,
    xNow,
    datesOnAxis,
    choice,
    meterUnit: assessment.meter.unit,
    model: {
      cylinders: model.cylinders,
      layout: model.layout,
      neighbours: model.neighbours,
      ...(model.leakDown === undefined ? {} : { leakDown: model.leakDown }),
    },
    chart: choice.values === "raw" ? rawChart(chart) : withOneFan(chart, choice.cylinder),
    repairs: report.repairs.map(({ x, scope, date, words }) => ({ x, scope, date, words })),
    wet: choice.measure === "compression-dry" && choice.values === "referred" ? wetOf(report, choice.cylinder) : [],
    warnings:
      choice.values === "raw"
        ? []
        : report.earlyWarnings
            .filter((one) => one.measure === choice.measure)
            .map(({ cylinder, x, date }) => ({ cylinder, x, date })),
  };
}

const withOneFan = (chart: MeasureChart, cylinder: number): MeasureChart => ({
  ...chart,
  cylinders: chart.cylinders.map((c) => (c.cylinder === cylinder ? c : { ...c, fan: [] })),
});

/**
 * The chart with each reading as it was entered. Limits, forecasts and repeatability belong to referred values, so they
 * are left out; so is a reading that was entered as no comparable figure.
 */
function rawChart(chart: MeasureChart): MeasureChart {
  return {
    ...chart,
    limit: null,
    plan: null,
    watch: null,
    cylinders: chart.cylinders.map((c) => ({
      ...c,
      limit: null,
      fan: [],
      crossing: null,
      crossingX: null,
      points: c.points.flatMap((p) => (p.entered === null ? [] : [{ ...p, value: p.entered, sd: 0 }])),
    })),
  };
}

/** How the readings of a chart as entered differ from what they were made into. */
export function rawDifference(chart: MeasureChart): { readonly differ: number; readonly untold: number } {
  const points = chart.cylinders.flatMap((c) => c.points);
  const differs = ({ entered, value }: ChartPoint) =>
    entered !== null && Math.abs(entered - value) > 0.005 * Math.max(1, Math.abs(value));
  return { differ: points.filter(differs).length, untold: points.filter((p) => p.entered === null).length };
}

const wetOf = (report: UnitReport, cylinder: number): WetReading[] =>
  report.tests
    .filter((t) => t.measure === "compression-wet")
    .flatMap((t) =>
      t.entered
        .filter((r) => r.cylinder === cylinder)
        .map((r): WetReading => ({ x: t.x, date: t.date, value: r.referred })),
    )
    .toSorted((a, b) => a.x - b.x);
