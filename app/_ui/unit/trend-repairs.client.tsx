"use client";

import { ZIndexLayer } from "recharts";
import { useFormats } from "../formats.client.tsx";
import { useChartPixels } from "./chart-pixels.client.ts";
import { halo, levels, type Part } from "./trend-mark-parts.ts";
import type { RepairLine } from "./trend-series.ts";

const characterPx = 6.2;

/** Repairs and engine changes as lettered lines, named where there is room. */
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
