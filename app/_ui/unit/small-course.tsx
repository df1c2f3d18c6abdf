import type { CylinderSeries, MeasureChart } from "@/lib/schema/report.ts";
import type { Domain } from "./axis.ts";
import { cylinderColour } from "./standing.ts";
import { isDoubtful, onLevelAxis } from "./trend-parts.ts";
import type { TrendSeries } from "./trend-series.ts";
import "./course-chart.css";

/**
 * Small multiples on one 100 by 100 plane that is stretched to each card: strokes and points keep their size, since
 * their width does not scale. All courses are written once and used in every card: with sixteen cylinders the page
 * would else carry each of them sixteen times.
 */

const coursesId = "unit-courses";

export function SiblingCourses({ chart, trend }: { readonly chart: MeasureChart; readonly trend: TrendSeries }) {
  const { x, y } = plane(trend);
  return (
    <svg className="unit-course-defs" width="0" height="0" aria-hidden="true" focusable="false">
      <defs>
        <g id={coursesId}>
          {chart.cylinders.map((c) => (
            <Stroke key={c.cylinder} d={coursePath(c, x, y)} colour="var(--ghost)" width={1} />
          ))}
        </g>
      </defs>
    </svg>
  );
}

/** What a card draws of its cylinder, on the plane of 100 by 100. */
export interface CourseDrawing {
  readonly colour: string;
  readonly cap: "round" | "square";
  /** The washed side of the limit; null: there is none. */
  readonly limit: { readonly y: number; readonly wash: readonly [y: number, height: number] } | null;
  readonly repairs: string;
  readonly assumedRepairs: string;
  readonly course: string;
  readonly dots: string;
  readonly doubtfulDots: string;
  /** Where it left its family, in per cent from the left and the top; null: it did not. */
  readonly departure: { readonly x: number; readonly y: number } | null;
}

/** Worked out by the server: of all that is known of the cylinder only this travels to the browser. */
export function courseDrawing(of: {
  readonly chart: MeasureChart;
  readonly cylinder: number;
  readonly limit: number | null;
  readonly trend: TrendSeries;
  readonly square: boolean;
}): CourseDrawing {
  const { chart, cylinder, limit, trend, square } = of;
  const { x, y } = plane(trend);
  const own = chart.cylinders.find((c) => c.cylinder === cylinder);
  const isLeak = chart.measure === "leak-down";
  const departure = trend.departures.find((d) => d.cylinder === cylinder);
  const dots = (doubtful: boolean) =>
    (own?.points ?? [])
      .filter((p) => isDoubtful(p) === doubtful)
      .map((p) => `M${x(p.x)} ${y(doubtful ? onLevelAxis(trend.y.domain, p.value) : p.value)}h0`)
      .join("");
  const repairs = (assumed: boolean) =>
    trend.repairs
      .filter((r) => r.letter !== "A" && r.assumed === assumed)
      .map((r) => `M${x(r.x)} 0V100`)
      .join("");
  return {
    colour: cylinderColour(cylinder),
    cap: square ? "square" : "round",
    limit:
      limit === null
        ? null
        : { y: y(limit), wash: isLeak ? [0, Math.max(0, y(limit))] : [y(limit), Math.max(0, 100 - y(limit))] },
    repairs: repairs(false),
    assumedRepairs: repairs(true),
    course: own === undefined ? "" : coursePath(own, x, y),
    dots: dots(false),
    doubtfulDots: dots(true),
    departure: departure === undefined ? null : { x: x(departure.x), y: y(departure.value) },
  };
}

export function SmallCourse({ drawing }: { readonly drawing: CourseDrawing }) {
  const { colour, cap, limit, departure } = drawing;
  return (
    <span className="unit-course-box">
      <svg className="unit-course" viewBox="0 0 100 100" preserveAspectRatio="none" aria-hidden="true">
        {limit !== null && (
          <>
            <rect x="0" width="100" y={limit.wash[0]} height={limit.wash[1]} fill="var(--past-wash)" />
            <Stroke d={`M0 ${limit.y}H100`} colour="var(--past)" width={1.5} />
          </>
        )}
        <Stroke d={drawing.repairs} colour="var(--ink-3)" width={1} />
        <Stroke d={drawing.assumedRepairs} colour="var(--ink-3)" width={1} dashed />
        <use href={`#${coursesId}`} />
        <Stroke d={drawing.course} colour={colour} width={2} />
        <Stroke d={drawing.dots} colour={colour} width={5} cap={cap} />
        <Stroke d={drawing.doubtfulDots} colour={colour} width={6} cap={cap} />
        <Stroke d={drawing.doubtfulDots} colour="var(--surface)" width={3.5} cap={cap} />
      </svg>
      {departure !== null && (
        <span className="course-departure" style={{ left: `${departure.x}%`, top: `${departure.y}%` }} />
      )}
    </span>
  );
}

function Stroke(props: {
  readonly d: string;
  readonly colour: string;
  readonly width: number;
  readonly dashed?: boolean;
  readonly cap?: "round" | "square";
}) {
  if (props.d === "") return null;
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

/** From the first reading to just after today, and over all levels of the large chart. */
function plane({ today, x, y }: TrendSeries) {
  const span = today - x.domain[0];
  return { x: scale([x.domain[0], today + span * 0.03], [0, 100]), y: scale(y.domain, [100, 0]) };
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
