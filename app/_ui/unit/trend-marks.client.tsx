"use client";

import { useId } from "react";
import { ZIndexLayer } from "recharts";
import { formatLevel, formatNumber, formatShortDate } from "../formats.ts";
import { useChartPixels } from "./chart-pixels.client.ts";
import { lineLabelWords, mergeLineLabels, spreadLabels } from "./line-labels.ts";
import type { LimitLine, RepairLine, TrendSeries } from "./trend-series.ts";
import { wrapWords } from "./wrap-words.ts";

/** What the trend chart draws beside its lines. Each asks the chart for pixels and draws nothing before it has them. */

interface Part {
  readonly trend: TrendSeries;
}

const halo = { paintOrder: "stroke", stroke: "var(--surface)", strokeWidth: 3, strokeLinejoin: "round" } as const;
const levels = { behind: 150, marks: 620, labels: 650 } as const;

const limitLooks = {
  limit: { colour: "var(--past)", width: 2, dash: "none", words: "limit" },
  plan: { colour: "var(--plan)", width: 1.5, dash: "7 4", words: "plan" },
  watch: { colour: "var(--watch)", width: 1.5, dash: "2 3", words: "watch" },
  "usual-limit": { colour: "var(--past)", width: 1, dash: "none", words: "limit, rings" },
} as const satisfies Record<LimitLine["kind"], object>;

export function Limits({ trend, labelled }: Part & { readonly labelled: boolean }) {
  const at = useChartPixels();
  if (at === null) return null;
  const { left, right, yPx } = at;
  const wordsAt = spreadLabels(
    trend.limits.map((l) => yPx(l.value)),
    14,
    at.foot,
  );
  return (
    <ZIndexLayer zIndex={levels.behind}>
      {trend.wash !== null && (
        <rect
          x={left}
          width={right - left}
          y={yPx(trend.wash[1])}
          height={yPx(trend.wash[0]) - yPx(trend.wash[1])}
          fill="var(--past-wash)"
        />
      )}
      {trend.limits.map(({ kind, value }, i) => {
        const look = limitLooks[kind];
        return (
          <g key={kind}>
            <line
              x1={left}
              x2={right}
              y1={yPx(value)}
              y2={yPx(value)}
              stroke={look.colour}
              strokeWidth={look.width}
              strokeDasharray={look.dash}
            />
            {labelled && (
              <text x={right + 5} y={(wordsAt[i] ?? 0) + 4} fill={look.colour} fontSize={12} fontWeight={600}>
                {look.words} {formatNumber(value)}
              </text>
            )}
          </g>
        );
      })}
    </ZIndexLayer>
  );
}

export function Today({ trend }: Part) {
  const at = useChartPixels();
  if (at === null) return null;
  const x = at.xPx(trend.today);
  return (
    <ZIndexLayer zIndex={levels.marks}>
      <line x1={x} x2={x} y1={at.top} y2={at.foot} stroke="var(--ink)" strokeWidth={1.5} />
      <text x={x - 6} y={at.top + 13} textAnchor="end" fill="var(--ink)" fontSize={12} fontWeight={600} {...halo}>
        today
      </text>
    </ZIndexLayer>
  );
}

const characterPx = 6.2;

export function RepairLines({ trend, labelled }: Part & { readonly labelled: boolean }) {
  const at = useChartPixels();
  if (at === null) return null;
  const lines = [...trend.repairs].sort((a, b) => a.x - b.x);
  return (
    <ZIndexLayer zIndex={levels.marks}>
      {lines.map((repair, i) => {
        const x = at.xPx(repair.x);
        const room = at.xPx(lines[i + 1]?.x ?? trend.today) - x - 14 - (lines[i + 1] === undefined ? 40 : 12);
        const words = repairLabel(repair);
        return (
          <g key={`${repair.x} ${repair.letter} ${repair.date}`}>
            <title>{repair.words}</title>
            <line
              x1={x}
              x2={x}
              y1={at.top}
              y2={at.foot}
              stroke="var(--ink)"
              strokeWidth={1}
              strokeDasharray={repair.assumed ? "4 4" : "none"}
            />
            <rect
              x={x - 8}
              y={at.top}
              width={16}
              height={16}
              fill={repair.assumed ? "var(--surface)" : "var(--ink)"}
              stroke="var(--ink)"
              strokeDasharray={repair.assumed ? "3 2" : "none"}
            />
            <text
              x={x}
              y={at.top + 12}
              textAnchor="middle"
              fill={repair.assumed ? "var(--ink)" : "var(--surface)"}
              fontSize={12}
              fontWeight={650}
            >
              {repair.letter}
            </text>
            {labelled && room >= words.length * characterPx && (
              <text x={x + 13} y={at.top + 12} fill="var(--ink)" fontSize={12} {...halo}>
                {words}
              </text>
            )}
          </g>
        );
      })}
    </ZIndexLayer>
  );
}

