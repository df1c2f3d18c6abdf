"use client";

import { useMediaQuery } from "@mantine/hooks";
import { Area, CartesianGrid, ComposedChart, ErrorBar, Line, XAxis, YAxis } from "recharts";
import { useFormats } from "../formats.client.tsx";
import { CrossingMark } from "./trend-crossing.client.tsx";
import { DepartureMarks } from "./trend-departures.client.tsx";
import { DoubtNotes } from "./trend-doubts.client.tsx";
import { EndLabels, Limits, Today, WetMarks } from "./trend-marks.client.tsx";
import { fanKeys } from "./trend-parts.ts";
import { TrendPoint } from "./trend-point.client.tsx";
import { RepairLines } from "./trend-repairs.client.tsx";
import type { TrendSeries } from "./trend-series.ts";

/** Draws a prepared trend; the figure's label and the table of tests say the same in words. */
export function TrendChart(props: {
  readonly trend: TrendSeries;
  /** Class of repair that the chosen cylinder's crossing calls for: it colours the window. */
  readonly windowClass: "top" | "bottom";
}) {
  const { trend } = props;
  const f = useFormats();
  const narrow = useMediaQuery("(width < 600px)") ?? false;
  const chosen = trend.lines.find((l) => l.chosen) ?? trend.doubtful.find((l) => l.chosen);
  const colour = chosen?.colour ?? "var(--ink)";
  const still = { isAnimationActive: false, activeDot: false, legendType: "none" } as const;
  const xTicks = narrow ? trend.x.ticks.filter((_, i) => i % 2 === 0) : trend.x.ticks;
  // On a small screen no label may reach over the right edge, and half of many will do.
  const [from, to] = trend.x.domain;
  const dateTicks = narrow
    ? trend.dates.filter((d, i, all) => d.x < to - (to - from) * 0.08 && (all.length < 5 || i % 2 === 0))
    : trend.dates;
  const text = { fill: "var(--ink-2)", fontSize: 12 } as const;
  return (
    <ComposedChart
      responsive
      style={{ width: "100%", height: "100%" }}
      data={[...trend.rows]}
      margin={{ top: 4, right: narrow ? 10 : 76, bottom: 4, left: 0 }}
      accessibilityLayer={false}
    >
      <CartesianGrid vertical={false} stroke="var(--grid)" horizontalValues={[...trend.y.ticks]} />
      <XAxis
        dataKey="x"
        type="number"
        domain={[...trend.x.domain]}
        ticks={xTicks}
        interval={0}
        allowDataOverflow
        axisLine={{ stroke: "var(--ink-3)" }}
        tickLine={false}
        tickMargin={8}
        tick={text}
        tickFormatter={(x: number) => f.number(x * f.meterFactor(trend.meterUnit), trend.x.digits)}
      />
      <XAxis
        xAxisId="dates"
        orientation="top"
        dataKey="x"
        type="number"
        domain={[...trend.x.domain]}
        ticks={dateTicks.map((d) => d.x)}
        interval={0}
        allowDataOverflow
        height={26}
        axisLine={{ stroke: "var(--grid)" }}
        tickLine={{ stroke: "var(--rule-strong)" }}
        tick={text}
        tickFormatter={(x: number) => {
          const at = trend.dates.find((d) => d.x === x);
          return at === undefined ? "" : at.by === "day" ? f.date(at.date) : f.month(at.date);
        }}
      />
      <YAxis
        type="number"
        width={46}
        domain={[...trend.y.domain]}
        ticks={[...trend.y.ticks]}
        interval={0}
        allowDataOverflow
        axisLine={false}
        tickLine={false}
        tick={text}
        tickFormatter={(y: number) => f.levelFigure(y, trend.unit)}
      />
      <Limits trend={trend} labelled={!narrow} />
      {trend.hasFan && (
        <>
          <Area {...still} dataKey={fanKeys.eighty} connectNulls stroke="none" fill={colour} fillOpacity={0.15} />
          <Area {...still} dataKey={fanKeys.fifty} connectNulls stroke="none" fill={colour} fillOpacity={0.22} />
          <Line
            {...still}
            dataKey={fanKeys.likely}
            connectNulls
            dot={false}
            stroke={colour}
            strokeWidth={2}
            strokeDasharray="6 4"
          />
        </>
      )}
      {trend.lines.map((run) => (
        <Line
          key={run.key}
          {...still}
          dataKey={run.key}
          type="linear"
          connectNulls
          stroke={run.colour}
          strokeWidth={run.chosen ? 2.75 : trend.isCrowded ? 1 : 1.25}
          dot={
            run.chosen || !trend.isCrowded
              ? (dot) => <TrendPoint {...pointProps(dot)} key={dot.key} run={run} hollow={false} />
              : false
          }
        >
          {run.chosen && trend.hasWhiskers && (
            <ErrorBar
              dataKey={fanKeys.whisker}
              width={0}
              stroke={run.colour}
              strokeWidth={1.25}
              isAnimationActive={false}
            />
          )}
        </Line>
      ))}
      {trend.doubtful.map((run) => (
        <Line
          key={run.key}
          {...still}
          dataKey={run.key}
          stroke="none"
          dot={(dot) => <TrendPoint {...pointProps(dot)} key={dot.key} run={run} hollow />}
        />
      ))}
      <RepairLines trend={trend} labelled={!narrow} />
      <Today trend={trend} />
      <CrossingMark trend={trend} windowClass={props.windowClass} />
      <WetMarks trend={trend} colour={colour} />
      <DepartureMarks trend={trend} labelled={!narrow} />
      <DoubtNotes trend={trend} labelled={!narrow} />
      <EndLabels trend={trend} />
    </ComposedChart>
  );
}

/** What a dot needs of all that the chart hands it; a row without this key has no value and draws nothing. */
function pointProps(dot: { cx?: number; cy?: number; value?: unknown }) {
  const { cx, cy, value } = dot;
  return { cx, cy, isRead: typeof value === "number" };
}
