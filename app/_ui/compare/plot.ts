import type { CoursePoint, SisterBand } from "../../../lib/schema/comparison.ts";
import type { JudgedMeasure, MeterUnit } from "../../../lib/schema/words.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { type Domain, roundStep, roundTicks } from "../unit/axis.ts";
import { lineLabelWords, mergeLineLabels } from "../unit/line-labels.ts";
import { type CompareLine, endOf } from "./lines.ts";

/** Axes of the comparison in canonical units, with ticks that are round in the viewer's. */
export interface Plot {
  readonly x: Domain;
  readonly y: Domain;
  readonly xTicks: readonly number[];
  readonly yTicks: readonly number[];
  /** Place in per cent of the plot, from the left and from the top. */
  left(x: number): number;
  top(y: number): number;
}

export function plotOf(
  f: Formats,
  of: { readonly measure: JudgedMeasure; readonly meterUnit: MeterUnit },
  drawn: {
    readonly band: SisterBand | null;
    readonly lines: readonly CompareLine[];
    readonly sisters: readonly (readonly CoursePoint[])[];
    readonly limit: number | null;
  },
): Plot | null {
  const points = [...drawn.lines.flatMap((line) => line.runs.flatMap((run) => run.points)), ...drawn.sisters.flat()];
  const band = drawn.band?.stretches.flat() ?? [];
  const xs = [...points.map(([x]) => x), ...band.map((p) => p.x)];
  const ys = [...points.map(([, y]) => y), ...band.flatMap((p) => [p.p10, p.p90])];
  if (xs.length === 0) return null;
  const unit = of.measure === "leak-down" ? "%" : "kPa";
  const x = rounded([Math.min(...xs), Math.max(...xs)], f.meterFactor(of.meterUnit), 6);
  const highest = Math.max(...ys);
  // Leakage stands on nought. A limit is drawn where the readings come near it, not far above them.
  const near =
    drawn.limit !== null && (of.measure === "leak-down" ? drawn.limit <= 1.6 * highest : true) ? [drawn.limit] : [];
  const low = of.measure === "leak-down" ? 0 : Math.min(...ys, ...near);
  const y = rounded([low, Math.max(...ys, ...near)], f.levelFactor(unit), 5);
  return {
    x: x.domain,
    y: y.domain,
    xTicks: x.ticks,
    yTicks: y.ticks,
    left: (value) => (100 * (value - x.domain[0])) / (x.domain[1] - x.domain[0]),
    top: (value) => (100 * (y.domain[1] - value)) / (y.domain[1] - y.domain[0]),
  };
}

/** The domain widened to round ends, with its ticks; both canonical, round where shown. */
function rounded([low, high]: Domain, factor: number, parts: number): { domain: Domain; ticks: number[] } {
  const [a, b] = [low * factor, (high > low ? high : low + 1) * factor];
  const step = roundStep(b - a, parts);
  const domain: Domain = [Math.floor(a / step) * step, Math.ceil(b / step) * step];
  return {
    domain: [domain[0] / factor, domain[1] / factor],
    ticks: roundTicks(domain, parts).map((tick) => tick / factor),
  };
}

export interface EndLabel {
  readonly label: string;
  /** In per cent of the plot. */
  readonly left: number;
  top: number;
}

/**
 * Labels at the ends of lines, moved apart to stand at least `gap` per cent from one another. Cylinders of one unit that
 * end nearer than that share one: "H-301 cyl 1–6".
 */
export function endLabels(plot: Plot, lines: readonly CompareLine[], gap: number): readonly EndLabel[] {
  const ends = lines.flatMap((line) => {
    const end = endOf(line);
    return end === null ? [] : [{ ...line, left: plot.left(end[0]), top: plot.top(end[1]) }];
  });
  const byUnit = new Map<string, (typeof ends)[number][]>();
  for (const end of ends) byUnit.set(end.unit, [...(byUnit.get(end.unit) ?? []), end]);
  const labels = [...byUnit].flatMap(([unit, own]): EndLabel[] => {
    const left = Math.max(...own.map((end) => end.left));
    const cylinders = own.flatMap(({ cylinder, top }) => (cylinder === null ? [] : [{ cylinder, y: top }]));
    return [
      ...own.flatMap((end) => (end.cylinder === null ? [{ label: unit, left, top: end.top }] : [])),
      ...mergeLineLabels(cylinders, gap).map((of) => ({
        label: `${unit} ${lineLabelWords(of.cylinders)}`,
        left,
        top: of.y,
      })),
    ];
  });
  const placed = labels.toSorted((a, b) => a.top - b.top);
  let above = -Infinity;
  for (const end of placed) {
    end.top = Math.max(end.top, above + gap);
    above = end.top;
  }
  let below = 100 + gap;
  for (const end of placed.toReversed()) {
    end.top = Math.min(end.top, below - gap);
    below = end.top;
  }
  return placed;
}
