import { type ComponentProps, Fragment, type ReactNode } from "react";
import type { MeasureChart, UnitReport } from "@/lib/schema/report.ts";
import type { Formats } from "@/lib/viewing/formats.ts";
import { Sheet } from "../sheet.tsx";
import { type Choice, choiceHref } from "./choice.ts";
import { CylinderCard } from "./cylinder-card.client.tsx";
import { courseDrawing, SiblingCourses } from "./small-course.tsx";
import { areJoined, hasSquarePoints, standingRows } from "./standing.ts";
import type { TrendSeries } from "./trend-series.ts";

/** Each cylinder's own course, laid out as the engine stands; every one leads to its large chart. */
export function CylinderCards(props: {
  readonly report: UnitReport;
  readonly chart: MeasureChart;
  readonly choice: Choice;
  /** Levels, bands and limits belong to referred values, whatever the large chart shows. */
  readonly referred: TrendSeries;
  readonly f: Formats;
}) {
  const { report, chart, f, referred: trend } = props;
  const { model } = report;
  const rows = standingRows(model);
  const longest = Math.max(...rows.map((row) => row.length));
  return (
    <Sheet title="Cylinders as they stand in the engine" note={note(report, trend, f)}>
      <SiblingCourses chart={chart} trend={trend} />
      <div
        className="unit-engine"
        data-layout={rows.length > 1 ? model.layout : "in-line"}
        data-longest={longest > 4 ? "long" : "short"}
      >
        {rows.map((row, side) => (
          <Fragment key={row.join()}>
            {side > 0 && model.layout === "opposed" && (
              <div className="unit-crank" aria-hidden="true">
                <span>crankshaft</span>
              </div>
            )}
            <ol className="unit-bank" {...(rows.length > 1 ? { "aria-label": bankName(model, row) } : {})}>
              {row.map((cylinder, place) => {
                const next = row[place + 1];
                return (
                  <li key={cylinder} className="unit-place">
                    <CylinderCard {...cardOf(cylinder, props)} />
                    {next !== undefined && (
                      <span
                        className="unit-tie"
                        data-joined={areJoined(model.neighbours, cylinder, next)}
                        aria-hidden="true"
                      />
                    )}
                  </li>
                );
              })}
            </ol>
          </Fragment>
        ))}
      </div>
    </Sheet>
  );
}

function cardOf(
  cylinder: number,
  { report, chart, choice, referred: trend, f }: Parameters<typeof CylinderCards>[0],
): ComponentProps<typeof CylinderCard> {
  const { model, assessment } = report;
  const series = chart.cylinders.find((c) => c.cylinder === cylinder);
  return {
    cylinder,
    href: choiceHref(assessment.unit, { ...choice, cylinder }),
    isChosen: cylinder === choice.cylinder,
    band: assessment.cylinders.find((c) => c.cylinder === cylinder)?.band ?? null,
    level: series?.level == null ? "no reading" : f.level(series.level, chart.unit),
    drawing: courseDrawing({
      chart,
      cylinder,
      limit: series?.limit ?? chart.limit,
      trend,
      square: hasSquarePoints(model, cylinder),
    }),
  };
}

function note({ model }: UnitReport, trend: TrendSeries, f: Formats): ReactNode {
  const bridges =
    model.neighbours.length > 0
      ? "a tie joins cylinders that share a gasket bridge"
      : "separate heads, no shared gasket";
  const front = {
    "in-line": "front of engine first",
    v: "two banks, front first",
    opposed: "two sides, front first, the crankshaft between them",
  };
  const [low, high] = trend.y.domain;
  const axes = `common axes, ${f.levelFigure(low, trend.unit)} to ${f.level(high, trend.unit)} up to today`;
  return `${front[model.layout]}; ${bridges}; ${axes}, siblings in grey`;
}

const bankName = ({ layout }: UnitReport["model"], row: readonly number[]) =>
  `${layout === "v" ? "Bank" : "Side"} of cylinders ${row.join(", ")}`;
