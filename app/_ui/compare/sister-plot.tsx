import type { BandPoint, CoursePoint, ModelComparison, SisterBand } from "../../../lib/schema/comparison.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { levelUnitOf } from "./compare-words.ts";
import { type CompareLine, used } from "./lines.ts";
import { endLabels, type Plot } from "./plot.ts";

/** Labels stand at least so far apart, in per cent of the plot's height. */
const labelGap = 4.4;

/**
 * The chart, drawn on the server: lines in a stretched drawing of 100 by 100, points and words laid over it in per cent, so
 * that it needs no script and fits any width. The figures below it say the same.
 */
export function SisterPlot(props: {
  readonly f: Formats;
  readonly plot: Plot;
  readonly of: ModelComparison;
  readonly band: SisterBand | null;
  readonly lines: readonly CompareLine[];
  readonly sisters: readonly (readonly CoursePoint[])[];
  readonly label: string;
}) {
  const { f, plot, of, band, lines, sisters } = props;
  const unit = levelUnitOf(of.measure);
  const path = (points: readonly (readonly [number, number])[]) =>
    points.map(([x, y]) => `${plot.left(x).toFixed(2)},${plot.top(y).toFixed(2)}`).join(" ");
  const limits = (["limit", "plan", "watch"] as const).flatMap((kind) => {
    const value = of[kind];
    const top = value === null ? -1 : plot.top(value);
    return value === null || top < 0 || top > 100 ? [] : [{ kind, value, top }];
  });
  return (
    <figure className="compare-plot" role="img" aria-label={props.label}>
      <svg width="100%" height="100%" overflow="visible" aria-hidden="true">
        {plot.yTicks.map((y) => (
          <g key={y}>
            <line x1="0" x2="100%" y1={`${plot.top(y)}%`} y2={`${plot.top(y)}%`} className="plot-grid" />
            <text x="-8" y={`${plot.top(y)}%`} dy="4" textAnchor="end" className="plot-tick">
              {f.levelFigure(y, unit)}
            </text>
          </g>
        ))}
        {plot.xTicks.map((x, i) => (
          <text
            key={x}
            x={`${plot.left(x)}%`}
            y="100%"
            dy="20"
            textAnchor="middle"
            className={i % 2 === 1 ? "plot-tick plot-tick-odd" : "plot-tick"}
          >
            {f.number(x * f.meterFactor(of.meterUnit))}
          </text>
        ))}
        <line x1="0" x2="100%" y1="100%" y2="100%" className="plot-axis" />
        <svg width="100%" height="100%" viewBox="0 0 100 100" preserveAspectRatio="none" aria-hidden="true">
          {band?.stretches.map((points) => (
            <BandArea key={points[0]?.x} points={points} path={path} />
          ))}
          {sisters.map((points) => (
            <polyline
              key={points.map(([x, y]) => `${x} ${y}`).join()}
              points={path(points.map(([x, y]) => [x, y]))}
              className="plot-sister"
            />
          ))}
        </svg>
        {limits.map(({ kind, value, top }) => (
          <g key={kind}>
            <line x1="0" x2="100%" y1={`${top}%`} y2={`${top}%`} className="plot-limit" data-limit={kind} />
            <text x="6" y={`${top}%`} dy="-5" className="plot-words plot-halo">
              {kind} {f.level(value, unit)}
            </text>
          </g>
        ))}
        <svg width="100%" height="100%" viewBox="0 0 100 100" preserveAspectRatio="none" aria-hidden="true">
          {lines.flatMap((line) =>
            line.runs.map((run) => (
              <polyline
                key={`${line.key} ${run.points[0]?.[0]}`}
                points={path(used(run.points).map(([x, y]) => [x, y]))}
                className="plot-line"
                data-compared={run.compared}
                stroke={line.colour}
              />
            )),
          )}
        </svg>
        {lines.flatMap((line) =>
          line.runs.flatMap((run) =>
            run.points.map(([x, y, weight]) => (
              <Point
                key={`${line.key} ${x} ${y}`}
                line={line}
                left={plot.left(x)}
                top={plot.top(y)}
                used={weight > 0}
                title={`${line.label}: ${f.level(y, unit)} at ${f.meter(x, of.meterUnit)}`}
              />
            )),
          ),
        )}
        {endLabels(plot, lines, labelGap).map(({ label, left, top }) => (
          <text key={label} x={`${left}%`} y={`${top}%`} dx="9" dy="4" className="plot-words plot-end plot-halo">
            {label}
          </text>
        ))}
      </svg>
    </figure>
  );
}

function BandArea(props: {
  readonly points: readonly BandPoint[];
  readonly path: (points: readonly (readonly [number, number])[]) => string;
}) {
  const { points, path } = props;
  const along = (edge: "p10" | "p50" | "p90") => points.map((p): readonly [number, number] => [p.x, p[edge]]);
  return (
    <g>
      <polygon points={path([...along("p90"), ...along("p10").toReversed()])} className="plot-band" />
      <polyline points={path(along("p10"))} className="plot-band-edge" />
      <polyline points={path(along("p90"))} className="plot-band-edge" />
      <polyline points={path(along("p50"))} className="plot-band-middle" />
    </g>
  );
}

/** Filled: used; hollow: kept, not used. */
function Point(props: {
  readonly line: CompareLine;
  readonly left: number;
  readonly top: number;
  readonly used: boolean;
  readonly title: string;
}) {
  const { line } = props;
  const look = props.used
    ? { fill: line.colour, stroke: "var(--surface)", strokeWidth: 1 }
    : { fill: "var(--surface)", stroke: line.colour, strokeWidth: 1.5 };
  return (
    <svg x={`${props.left}%`} y={`${props.top}%`} width="1" height="1" overflow="visible" aria-hidden="true">
      <title>{props.title}</title>
      {line.square ? <rect x={-4} y={-4} width={8} height={8} {...look} /> : <circle r={4.2} {...look} />}
    </svg>
  );
}
