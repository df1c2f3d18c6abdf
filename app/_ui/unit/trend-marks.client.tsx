"use client";

import { ZIndexLayer } from "recharts";
import { useFormats } from "../formats.client.tsx";
import { type ChartPixels, useChartPixels } from "./chart-pixels.client.ts";
import { lineLabelWords, mergeLineLabels, spreadLabels } from "./line-labels.ts";
import type { LimitLine } from "./trend-parts.ts";
import type { DoubtNote, RepairLine, TrendSeries } from "./trend-series.ts";
import { wrapWords } from "./wrap-words.ts";

/** What the trend chart draws beside its lines. Each asks the chart for pixels and draws nothing before it has them. */

interface Part {
  readonly trend: TrendSeries;
}

export const isInView = ({ x: { domain } }: TrendSeries, x: number): boolean => x >= domain[0] && x <= domain[1];

const halo = { paintOrder: "stroke", stroke: "var(--surface)", strokeWidth: 3, strokeLinejoin: "round" } as const;
export const levels = { behind: 150, marks: 620, labels: 650 } as const;

const limitLooks = {
  limit: { colour: "var(--past)", width: 2, dash: "none", words: "limit" },
  plan: { colour: "var(--plan)", width: 1.5, dash: "7 4", words: "plan" },
  watch: { colour: "var(--watch)", width: 1.5, dash: "2 3", words: "watch" },
  "usual-limit": { colour: "var(--past)", width: 1, dash: "none", words: "limit, rings" },
} as const satisfies Record<LimitLine["kind"], object>;

export function Limits({ trend, labelled }: Part & { readonly labelled: boolean }) {
  const f = useFormats();
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
                {look.words} {f.levelFigure(value, trend.unit)}
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
  if (at === null || !isInView(trend, trend.today)) return null;
  const x = at.xPx(trend.today);
  // At the left edge of the view the word has room on the other side alone.
  const isLeft = x - at.left < 44;
  return (
    <ZIndexLayer zIndex={levels.marks}>
      <line x1={x} x2={x} y1={at.top} y2={at.foot} stroke="var(--ink)" strokeWidth={1.5} />
      <text
        x={isLeft ? x + 6 : x - 6}
        y={at.top + 13}
        textAnchor={isLeft ? "start" : "end"}
        fill="var(--ink)"
        fontSize={12}
        fontWeight={600}
        {...halo}
      >
        today
      </text>
    </ZIndexLayer>
  );
}

const characterPx = 6.2;

