import type { MeasureChart } from "@/lib/schema/report.ts";
import type { Formats } from "@/lib/viewing/formats.ts";
import type { Choice } from "./choice.ts";
import { departureWords } from "./departures.ts";
import type { TrendSeries } from "./trend-series.ts";

/** "Leakage of every cylinder, %" */
export function chartTitle({ measure, unit }: MeasureChart, values: Choice["values"], f: Formats): string {
  const what = measure === "leak-down" ? "Leakage" : "Compression";
  return `${what} of every cylinder, ${f.levelUnit(unit)}${values === "raw" ? ", as entered" : ""}`;
}

/** The chart in words, for those who do not see it; the figures stand in the table of tests. */
export function trendLabel(of: {
  readonly title: string;
  readonly axis: string;
  readonly trend: TrendSeries;
  /** What stands under the chart: the crossing, or why there is none. */
  readonly told: string | null;
  readonly f: Formats;
}): string {
  const { trend, told, f } = of;
  const ends = [...trend.ends]
    .sort((a, b) => a.cylinder - b.cylinder)
    .map((e) => `cylinder ${e.cylinder} ${f.level(e.value, trend.unit)}`)
    .join(", ");
  const lines = trend.limits.map((l) => `${l.kind.replace("-", " ")} ${f.level(l.value, trend.unit)}`).join(", ");
  const repairs = trend.repairs.map((r) => `${f.date(r.date)}: ${r.words}`).join("; ");
  const departed = trend.departures
    .map((d) => `${f.date(d.date)}: ${departureWords([d.cylinder], trend.cylinders)}`)
    .join("; ");
  const parts = [
    `${of.title}, over ${of.axis}.`,
    ends === "" ? "" : `Last readings used: ${ends}.`,
    lines === "" ? "" : `Lines: ${lines}.`,
    repairs === "" ? "" : `Marks: ${repairs}.`,
    departed === "" ? "" : `Early warning: ${departed}.`,
    told === null ? "" : `Cylinder ${trend.cylinder}: ${told}`,
    "All readings stand in the table of tests.",
  ];
  return parts.filter(Boolean).join(" ");
}
