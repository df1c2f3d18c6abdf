import type { TrendSeries } from "./trend-series.ts";

/** What the marks of the trend chart share. */

export interface Part {
  readonly trend: TrendSeries;
}

export const isInView = ({ x: { domain } }: TrendSeries, x: number): boolean => x >= domain[0] && x <= domain[1];

export const halo = {
  paintOrder: "stroke",
  stroke: "var(--surface)",
  strokeWidth: 5,
  strokeLinejoin: "round",
} as const;
export const levels = { behind: 150, marks: 620, labels: 650 } as const;

/** A diamond round a point, of so many pixels from its middle to a corner: no other mark of the charts has this shape. */
export const departureShape = (reach: number): string => `M0 ${-reach}L${reach} 0L0 ${reach}L${-reach} 0Z`;
