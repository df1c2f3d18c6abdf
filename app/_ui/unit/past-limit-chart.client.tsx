"use client";

import { CartesianGrid, Line, LineChart, XAxis, YAxis, ZIndexLayer } from "recharts";
import { dayNumber } from "@/lib/calendar.ts";
import type { UnitReport } from "@/lib/schema/report.ts";
import { useFormats } from "../formats.client.tsx";
import { useChartPixels } from "./chart-pixels.client.ts";
import { InBrowser } from "./in-browser.client.tsx";
import { mergeLineLabels } from "./line-labels.ts";

interface PastLimitRow {
  readonly day: number;
  readonly topEndPercent: number;
  readonly bottomEndPercent: number;
}

interface LeadMark {
  readonly day: number;
  readonly planPercent: number;
  readonly watchPercent: number;
}

/** Chance of being past a limit by month, a line a class of repair; drawn from the months that its twin shows. */
export function PastLimitChart(props: {
  readonly months: UnitReport["pastLimit"];
  readonly tickDates: readonly string[];
  /** The end of the planning lead time, and the chances of one cylinder that put it in a band by then. */
  readonly lead: LeadMark | null;
  readonly label: string;
}) {
  const { months, lead } = props;
  const rows = months.map(
    (month): PastLimitRow => ({
      day: dayNumber(month.date),
      topEndPercent: month.topEnd * 100,
      bottomEndPercent: month.bottomEnd * 100,
    }),
  );
  const f = useFormats();
  const ticks = props.tickDates.map((date) => ({ day: dayNumber(date), label: f.month(date) }));
  const text = { fill: "var(--ink-2)", fontSize: 12 } as const;
  const still = { isAnimationActive: false, dot: false, activeDot: false, strokeWidth: 2 } as const;
  return (
    <figure className="unit-past-limit" role="img" aria-label={props.label}>
      <InBrowser>
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
            tickFormatter={(percent: number) => f.percent(percent)}
          />
          {lead !== null && <Lead lead={lead} />}
          <Line {...still} dataKey="bottomEndPercent" type="linear" stroke="var(--bottom)" />
          <Line {...still} dataKey="topEndPercent" type="linear" stroke="var(--top)" />
          <ClassLabels rows={rows} />
        </LineChart>
      </InBrowser>
    </figure>
  );
}

/** The lead time's end, and up to it the chances from which a cylinder is one to plan or to watch. */
function Lead({ lead }: { readonly lead: LeadMark }) {
  const at = useChartPixels();
  if (at === null) return null;
  const x = at.xPx(lead.day);
  const chances = [
    { percent: lead.planPercent, colour: "var(--plan)", dash: "7 4", word: "plan" },
    { percent: lead.watchPercent, colour: "var(--watch)", dash: "2 3", word: "watch" },
  ];
  const [planY = 0, watchY = 0] = chances.map((c) => at.yPx(c.percent));
  // Where the two stand close their words part.
  const wordY = [Math.min(planY, watchY - 14), watchY];
  return (
    <ZIndexLayer zIndex={150}>
      <line x1={x} x2={x} y1={at.top} y2={at.foot} stroke="var(--ink)" strokeWidth={1} />
      <text x={x + 6} y={at.top - 7} textAnchor="middle" fill="var(--ink)" fontSize={12}>
        lead time
      </text>
      {chances.map(({ percent, colour, dash, word }, i) => (
        <g key={word}>
          <line
            x1={at.left}
            x2={x}
            y1={at.yPx(percent)}
            y2={at.yPx(percent)}
            stroke={colour}
            strokeWidth={1.5}
            strokeDasharray={dash}
          />
          <text x={x + 5} y={(wordY[i] ?? 0) + 4} fill={colour} fontSize={12} fontWeight={600} {...halo}>
            {word}
          </text>
        </g>
      ))}
    </ZIndexLayer>
  );
}

const halo = { paintOrder: "stroke", stroke: "var(--surface)", strokeWidth: 3 } as const;

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
          {...halo}
        >
          {label.cylinders.map((i) => names[i]).join(", ")}
        </text>
      ))}
    </ZIndexLayer>
  );
}
