import type { ReactNode } from "react";
import type { CylinderSeries, MeasureChart, UnitReport } from "@/lib/schema/report.ts";
import { AppLink } from "../app-link.client.tsx";
import { BandMark, bandWords } from "../band-mark.tsx";
import { formatLevel } from "../formats.ts";
import { Sheet } from "../sheet.tsx";
import type { Domain } from "./axis.ts";
import { type Choice, choiceHref } from "./choice.ts";
import { areJoined, cylinderColour, hasSquarePoints, standingRows } from "./standing.ts";
import { isDoubtful, type TrendSeries } from "./trend-series.ts";

/** Each cylinder's own course, laid out as the engine stands; every one leads to its large chart. */
export function CylinderCards(props: {
  readonly report: UnitReport;
  readonly chart: MeasureChart;
  readonly choice: Choice;
  readonly trend: TrendSeries;
}) {
  const { report, chart, choice, trend } = props;
  const { model } = report;
  const rows = standingRows(model);
  const longest = Math.max(...rows.map((row) => row.length));
  return (
    <Sheet title="Cylinders as they stand in the engine" note={note(report)}>
      <div className="unit-engine" data-layout={model.layout} data-longest={longest > 4 ? "long" : "short"}>
        {rows.map((row) => (
          <ol
            key={row.join()}
            className="unit-bank"
            {...(rows.length > 1 ? { "aria-label": bankName(model, row) } : {})}
          >
            {row.map((cylinder, place) => {
              const next = row[place + 1];
              const series = chart.cylinders.find((c) => c.cylinder === cylinder);
              const band = report.assessment.cylinders.find((c) => c.cylinder === cylinder)?.band ?? null;
              const level = series?.level == null ? "no reading" : formatLevel(series.level, chart.unit);
              return (
                <li key={cylinder} className="unit-place">
                  <AppLink
                    href={choiceHref(report.assessment.unit, { ...choice, cylinder })}
                    variant="bare"
                    className="unit-card"
                    scroll={false}
                    aria-label={`Cylinder ${cylinder}: ${level}, ${bandWords[band ?? "never-tested"]}`}
                    {...(cylinder === choice.cylinder ? { "aria-current": "true" as const } : {})}
                  >
                    <span className="unit-card-head">
                      <strong>{cylinder}</strong>
                      <span>{level}</span>
                      <BandMark band={band} />
                    </span>
                    <SmallCourse
                      chart={chart}
                      cylinder={cylinder}
                      limit={series?.limit ?? chart.limit}
                      trend={trend}
                      square={hasSquarePoints(model, cylinder)}
                    />
                  </AppLink>
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
        ))}
      </div>
    </Sheet>
  );
}

function note({ model }: UnitReport): ReactNode {
  const bridges =
    model.neighbours.length > 0
      ? "a tie joins cylinders that share a gasket bridge"
      : "separate heads, no shared gasket";
  const front = { "in-line": "front of engine first", v: "two banks, front first", opposed: "two sides, front first" };
  return `${front[model.layout]}; ${bridges}; common axes, siblings in grey`;
}

const bankName = ({ layout }: UnitReport["model"], row: readonly number[]) =>
  `${layout === "v" ? "Bank" : "Side"} of cylinders ${row.join(", ")}`;

/** Stretched to its card: strokes and points keep their size, since their width does not scale. */
function SmallCourse(props: {
  readonly chart: MeasureChart;
  readonly cylinder: number;
  readonly limit: number | null;
  readonly trend: TrendSeries;
  readonly square: boolean;
}) {
  const { chart, cylinder, limit, trend, square } = props;
  const span = trend.today - trend.x.domain[0];
  const x = scale([trend.x.domain[0], trend.today + span * 0.03], [0, 100]);
  const y = scale(trend.y.domain, [100, 0]);
  const own = chart.cylinders.find((c) => c.cylinder === cylinder);
  const colour = cylinderColour(cylinder);
  const cap = square ? "square" : "round";
  const isLeak = chart.measure === "leak-down";
  const points = own?.points.filter((p) => !isDoubtful(p)) ?? [];
  return (
    <svg className="unit-course" viewBox="0 0 100 100" preserveAspectRatio="none" aria-hidden="true">
      {limit !== null && (
        <>
          <rect
            x="0"
            width="100"
            y={isLeak ? 0 : y(limit)}
            height={Math.max(0, isLeak ? y(limit) : 100 - y(limit))}
            fill="var(--past-wash)"
          />
          <Stroke d={`M0 ${y(limit)}H100`} colour="var(--past)" width={1.5} />
        </>
      )}
      {trend.repairs
        .filter((r) => r.letter !== "A")
        .map((r) => (
          <Stroke key={`${r.x}${r.letter}`} d={`M${x(r.x)} 0V100`} colour="var(--ink-3)" width={1} dashed={r.assumed} />
        ))}
      {chart.cylinders
        .filter((c) => c.cylinder !== cylinder)
        .map((c) => (
          <Stroke key={c.cylinder} d={coursePath(c, x, y)} colour="var(--ghost)" width={1} />
        ))}
      {own !== undefined && <Stroke d={coursePath(own, x, y)} colour={colour} width={2} />}
      {points.map((p) => (
        <Stroke key={`${p.x} ${p.value}`} d={`M${x(p.x)} ${y(p.value)}h0`} colour={colour} width={5} cap={cap} />
      ))}
    </svg>
  );
}

function Stroke(props: {
  readonly d: string;
  readonly colour: string;
  readonly width: number;
  readonly dashed?: boolean;
  readonly cap?: "round" | "square";
}) {
  return (
    <path
      d={props.d}
      fill="none"
      stroke={props.colour}
      strokeWidth={props.width}
      strokeLinecap={props.cap ?? "butt"}
      strokeLinejoin="round"
      {...(props.dashed === true ? { strokeDasharray: "3 3" } : {})}
      vectorEffect="non-scaling-stroke"
    />
  );
}

const scale =
  ([from, to]: Domain, [low, high]: Domain) =>
  (value: number) =>
    Number((low + ((value - from) / (to - from)) * (high - low)).toFixed(2));

/** One run a wear life, so that no line crosses a repair. */
function coursePath({ points }: CylinderSeries, x: (v: number) => number, y: (v: number) => number): string {
  let life: number | null = null;
  return points
    .filter((p) => !isDoubtful(p))
    .map((p) => {
      const start = p.life !== life;
      life = p.life;
      return `${start ? "M" : "L"}${x(p.x)} ${y(p.value)}`;
    })
    .join("");
}
