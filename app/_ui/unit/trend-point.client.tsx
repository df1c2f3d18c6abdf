"use client";

import type { TrendRun } from "./trend-series.ts";

/** One reading: round in the first bank, square in the second; filled when used, hollow when not. */
export function TrendPoint(props: {
  readonly cx: number | undefined;
  readonly cy: number | undefined;
  /** The chart also asks for the points of rows that this run has no reading in. */
  readonly isRead: boolean;
  readonly run: TrendRun;
  readonly hollow: boolean;
}) {
  const { cx, cy, isRead, run, hollow } = props;
  if (!isRead || cx === undefined || cy === undefined || !Number.isFinite(cx + cy)) return null;
  const r = run.chosen ? 4.5 : 3;
  const look = hollow
    ? { fill: "var(--surface)", stroke: run.colour, strokeWidth: 1.5 }
    : { fill: run.colour, stroke: "var(--surface)", strokeWidth: 1 };
  return run.square ? (
    <rect x={cx - r} y={cy - r} width={2 * r} height={2 * r} {...look} />
  ) : (
    <circle cx={cx} cy={cy} r={r} {...look} />
  );
}
