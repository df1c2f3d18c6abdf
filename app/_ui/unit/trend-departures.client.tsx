"use client";

import { ZIndexLayer } from "recharts";
import { useChartPixels } from "./chart-pixels.client.ts";
import { departureShape, halo, levels, type Part } from "./trend-mark-parts.ts";

/** Pixels from the middle to a corner, and what a letter of the words takes. */
const reach = { chosen: 10, other: 7 };
const wordPx = 90;

/** A diamond round the reading at which a cylinder left its family, with its word at the chosen cylinder's. */
export function DepartureMarks({ trend, labelled }: Part & { readonly labelled: boolean }) {
  const at = useChartPixels();
  if (at === null) return null;
  return (
    <ZIndexLayer zIndex={levels.marks}>
      {trend.departures.map(({ cylinder, x, value }) => {
        const chosen = cylinder === trend.cylinder;
        const [px, py] = [at.xPx(x), at.yPx(value)];
        const isLeft = px - at.left > wordPx + reach.chosen;
        return (
          <g key={cylinder}>
            <path
              d={departureShape(chosen ? reach.chosen : reach.other)}
              transform={`translate(${px} ${py})`}
              fill="none"
              stroke="var(--surface)"
              strokeWidth={4}
            />
            <path
              d={departureShape(chosen ? reach.chosen : reach.other)}
              transform={`translate(${px} ${py})`}
              fill="none"
              stroke="var(--ink)"
              strokeWidth={1.75}
            />
            {chosen && labelled && (
              <text
                x={isLeft ? px - reach.chosen - 4 : px + reach.chosen + 4}
                // Away from the line, which comes from the better side.
                y={trend.measure === "leak-down" ? py - 4 : py + 12}
                textAnchor={isLeft ? "end" : "start"}
                fill="var(--ink)"
                fontSize={12}
                {...halo}
              >
                early warning
              </text>
            )}
          </g>
        );
      })}
    </ZIndexLayer>
  );
}
