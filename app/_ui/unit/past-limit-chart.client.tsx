"use client";

import { CartesianGrid, Line, LineChart, XAxis, YAxis, ZIndexLayer } from "recharts";
import { useChartPixels } from "./chart-pixels.client.ts";
import { mergeLineLabels } from "./line-labels.ts";

export interface PastLimitRow {
  readonly day: number;
  readonly topEndPercent: number;
  readonly bottomEndPercent: number;
}

/** Chance of being past a limit by month, a line a class of repair; drawn from rows that the server prepared. */
export function PastLimitChart(props: {
  readonly rows: readonly PastLimitRow[];
  readonly ticks: readonly { readonly day: number; readonly label: string }[];
  readonly label: string;
}) {
  const { rows, ticks } = props;
  const text = { fill: "var(--ink-2)", fontSize: 12 } as const;
  const still = { isAnimationActive: false, dot: false, activeDot: false, strokeWidth: 2 } as const;
  return (
    <figure className="unit-past-limit" role="img" aria-label={props.label}>
      <LineChart
        responsive
        style={{ width: "100%", height: "100%" }}
        data={[...rows]}
        margin={{ top: 22, right: 24, bottom: 0, left: 0 }}
        accessibilityLayer={false}
      >
        <CartesianGrid vertical={false} stroke="var(--grid)" horizontalValues={[25, 50, 75, 100]} />
        <XAxis
          dataKey="day"
          type="number"
          domain={[rows[0]?.day ?? 0, rows.at(-1)?.day ?? 1]}
          ticks={ticks.map((t) => t.day)}
          interval="preserveStart"
          minTickGap={16}
          axisLine={{ stroke: "var(--ink-3)" }}
          tickLine={false}
          tickMargin={8}
          tick={text}
          tickFormatter={(day: number) => ticks.find((t) => t.day === day)?.label ?? ""}
        />
        <YAxis
          type="number"
          width={50}
          domain={[0, 100]}
          ticks={[0, 25, 50, 75, 100]}
          axisLine={false}
          tickLine={false}
          tick={text}
          tickFormatter={(percent: number) => `${percent} %`}
        />
        <Line {...still} dataKey="bottomEndPercent" type="linear" stroke="var(--bottom)" />
        <Line {...still} dataKey="topEndPercent" type="linear" stroke="var(--top)" strokeDasharray="none" />
        <ClassLabels rows={rows} />
      </LineChart>
    </figure>
  );
}

/** Names above the late ends of the lines, where a rising line runs clear below them; one name for two that meet. */
function ClassLabels({ rows }: { readonly rows: readonly PastLimitRow[] }) {
  const at = useChartPixels();
  const last = rows.at(-1);
  if (at === null || last === undefined) return null;
  const ends = [last.topEndPercent, last.bottomEndPercent].map((p, i) => ({ cylinder: i, y: at.yPx(p) }));
  const names = ["top-end", "bottom-end"];
  return (
    <ZIndexLayer zIndex={650}>
      {mergeLineLabels(ends, 20).map((label) => (
        <text
          key={label.cylinders.join()}
          x={at.right}
          y={Math.min(...label.cylinders.map((i) => ends[i]?.y ?? label.y)) - 8}
          textAnchor="end"
          fill="var(--ink)"
          fontSize={12}
          fontWeight={600}
          paintOrder="stroke"
          stroke="var(--surface)"
          strokeWidth={3}
        >
          {label.cylinders.map((i) => names[i]).join(", ")}
        </text>
      ))}
    </ZIndexLayer>
  );
}
