import { worseSign } from "../condition/series.ts";
import type { CylinderRate, Quantiles, RateGroup, WearCourse } from "../schema/comparison.ts";
import { median, quantileSorted } from "../statistics/quantile.ts";
import { fewestSisters } from "./sister-band.ts";

/** So many single rates can be told apart in a strip. */
const mostDrawn = 60;

/** The cylinder that declines fastest; null: none has tests enough for a rate of its own. */
export function fastestOf({ measure, rates }: Pick<WearCourse, "measure" | "rates">): CylinderRate | null {
  const sign = worseSign[measure];
  return rates.toSorted((a, b) => sign * (b.perThousand - a.perThousand))[0] ?? null;
}

/** The rate of one engine and where it works. */
export interface EngineRate {
  readonly depot: string | null;
  readonly rate: number;
}

/**
 * One rate for an engine, for each 1,000 of the meter: of its fastest cylinder or the median over cylinders. null: no
 * cylinder has tests enough for one.
 */
export function engineRate(course: WearCourse, figure: "weakest" | "middle"): EngineRate | null {
  const fastest = fastestOf(course);
  if (fastest === null) return null;
  const rate = figure === "weakest" ? fastest.perThousand : median(course.rates.map(({ perThousand }) => perThousand));
  return { depot: course.depot, rate };
}

/** Rates of all engines, and of those at each depot: depots ascending, units without one last. */
export function rateGroups(rates: readonly EngineRate[]): RateGroup[] {
  if (rates.length === 0) return [];
  const depots = [...new Set(rates.map(({ depot }) => depot))].toSorted((a, b) =>
    a === null ? 1 : b === null ? -1 : a < b ? -1 : 1,
  );
  return [
    groupOf(rates.map(({ rate }) => rate)),
    ...depots.map((depot) => ({ depot, ...groupOf(rates.filter((r) => r.depot === depot).map(({ rate }) => rate)) })),
  ];
}

function groupOf(rates: readonly number[]): RateGroup {
  const sorted = rates.toSorted((a, b) => a - b);
  return {
    engines: sorted.length,
    quantiles: sorted.length < fewestSisters ? null : quantilesOf(sorted),
    rates: sorted.length > mostDrawn ? [] : sorted,
  };
}

function quantilesOf(sorted: readonly number[]): Quantiles {
  const at = (p: number) => quantileSorted(sorted, p);
  return { p10: at(0.1), p25: at(0.25), p50: at(0.5), p75: at(0.75), p90: at(0.9) };
}