export function RepairLines({ trend, labelled }: Part & { readonly labelled: boolean }) {
  const f = useFormats();
  const at = useChartPixels();
  if (at === null) return null;
  const lines = [...trend.repairs].sort((a, b) => a.x - b.x);
  return (
    <ZIndexLayer zIndex={levels.marks}>
      {lines.map((repair, i) => {
        const x = at.xPx(repair.x);
        const next = lines[i + 1]?.x;
        const end = trend.today > repair.x ? Math.min(trend.today, trend.x.domain[1]) : trend.x.domain[1];
        const room = at.xPx(next ?? end) - x - 14 - (next === undefined ? 40 : 12);
        const words = `${repairNames[repair.letter]}, ${f.shortDate(repair.date, "")}`;
        const width = words.length * characterPx;
        // Else to the left, clear of what the mark before it may have written to its right.
        const before = lines[i - 1]?.x;
        const isLeft = x - 13 - width > (before === undefined ? at.left : at.xPx(before) + 13 + width);
        return (
          <g key={`${repair.x} ${repair.date} ${repair.words}`}>
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
            {labelled && (room >= width || isLeft) && (
              <text
                x={room >= width ? x + 13 : x - 13}
                y={at.top + 12}
                textAnchor={room >= width ? "start" : "end"}
                fill="var(--ink)"
                fontSize={12}
                {...halo}
              >
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

/** Baseline of the first line: on the outer side of the readings, on their inner side where that has no room. */
function wordsY(
  at: ChartPixels,
  { value, farthest }: DoubtNote,
  { above, height }: { readonly above: boolean; readonly height: number },
): number {
  const over = (of: number) => at.yPx(of) - height + 4;
  const under = (of: number) => at.yPx(of) + 20;
  // The boxed letters of repairs stand along the top.
  if (above) return over(value) < at.top + 30 ? under(farthest) + 14 : over(value);
  return under(value) + height > at.foot + 10 ? over(farthest) : under(value);
}

export function DoubtNotes({ trend, labelled }: Part & { readonly labelled: boolean }) {
  const f = useFormats();
  const at = useChartPixels();
  if (at === null || !labelled) return null;
  const above = trend.measure === "leak-down";
  const lineHeight = 14;
  const written: { x: number; y: number }[] = [];
  return (
    <ZIndexLayer zIndex={levels.labels}>
      {trend.doubts.map((doubt) => {
        const off = doubt.offAxis.map((o) => `cyl ${o.cylinder}: ${f.level(o.value, trend.unit)}`).join(", ");
        const lines = [...(off === "" ? [] : [off]), ...wrapWords(f.words(doubt.words), 24, 3)];
        const reach = 56;
        const x = Math.min(Math.max(at.xPx(doubt.x), at.left + reach), at.right - reach);
        const y = wordsY(at, doubt, { above, height: lines.length * lineHeight });
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

/** Right of today, where the lines end; at the right edge where the view ends before. */
export function EndLabels({ trend }: Part) {
  const at = useChartPixels();
  if (at === null) return null;
  const isToday = isInView(trend, trend.today);
  const x = isToday ? at.xPx(trend.today) : at.right;
  // Where today stands at the very edge there is no room beyond it.
  const isInside = !isToday || at.right - x < 40;
  const onAxis = (y: number) => Math.min(at.foot - 6, Math.max(at.top + 8, y));
  const others = mergeLineLabels(
    trend.ends.filter((e) => !e.chosen).map((e) => ({ cylinder: e.cylinder, y: onAxis(at.yPx(e.value)) })),
    15,
  );
  const chosen = trend.ends.find((e) => e.chosen);
  const chosenY =
    chosen === undefined ? 0 : onAxis(at.yPx(chosen.value) + (trend.measure === "leak-down" ? -12 : 18)) + 4;
  return (
    <ZIndexLayer zIndex={levels.labels}>
      {others.map((label) => (
        <text
          key={label.cylinders.join()}
          x={isInside ? x - 7 : x + 7}
          y={label.y + (isInside ? -4 : 4)}
          textAnchor={isInside ? "end" : "start"}
          fill="var(--ink)"
          fontSize={12}
          {...halo}
        >
          {lineLabelWords(label.cylinders)}
        </text>
      ))}
      {chosen !== undefined && (
        <text x={x - 9} y={chosenY} textAnchor="end" fill="var(--ink)" fontSize={12} fontWeight={650} {...halo}>
          {lineLabelWords([chosen.cylinder])}
        </text>
      )}
    </ZIndexLayer>
  );
}

/** Wet readings of the chosen cylinder: hollow triangles, the last one with its word. */
export function WetMarks({ trend, colour }: Part & { readonly colour: string }) {
  const at = useChartPixels();
  const last = trend.wet.at(-1);
  if (at === null || last === undefined) return null;
  return (
    <ZIndexLayer zIndex={levels.marks}>
      {trend.wet.map(({ x, value }, i) => (
        <path
          // Two wet tests may have read the same at one place.
          // biome-ignore lint/suspicious/noArrayIndexKey: they keep their order.
          key={i}
          d="M-4.5 -4H4.5L0 4.5Z"
          transform={`translate(${at.xPx(x)} ${at.yPx(value)})`}
          fill="var(--surface)"
          stroke={colour}
          strokeWidth={1.5}
        />
      ))}
      <text
        x={at.xPx(last.x)}
        y={at.yPx(last.value) - 9}
        textAnchor="middle"
        fill="var(--ink-2)"
        fontSize={12}
        {...halo}
      >
        wet
      </text>
    </ZIndexLayer>
  );
}
