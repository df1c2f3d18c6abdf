import type { CylinderSeries, MeasureChart } from "@/lib/schema/report.ts";
import type { Domain } from "./axis.ts";
import { cylinderColour } from "./standing.ts";
import { isDoubtful, onLevelAxis } from "./trend-parts.ts";
import type { TrendSeries } from "./trend-series.ts";

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

export function SmallCourse(props: {
  readonly chart: MeasureChart;
  readonly cylinder: number;
  readonly limit: number | null;
  readonly trend: TrendSeries;
  readonly square: boolean;
}) {
  const { chart, cylinder, limit, trend, square } = props;
  const { x, y } = plane(trend);
  const own = chart.cylinders.find((c) => c.cylinder === cylinder);
  const colour = cylinderColour(cylinder);
  const cap = square ? "square" : "round";
  const isLeak = chart.measure === "leak-down";
  const dots = (doubtful: boolean) =>
    (own?.points ?? [])
      .filter((p) => isDoubtful(p) === doubtful)
      .map((p) => `M${x(p.x)} ${y(doubtful ? onLevelAxis(trend.y.domain, p.value) : p.value)}h0`)
      .join("");
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
          <Stroke
            key={`${r.x} ${r.letter} ${r.words}`}
            d={`M${x(r.x)} 0V100`}
            colour="var(--ink-3)"
            width={1}
            dashed={r.assumed}
          />
        ))}
      <use href={`#${coursesId}`} />
      {own !== undefined && <Stroke d={coursePath(own, x, y)} colour={colour} width={2} />}
      <Stroke d={dots(false)} colour={colour} width={5} cap={cap} />
      <Stroke d={dots(true)} colour={colour} width={6} cap={cap} />
      <Stroke d={dots(true)} colour="var(--surface)" width={3.5} cap={cap} />
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
