"use client";

import { useId } from "react";
import { ZIndexLayer } from "recharts";
import { useChartPixels } from "./chart-pixels.client.ts";
import { isInView, levels } from "./trend-mark-parts.ts";
import type { TrendSeries } from "./trend-series.ts";

/** The crossing's window on the meter axis, tied to the limit by dotted threads; a block at today when it is crossed. */
export function CrossingMark({
  trend,
  windowClass,
}: { readonly trend: TrendSeries } & { readonly windowClass: "top" | "bottom" }) {
  const at = useChartPixels();
  const fadeId = useId();
  const { crossing } = trend;
  if (at === null || crossing === null) return null;
  const { xPx, yPx, foot, left, right } = at;
  const level = yPx(crossing.limit);
  if (crossing.status === "crossed") {
    return isInView(trend, trend.today) ? (
      <ZIndexLayer zIndex={levels.marks}>
        <path
          d="M3 .5H11V5H3ZM3 9H11V13.5H3ZM0 6.1H14V7.9H0Z"
          transform={`translate(${xPx(trend.today) - 7} ${foot - 7})`}
          fill="var(--past)"
          stroke="var(--surface)"
          strokeWidth={3}
          paintOrder="stroke"
        />
      </ZIndexLayer>
    ) : null;
  }
  if (crossing.status !== "projected" || crossing.p10 === null) return null;
  const { p10, p50, p90 } = crossing;
  const [from] = trend.x.domain;
  // What lies before the view has left it; an edge that does is not drawn.
  if (p90 !== null && p90 <= from) return null;
  const [early, late] = [Math.max(left, xPx(p10)), p90 === null ? right : xPx(p90)];
  const [edge, fill] = [`var(--${windowClass})`, `var(--${windowClass}-fill)`];
  return (
    <ZIndexLayer zIndex={levels.marks}>
      {[p10, p90].map(
        (p) =>
          p !== null &&
          p >= from && (
            <line key={p} x1={xPx(p)} x2={xPx(p)} y1={level} y2={foot} stroke="var(--ink-3)" strokeDasharray="1 3" />
          ),
      )}
      {p90 === null ? (
        <>
          <linearGradient id={fadeId}>
            <stop offset="0.4" stopColor={fill} />
            <stop offset="1" stopColor={fill} stopOpacity={0} />
          </linearGradient>
          <rect x={early} width={Math.max(0, late - early)} y={foot - 4} height={8} fill={`url(#${fadeId})`} />
          {p10 >= from && <line x1={early} x2={early} y1={foot - 4} y2={foot + 4} stroke={edge} />}
          <path d={`M${right - 5} ${foot - 4}l4 4l-4 4`} fill="none" stroke={edge} strokeWidth={1.5} />
        </>
      ) : (
        <rect x={early} width={Math.max(2, late - early)} y={foot - 4} height={8} fill={fill} stroke={edge} />
      )}
      {p50 !== null && p50 >= from && (
        <>
          <line x1={xPx(p50)} x2={xPx(p50)} y1={level} y2={foot} stroke="var(--ink)" strokeWidth={1} />
          <circle cx={xPx(p50)} cy={level} r={4} fill="none" stroke="var(--past)" strokeWidth={1.5} />
          <rect x={xPx(p50) - 2.6} width={5.2} y={foot - 8} height={16} fill="var(--surface)" />
          <rect x={xPx(p50) - 1.3} width={2.6} y={foot - 8} height={16} fill="var(--ink)" />
        </>
      )}
    </ZIndexLayer>
  );
}
