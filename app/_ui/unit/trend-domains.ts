import { addMonths } from "@/lib/calendar.ts";
import type { CylinderSeries, MeasureChart } from "@/lib/schema/report.ts";
import { type Domain, roundStep, xAtDate } from "./axis.ts";
import type { Extent } from "./axis-view.ts";
import { isDoubtful, type LimitLine } from "./trend-parts.ts";
import type { TrendSource } from "./trend-source.ts";

/** What of the meter axis is shown at first, and how far one may look beyond: all that is known, and to the horizon. */
export function meterExtent(source: TrendSource): Extent {
  const { chart, choice, repairs, datesOnAxis, xNow } = source;
  const chosen = chart.cylinders.find((c) => c.cylinder === choice.cylinder);
  const whole = wholeDomain(source, chosen);
  const known = [...chart.cylinders.flatMap((c) => c.points.map((p) => p.x)), ...repairs.map((r) => r.x)];
  const first = Math.min(whole[0], ...known);
  const last = Math.max(whole[1], chosen?.fan.at(-1)?.x ?? xNow, datesOnAxis.at(-1)?.x ?? xNow);
  const margin = (last - first) * 0.01;
  return { whole, reach: [first < whole[0] ? first - margin : whole[0], last] };
}

/** From the first reading to clear beyond the crossing, but never so far that the readings shrink to a corner. */
function wholeDomain(source: TrendSource, chosen: CylinderSeries | undefined): Domain {
  const { xNow: now, chart, repairs, datesOnAxis, asOf } = source;
  const tested = Math.min(now, ...chart.cylinders.flatMap((c) => c.points.map((p) => p.x)));
  // A repair or a swap shortly before the first test tells where the line comes from; one long before would squeeze it.
  const told = repairs.filter((r) => r.x < tested && tested - r.x <= 0.5 * (now - tested)).map((r) => r.x);
  const first = Math.min(tested, ...told);
  const inAYear = xAtDate(datesOnAxis, addMonths(asOf, 12)) ?? now;
  const year = Math.max(inAYear - now, now * 0.001, 1);
  const past = Math.max(now - first, year / 4);
  const crossing = chosen?.crossing?.status === "projected" ? chosen.crossingX : null;
  const farthest = crossing?.p90 ?? crossing?.p50 ?? crossing?.p10 ?? null;
  const fanEnd = chosen?.fan.at(-1)?.x ?? now;
  const wanted =
    farthest === null
      ? Math.min(fanEnd - now, Math.max(past * 0.35, year))
      : (farthest - now) * (crossing?.p90 === null ? 1.5 : 1) + past * 0.1;
  const ahead = Math.min(Math.max(wanted, past * 0.15), Math.max(past * 1.5, year * 1.5));
  return [now - past * 1.04, now + ahead];
}

/**
 * Leakage from 0 to clear above the limits and the readings used; compression from below its minimum. A doubtful
 * reading far off does not flatten the rest: its point stays on the edge. `shown` is what a figure is multiplied by to
 * be shown; the ends are round in what is shown.
 */
export function levelDomain(
  { chart, wet }: Pick<TrendSource, "chart" | "wet">,
  limits: readonly LimitLine[],
  shown: number,
): Domain {
  const { used, all } = valuesOf(chart);
  const seen = [...(used.length > 0 ? used : all), ...wet.map((w) => w.value)];
  const lines = limits.map((l) => l.value);
  if (chart.measure === "leak-down") {
    const reach = Math.max(Math.max(0, ...lines) * 1.28, ...seen.map((v) => v * 1.1), 10);
    const nearDoubts = all.filter((v) => v <= reach * 1.4).map((v) => v * 1.05);
    const top = Math.max(reach, ...nearDoubts);
    const step = top > 50 ? 10 : 2;
    return [0, Math.min(100, Math.ceil(top / step) * step)];
  }
  const high = Math.max(...seen, ...lines);
  const limit = Math.min(...lines, ...seen);
  const span = Math.max(high - limit, high * 0.1);
  const nearDoubts = all.filter((v) => v >= limit - span * 0.5 && v <= high + span * 0.5);
  const bottom = Math.min(limit - span * 0.25, ...nearDoubts.map((v) => v - span * 0.05));
  const top = Math.max(high + span * 0.1, ...nearDoubts.map((v) => v + span * 0.05));
  const step = roundStep((top - bottom) * shown, 20) / shown;
  return [Math.max(0, Math.floor(bottom / step) * step), Math.ceil(top / step) * step];
}

function valuesOf(chart: MeasureChart) {
  const points = chart.cylinders.flatMap((c) => c.points);
  return { used: points.filter((p) => !isDoubtful(p)).map((p) => p.value), all: points.map((p) => p.value) };
}
