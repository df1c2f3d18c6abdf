import type { CylinderAssessment } from "@/lib/schema/assessment.ts";
import type { MeasureChart, UnitReport } from "@/lib/schema/report.ts";
import { AppLink } from "../app-link.client.tsx";
import { formatLevel } from "../formats.ts";
import { Sheet } from "../sheet.tsx";
import { type Choice, choiceHref, drawableCharts } from "./choice.ts";
import { crossingInWords } from "./crossing-words.ts";
import { lineLabelWords } from "./line-labels.ts";
import { cylinderColour, hasSquarePoints } from "./standing.ts";
import { TrendChart } from "./trend-chart.client.tsx";
import { TrendKey } from "./trend-key.tsx";
import type { TrendSeries } from "./trend-series.ts";
import { axisWords, chartTitles, measureTitles } from "./unit-words.ts";

/** The large chart of one measure, its choices, its key and its crossing in words. */
export function TrendSheet(props: {
  readonly report: UnitReport;
  readonly chart: MeasureChart;
  readonly choice: Choice;
  readonly trend: TrendSeries;
  readonly cylinder: CylinderAssessment;
}) {
  const { report, chart, choice, trend, cylinder } = props;
  const meterUnit = report.assessment.meter.unit;
  const series = chart.cylinders.find((c) => c.cylinder === choice.cylinder);
  const windowClass = cylinder.bottomEnd > cylinder.topEnd ? "bottom" : "top";
  const squares = chart.cylinders.map((c) => c.cylinder).filter((n) => hasSquarePoints(report.model, n));
  const axis = axisWords(meterUnit, report.axisIsMeter);
  const limit = series?.limit == null ? null : formatLevel(series.limit, chart.unit);
  const crossing =
    series?.crossing == null || limit === null ? null : crossingInWords(series.crossing, limit, meterUnit);
  const cut = trend.y.domain[0] > 0 ? "; the axis does not start at 0" : "";
  return (
    <Sheet
      title={chartTitles[chart.measure]}
      note={`over ${axis}; filled points count, hollow ones less or not at all${cut}`}
      controls={<Choices report={report} chart={chart} choice={choice} />}
      className="unit-trend-sheet"
    >
      <TrendChart trend={trend} label={label(report, trend, crossing)} windowClass={windowClass} />
      {crossing !== null && (
        <p className="unit-crossing">
          <strong>Cylinder {choice.cylinder}.</strong> {crossing}
        </p>
      )}
      <TrendKey
        trend={trend}
        colour={cylinderColour(choice.cylinder)}
        meterUnit={meterUnit}
        windowClass={windowClass}
        squares={squares.length === 0 ? null : `square points: ${lineLabelWords(squares)}`}
      />
    </Sheet>
  );
}

function Choices({ report, chart, choice }: { report: UnitReport; chart: MeasureChart; choice: Choice }) {
  const { unit } = report.assessment;
  const charts = drawableCharts(report);
  return (
    <div className="unit-choices no-print">
      {charts.length > 1 && (
        <nav className="segments" aria-label="Test shown">
          {charts.map(({ measure }) => (
            <AppLink
              key={measure}
              href={choiceHref(unit, { ...choice, measure })}
              variant="bare"
              scroll={false}
              {...(measure === choice.measure ? { "aria-current": "true" as const } : {})}
            >
              {measureTitles[measure]}
            </AppLink>
          ))}
        </nav>
      )}
      {chart.cylinders.length > 1 && (
        <nav className="segments unit-numbers" aria-label="Cylinder shown">
          {chart.cylinders.map(({ cylinder }) => (
            <AppLink
              key={cylinder}
              href={choiceHref(unit, { ...choice, cylinder })}
              variant="bare"
              scroll={false}
              aria-label={`Cylinder ${cylinder}`}
              {...(cylinder === choice.cylinder ? { "aria-current": "true" as const } : {})}
            >
              {cylinder}
            </AppLink>
          ))}
        </nav>
      )}
    </div>
  );
}

/** The chart in words, for those who do not see it; the figures stand in the table of tests. */
function label(report: UnitReport, trend: TrendSeries, crossing: string | null): string {
  const ends = [...trend.ends]
    .sort((a, b) => a.cylinder - b.cylinder)
    .map((e) => `cylinder ${e.cylinder} ${formatLevel(e.value, trend.unit)}`)
    .join(", ");
  const lines = trend.limits.map((l) => `${l.kind.replace("-", " ")} ${formatLevel(l.value, trend.unit)}`).join(", ");
  const parts = [
    `${chartTitles[trend.measure]}, over ${axisWords(report.assessment.meter.unit, report.axisIsMeter)}.`,
    ends === "" ? "" : `Last readings used: ${ends}.`,
    lines === "" ? "" : `Lines: ${lines}.`,
    crossing === null ? "" : `Cylinder ${trend.cylinder}: ${crossing}`,
    "All readings stand in the table of tests.",
  ];
  return parts.filter(Boolean).join(" ");
}
