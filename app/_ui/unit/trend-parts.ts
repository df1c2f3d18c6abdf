import type { ChartPoint, CylinderSeries } from "@/lib/schema/report.ts";
import type { Domain } from "./axis.ts";

/** One row of the chart's data: a place on the meter axis, and under each key a value or a range. */
export interface TrendRow {
  readonly x: number;
  readonly [key: string]: number | readonly [number, number];
}

export interface LimitLine {
  readonly kind: "limit" | "plan" | "watch" | "usual-limit";
  readonly value: number;
}

/** Keys of a row that belong to the chosen cylinder alone. */
export const fanKeys = { eighty: "b80", fifty: "b50", likely: "p50", whisker: "sd" } as const;

export const lineKey = (cylinder: number, life: number) => `c${cylinder}_${life}`;
export const doubtKey = (cylinder: number) => `d${cylinder}`;

/** Drawn hollow and outside the line: it counts less for a reason, or not at all. */
export function isDoubtful(point: ChartPoint): boolean {
  return point.weight === 0 || (point.doubt !== null && point.weight < 1);
}

/** A doubtful reading beyond the axis is drawn just inside its edge. */
export function onLevelAxis([low, high]: Domain, value: number): number {
  const edge = (high - low) * 0.012;
  return Math.min(high - edge, Math.max(low + edge, value));
}

/** One row a place on the axis; a second test of a cylinder at the same place gets a row of its own. */
export function pointRows(
  series: readonly CylinderSeries[],
  chosen: number,
  { xDomain, yDomain }: { readonly xDomain: Domain; readonly yDomain: Domain },
): TrendRow[] {
  const isInView = (x: number) => x >= xDomain[0] && x <= xDomain[1];
  const rows: { x: number; [key: string]: number }[] = [];
  const at = new Map<number, typeof rows>();
  for (const { cylinder, points } of series) {
    for (const point of points) {
      const doubtful = isDoubtful(point);
      const key = doubtful ? doubtKey(cylinder) : lineKey(cylinder, point.life);
      const here = at.get(point.x) ?? [];
      let row = here.find((r) => r[key] === undefined);
      if (row === undefined) {
        row = { x: point.x };
        rows.push(row);
        here.push(row);
        at.set(point.x, here);
      }
      row[key] = doubtful ? onLevelAxis(yDomain, point.value) : point.value;
      // Lines and points are clipped at the edge of the view; whiskers are not.
      if (cylinder === chosen && !doubtful && point.sd > 0 && isInView(point.x)) row[fanKeys.whisker] = point.sd;
    }
  }
  return rows;
}

/** The fan up to the end of the axis, cut there by a straight line between its two neighbours. */
export function fanRows(chosen: CylinderSeries | undefined, [, end]: Domain): TrendRow[] {
  const fan = chosen?.fan ?? [];
  const kept = fan.filter((f) => f.x <= end);
  const [last, next] = [kept.at(-1), fan[kept.length]];
  if (last !== undefined && next !== undefined && last.x < end) {
    const share = (end - last.x) / (next.x - last.x);
    const at = (q: "p10" | "p25" | "p50" | "p75" | "p90") => last[q] + share * (next[q] - last[q]);
    kept.push({ x: end, p10: at("p10"), p25: at("p25"), p50: at("p50"), p75: at("p75"), p90: at("p90") });
  }
  if (kept.length < 2) return [];
  return kept.map((f) => ({
    x: f.x,
    [fanKeys.eighty]: [f.p10, f.p90],
    [fanKeys.fifty]: [f.p25, f.p75],
    [fanKeys.likely]: f.p50,
  }));
}
