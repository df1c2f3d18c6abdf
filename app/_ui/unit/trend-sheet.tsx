import type { CylinderAssessment } from "@/lib/schema/assessment.ts";
import type { MeasureChart, UnitReport } from "@/lib/schema/report.ts";
import type { Formats } from "@/lib/viewing/formats.ts";
import { Sheet } from "../sheet.tsx";
import type { Choice } from "./choice.ts";
import { crossingInWords } from "./crossing-words.ts";
import { lineLabelWords } from "./line-labels.ts";
import { cylinderColour, hasSquarePoints } from "./standing.ts";
import { TrendChoices } from "./trend-choices.tsx";
import { TrendKey } from "./trend-key.tsx";
import { TrendPanel } from "./trend-panel.client.tsx";
import { type TrendSeries, trendSeries } from "./trend-series.ts";
import { rawDifference, trendSource } from "./trend-source.ts";
import { chartTitle, trendLabel } from "./trend-words.ts";
import { axisWords } from "./unit-words.ts";

/** The large chart of one measure, its choices, its key and its crossing in words. */
export function TrendSheet(props: {
  readonly report: UnitReport;
  readonly chart: MeasureChart;
  readonly choice: Choice;
  readonly cylinder: CylinderAssessment;
  /** The choice as it is with referred values. */
  readonly referred: TrendSeries;
  readonly f: Formats;
}) {
  const { report, chart, choice, cylinder, referred, f } = props;
  const { unit: meterUnit } = report.assessment.meter;
  const source = trendSource(report, choice);
  const series = chart.cylinders.find((c) => c.cylinder === choice.cylinder);
  const windowClass = cylinder.bottomEnd > cylinder.topEnd ? "bottom" : "top";
  const squares = chart.cylinders.map((c) => c.cylinder).filter((n) => hasSquarePoints(report.model, n));
  const axis = axisWords(f.meterUnit(meterUnit), report.axisIsMeter);
  const raw = choice.values === "raw";
  const trend = raw ? trendSeries(source) : referred;
  const limit = series?.limit == null ? null : f.level(series.limit, chart.unit);
  const since = cylinder.measures.find(({ measure }) => measure === chart.measure)?.crossedAfter ?? null;
  const after = since === null ? null : { date: since.date, level: f.level(since.level, chart.unit) };
  const crossing =
    series?.crossing == null || limit === null
      ? null
      : crossingInWords(series.crossing, limit, { asOf: report.asOf, meterUnit, f, after });
  const difference = rawDifference(chart);
  const told = raw ? rawWords(chart, difference, f) : crossing;
  const cut = trend.y.domain[0] > 0 ? "; the axis does not start at 0" : "";
  const title = chartTitle(chart, choice.values, f);
  return (
    <Sheet
      title={title}
      note={`over ${axis}; filled points count, hollow ones less or not at all${cut}`}
      controls={<TrendChoices report={report} chart={chart} choice={choice} offersRaw={raw || difference.differ > 0} />}
      className="unit-trend-sheet"
    >
      <TrendPanel
        // Another chart starts with what the address says of it.
        key={`${choice.measure} ${choice.cylinder} ${choice.values}`}
        source={source}
        title={title}
        label={trendLabel({ title, axis, trend, told, f })}
        windowClass={windowClass}
      />
      {told !== null && (
        <p className="unit-crossing">
          {!raw && <strong>Cylinder {choice.cylinder}.</strong>} {told}
        </p>
      )}
      <TrendKey
        trend={trend}
        colour={cylinderColour(choice.cylinder)}
        f={f}
        windowClass={windowClass}
        squares={squares.length === 0 ? null : `square points: ${lineLabelWords(squares)}`}
      />
    </Sheet>
  );
}

/** What raw values are, and why nothing is judged by them. */
function rawWords(chart: MeasureChart, { differ, untold }: ReturnType<typeof rawDifference>, f: Formats): string {
  const to = chart.measure === "leak-down" ? "the usual tester and sea level" : "sea level";
  const limit = chart.limit === null ? "" : ` limit ${f.level(chart.limit, chart.unit)},`;
  return [
    `Raw values: as entered, not referred to ${to}.`,
    differ === 0 ? "In this unit they are the same." : "",
    untold === 0
      ? ""
      : `${f.number(untold)} ${untold === 1 ? "reading was" : "readings were"} entered as held pressure without a supply and cannot be drawn.`,
    `The limits and the forecast belong to referred values:${limit} fan and crossing are left out here.`,
  ]
    .filter(Boolean)
    .join(" ");
}
