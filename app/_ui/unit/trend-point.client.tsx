"use client";

import { formatLevel, formatNumber } from "../formats.ts";
import type { TrendRun } from "./trend-series.ts";

/** One reading: round in the first bank, square in the second; filled when used, hollow when not. */
export function TrendPoint(props: {
  readonly cx: number | undefined;
  readonly cy: number | undefined;
  readonly x: number;
  readonly value: number | null;
  readonly run: TrendRun;
  readonly hollow: boolean;
  readonly unit: "kPa" | "%";
}) {
  const { cx, cy, value, run, hollow } = props;
  if (value === null || cx === undefined || cy === undefined || !Number.isFinite(cx + cy)) return null;
  const r = run.chosen ? 4.5 : 3;
  const look = hollow
    ? { fill: "var(--surface)", stroke: run.colour, strokeWidth: 1.5 }
    : { fill: run.colour, stroke: "var(--surface)", strokeWidth: 1 };
  return (
    <g>
      <title>{`cyl ${run.cylinder}: ${formatLevel(value, props.unit)} at ${formatNumber(props.x)}`}</title>
      {run.square ? (
        <rect x={cx - r} y={cy - r} width={2 * r} height={2 * r} {...look} />
      ) : (
        <circle cx={cx} cy={cy} r={r} {...look} />
      )}
    </g>
  );
}
