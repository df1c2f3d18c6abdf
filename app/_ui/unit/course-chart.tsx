import type { ReactNode } from "react";
import type { MeasureChart, UnitReport } from "@/lib/schema/report.ts";
import type { Formats } from "@/lib/viewing/formats.ts";
import { type CourseDrawing, courseDrawing } from "./course-drawing.ts";
import { departureWords } from "./departures.ts";
import { departureShape } from "./trend-mark-parts.ts";
import "./course-chart.css";

/** One measure of all cylinders as the server draws it: for paper, and for pages where nothing is chosen. */
export function CourseChart(props: {
  readonly report: UnitReport;
  readonly chart: MeasureChart;
  /** The cylinder whose likely course is drawn ahead; null: none. */
  readonly chosen: number | null;
  readonly label: string;
  readonly f: Formats;
}) {
  const { report, chart, chosen, label, f } = props;
  const meter = f.meterFactor(report.assessment.meter.unit);
  const drawing = courseDrawing(report, chart, chosen, { meter, level: f.levelFactor(chart.unit) });
  const level = (value: number) => f.levelFigure(value, chart.unit);
  return (
    <>
      <div className="course" role="img" aria-label={label}>
        <div className="course-box" aria-hidden="true">
          <CourseInk drawing={drawing} />
          {drawing.y.map(({ at, value }) => (
            <span key={value} className="course-y" style={{ top: `${at}%` }}>
              {level(value)}
            </span>
          ))}
          {drawing.limits.map(({ kind, value, y }) => (
            <span key={kind} className="course-limit" data-kind={kind} style={{ top: `${y}%` }}>
              {kind} {level(value)}
            </span>
          ))}
          {labels(drawing).map(({ words, x, y }) => (
            <span key={words} className="course-end" style={{ left: `${x}%`, top: `${y}%` }}>
              {words}
            </span>
          ))}
          {drawing.departures.map(({ cylinder, x, y }) => (
            <span key={cylinder} className="course-departure" style={{ left: `${x}%`, top: `${y}%` }} />
          ))}
          {drawing.marks.map(({ at, letter }) => (
            <span key={at} className="unit-letter course-mark" style={{ left: `${at}%` }}>
              {letter}
            </span>
          ))}
          <span className="course-today" style={{ left: `${drawing.today}%` }}>
            today
          </span>
          {drawing.x.map(({ at, value }) => (
            <span key={value} className="course-x" style={{ left: `${at}%` }}>
              {f.number(value * meter)}
            </span>
          ))}
          {drawing.dates.map(({ at, date }) => (
            <span key={date} className="course-date" style={{ left: `${at}%` }}>
              {f.month(date)}
            </span>
          ))}
        </div>
      </div>
      {drawing.departures.length > 0 && (
        <ul className="course-key">
          {drawing.departures.map(({ cylinder, date }) => (
            <li key={cylinder}>
              <svg width="16" height="16" aria-hidden="true">
                <path
                  d={departureShape(7)}
                  transform="translate(8 8)"
                  fill="none"
                  stroke="var(--ink)"
                  strokeWidth="1.75"
                />
              </svg>
              early warning: {departureWords([cylinder], report.model.cylinders)} at the test of {f.date(date)}
            </li>
          ))}
        </ul>
      )}
    </>
  );
}

function CourseInk({ drawing }: { readonly drawing: CourseDrawing }) {
  const { wash, fan } = drawing;
  const chosen = drawing.lines.find((line) => line.chosen);
  const colour = chosen?.colour ?? "var(--ink)";
  return (
    <svg
      viewBox="0 0 100 100"
      preserveAspectRatio="none"
      width="100%"
      height="100%"
      className="course-ink"
      aria-hidden="true"
    >
      {wash !== null && <rect x="0" width="100" y={wash.y} height={wash.height} fill="var(--past-wash)" />}
      {drawing.y.map(({ at, value }) => (
        <Stroke key={value} d={`M0 ${at}H100`} colour="var(--grid)" width={1} />
      ))}
      {drawing.limits.map(({ kind, y }) => (
        <Stroke
          key={kind}
          d={`M0 ${y}H100`}
          colour={kind === "limit" ? "var(--past)" : `var(--${kind})`}
          width={kind === "limit" ? 2 : 1.5}
          dashes={{ limit: null, plan: "7 4", watch: "2 3" }[kind]}
        />
      ))}
      {fan !== null && (
        <>
          <path d={fan.eighty} fill={colour} opacity="0.15" />
          <path d={fan.fifty} fill={colour} opacity="0.22" />
          <Stroke d={fan.likely} colour={colour} width={2} dashes="6 4" />
        </>
      )}
      {drawing.marks.map(({ at }) => (
        <Stroke key={at} d={`M${at} 0V100`} colour="var(--ink)" width={1} />
      ))}
      {drawing.lines.map((line) => (
        <g key={line.cylinder}>
          <Stroke d={line.path} colour={line.colour} width={line.chosen ? 2.75 : 1.25} />
          {line.points.map((p) => (
            <g key={`${p.x} ${p.y}`}>
              <Stroke d={`M${p.x} ${p.y}h0`} colour={line.colour} width={line.chosen ? 8 : 6} round />
              {!p.used && <Stroke d={`M${p.x} ${p.y}h0`} colour="var(--surface)" width={line.chosen ? 5 : 3.5} round />}
            </g>
          ))}
        </g>
      ))}
      <Stroke d={`M${drawing.today} 0V100`} colour="var(--ink)" width={1.5} />
    </svg>
  );
}

/** Stretched with its box: strokes and points keep their size. */
function Stroke(props: {
  readonly d: string;
  readonly colour: string;
  readonly width: number;
  readonly dashes?: string | null;
  readonly round?: boolean;
}): ReactNode {
  return (
    <path
      d={props.d}
      fill="none"
      stroke={props.colour}
      strokeWidth={props.width}
      strokeLinecap={props.round === true ? "round" : "butt"}
      strokeLinejoin="round"
      strokeDasharray={props.dashes ?? undefined}
      vectorEffect="non-scaling-stroke"
    />
  );
}

/** Labels at the lines' ends; those nearer to each other than this, in per cent of the height, are one. */
const clear = 8;

function labels({ lines }: CourseDrawing): { readonly words: string; readonly x: number; readonly y: number }[] {
  const groups: { cylinders: number[]; x: number; y: number }[] = [];
  const ends = lines.flatMap(({ cylinder, end }) => (end === null ? [] : [{ cylinder, ...end }]));
  for (const { cylinder, x, y } of ends.toSorted((a, b) => a.y - b.y)) {
    const last = groups.at(-1);
    if (last !== undefined && y - last.y < clear) {
      last.cylinders.push(cylinder);
      last.x = Math.max(last.x, x);
    } else groups.push({ cylinders: [cylinder], x, y });
  }
  return groups.map(({ cylinders, x, y }) => ({
    words: `cyl ${cylinders.toSorted((a, b) => a - b).join(", ")}`,
    x,
    y,
  }));
}
