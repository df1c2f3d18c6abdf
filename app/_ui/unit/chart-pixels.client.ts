"use client";

import { usePlotArea, useXAxisScale, useYAxisScale } from "recharts";

export interface ChartPixels {
  readonly xPx: (x: number) => number;
  readonly yPx: (y: number) => number;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly foot: number;
}

/** Turns values into pixels; null until the chart has been measured, when the scales still give nothing. */
export function useChartPixels(): ChartPixels | null {
  const x = useXAxisScale();
  const y = useYAxisScale();
  const box = usePlotArea();
  if (x === undefined || y === undefined || box === undefined || box.width <= 0 || box.height <= 0) return null;
  const xPx = (value: number) => x(value) ?? Number.NaN;
  const yPx = (value: number) => y(value) ?? Number.NaN;
  return { xPx, yPx, left: box.x, right: box.x + box.width, top: box.y, foot: box.y + box.height };
}