const repairNames = {
  T: "top-end",
  B: "bottom-end",
  C: "complete repair",
  S: "engine swap",
  A: "adjustment",
  "?": "assumed repair",
} as const satisfies Record<RepairLine["letter"], string>;

const repairLabel = (repair: RepairLine) => `${repairNames[repair.letter]}, ${formatShortDate(repair.date, "")}`;

export function DoubtNotes({ trend, labelled }: Part & { readonly labelled: boolean }) {
  const at = useChartPixels();
  if (at === null || !labelled) return null;
  const above = trend.measure === "leak-down";
  const lineHeight = 14;
  const written: { x: number; y: number }[] = [];
  return (
    <ZIndexLayer zIndex={levels.labels}>
      {trend.doubts.map((doubt) => {
        const off = doubt.offAxis.map((o) => `cyl ${o.cylinder}: ${formatLevel(o.value, trend.unit)}`).join(", ");
        const lines = [...(off === "" ? [] : [off]), ...wrapWords(doubt.words, 24, 3)];
        const reach = 56;
        const x = Math.min(Math.max(at.xPx(doubt.x), at.left + reach), at.right - reach);
        const wanted = above ? at.yPx(doubt.value) - 10 - (lines.length - 1) * lineHeight : at.yPx(doubt.value) + 20;
        // Words of a point on the axis's edge turn inwards, clear of the boxed letters at the top.
        const y =
          above && wanted < at.top + 30
            ? at.yPx(doubt.value) + 34
            : Math.min(wanted, at.foot - lines.length * lineHeight);
        // Words that would run into others are left to the key.
        if (written.some((w) => Math.abs(w.x - x) < 2 * reach && Math.abs(w.y - y) < 4 * lineHeight)) return null;
        written.push({ x, y });
        return (
          <text key={`${doubt.x} ${doubt.words}`} y={y} textAnchor="middle" fill="var(--ink-2)" fontSize={12} {...halo}>
            {lines.map((line, i) => (
              <tspan key={line} x={x} dy={i === 0 ? 0 : lineHeight}>
                {line}
              </tspan>
            ))}
          </text>
        );
      })}
    </ZIndexLayer>
  );
}

export function EndLabels({ trend }: Part) {
  const at = useChartPixels();
  if (at === null) return null;
  const x = at.xPx(trend.today);
  const inside = (y: number) => Math.min(at.foot - 6, Math.max(at.top + 8, y));
  const others = mergeLineLabels(
    trend.ends.filter((e) => !e.chosen).map((e) => ({ cylinder: e.cylinder, y: inside(at.yPx(e.value)) })),
    15,
  );
  const chosen = trend.ends.find((e) => e.chosen);
  return (
    <ZIndexLayer zIndex={levels.labels}>
      {others.map((label) => (
        <text key={label.cylinders.join()} x={x + 7} y={label.y + 4} fill="var(--ink)" fontSize={12} {...halo}>
          {lineLabelWords(label.cylinders)}
        </text>
      ))}
      {chosen !== undefined && (
        <text
          x={x - 9}
          y={inside(at.yPx(chosen.value) + (trend.measure === "leak-down" ? -12 : 18)) + 4}
          textAnchor="end"
          fill="var(--ink)"
          fontSize={12}
          fontWeight={650}
          {...halo}
        >
          {lineLabelWords([chosen.cylinder])}
        </text>
      )}
    </ZIndexLayer>
  );
}

/** The crossing's window on the meter axis, tied to the limit by dotted threads; a block at today when it is crossed. */
export function CrossingMark({ trend, windowClass }: Part & { readonly windowClass: "top" | "bottom" }) {
  const at = useChartPixels();
  const fadeId = useId();
  const { crossing } = trend;
  if (at === null || crossing === null) return null;
  const { xPx, yPx, foot, right } = at;
  const level = yPx(crossing.limit);
  if (crossing.status === "crossed") {
    return (
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
    );
  }
  if (crossing.status !== "projected" || crossing.p10 === null) return null;
  const { p10, p50, p90 } = crossing;
  const [early, late] = [xPx(p10), p90 === null ? right : xPx(p90)];
  const [edge, fill] = [`var(--${windowClass})`, `var(--${windowClass}-fill)`];
  return (
    <ZIndexLayer zIndex={levels.marks}>
      {[p10, p90].map(
        (p) =>
          p !== null && (
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
          <line x1={early} x2={early} y1={foot - 4} y2={foot + 4} stroke={edge} />
          <path d={`M${right - 5} ${foot - 4}l4 4l-4 4`} fill="none" stroke={edge} strokeWidth={1.5} />
        </>
      ) : (
        <rect x={early} width={Math.max(2, late - early)} y={foot - 4} height={8} fill={fill} stroke={edge} />
      )}
      {p50 !== null && (
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
