"use client";

import { ZIndexLayer } from "recharts";
import { useFormats } from "../formats.client.tsx";
import { useChartPixels } from "./chart-pixels.client.ts";
import { lineLabelWords, mergeLineLabels, spreadLabels } from "./line-labels.ts";
import { halo, isInView, levels, type Part } from "./trend-mark-parts.ts";
import type { LimitLine } from "./trend-parts.ts";

/** What the trend chart draws beside its lines. Each asks the chart for pixels and draws nothing before it has them. */

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
