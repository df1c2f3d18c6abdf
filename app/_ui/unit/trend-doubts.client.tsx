"use client";

import { ZIndexLayer } from "recharts";
import { useFormats } from "../formats.client.tsx";
import { type ChartPixels, useChartPixels } from "./chart-pixels.client.ts";
import { halo, levels, type Part } from "./trend-mark-parts.ts";
import type { DoubtNote } from "./trend-series.ts";
import { wrapWords } from "./wrap-words.ts";

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

/** Why tests are doubted, in words beside them, as far as they do not run into each other. */
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
