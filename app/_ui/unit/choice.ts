import type { CylinderSeries, MeasureChart, UnitReport } from "@/lib/schema/report.ts";
import { bands, type JudgedMeasure } from "@/lib/schema/words.ts";

/** What the Unit page shows large: one measure, one cylinder. It lives in the page's address. */
export interface Choice {
  readonly measure: JudgedMeasure;
  readonly cylinder: number;
}

type Search = Readonly<Record<string, string | string[] | undefined>>;

/** Charts that have something to draw. */
export function drawableCharts(report: UnitReport): readonly MeasureChart[] {
  return report.charts.filter((chart) => chart.cylinders.some((c) => c.points.length > 0));
}

/**
 * The choice that the address asks for; what it leaves open, or asks for in vain, is filled with the weakest place.
 * Null where no measure has a reading.
 */
export function chooseFrom(report: UnitReport, search: Search): Choice | null {
  const all = drawableCharts(report).flatMap((chart) =>
    chart.cylinders.map((series) => ({ measure: chart.measure, chart, series })),
  );
  const measure = all.find((c) => c.measure === search["measure"])?.measure;
  const inMeasure = measure === undefined ? all : all.filter((c) => c.measure === measure);
  const cylinder = Number(search["cylinder"]);
  const inCylinder = inMeasure.filter((c) => c.series.cylinder === cylinder);
  const weakest = (inCylinder.length > 0 ? inCylinder : inMeasure).reduce<(typeof all)[number] | null>(
    (worst, c) => (worst === null || isWeaker(c, worst) ? c : worst),
    null,
  );
  return weakest === null ? null : { measure: weakest.measure, cylinder: weakest.series.cylinder };
}

/** Address of the page with another choice; it keeps the reader at the chart. */
export function choiceHref(unit: string, { measure, cylinder }: Choice): string {
  return `/units/${encodeURIComponent(unit)}?measure=${measure}&cylinder=${cylinder}`;
}

interface Candidate {
  readonly chart: MeasureChart;
  readonly series: CylinderSeries;
}

/** Worse band first, then the earlier crossing, then the level nearer to its limit. */
function isWeaker(a: Candidate, b: Candidate): boolean {
  const byBand = bandRank(a.series) - bandRank(b.series);
  if (byBand !== 0) return byBand > 0;
  const byCrossing = crossingDate(a.series).localeCompare(crossingDate(b.series));
  if (byCrossing !== 0) return byCrossing < 0;
  return nearness(a) > nearness(b);
}

function bandRank({ band }: CylinderSeries): number {
  return band === null ? -1 : bands.indexOf(band);
}

function crossingDate({ crossing }: CylinderSeries): string {
  return crossing?.date.p50 ?? crossing?.date.p10 ?? "9999";
}

function nearness({ chart, series }: Candidate): number {
  if (series.level === null || series.limit === null) return Number.NEGATIVE_INFINITY;
  return chart.measure === "leak-down" ? series.level / series.limit : series.limit / series.level;
}
