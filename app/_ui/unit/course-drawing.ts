import type { CylinderSeries, MeasureChart, UnitReport } from "@/lib/schema/report.ts";
import { clearTicks, type Domain, dateTicks, roundTicks } from "./axis.ts";
import { departures } from "./departures.ts";
import { cylinderColour } from "./standing.ts";
import type { ShownFactors } from "./trend-series.ts";

/** A chart of all cylinders for paper and for pages without choices: everything in per cent of its box, y from the top. */
export interface CourseDrawing {
  readonly lines: readonly CourseLine[];
  readonly limits: readonly { readonly kind: "limit" | "plan" | "watch"; readonly value: number; readonly y: number }[];
  /** Beyond the limit: from the top, and how high. */
  readonly wash: { readonly y: number; readonly height: number } | null;
  /** Of the chosen cylinder: outlines of the 8-in-10 and 5-in-10 ranges, and the likely course. */
  readonly fan: { readonly eighty: string; readonly fifty: string; readonly likely: string } | null;
  readonly marks: readonly { readonly at: number; readonly letter: string }[];
  /** Where cylinders left their family. */
  readonly departures: readonly {
    readonly cylinder: number;
    readonly date: string;
    readonly x: number;
    readonly y: number;
  }[];
  readonly today: number;
  readonly x: readonly { readonly at: number; readonly value: number }[];
  readonly dates: readonly { readonly at: number; readonly date: string }[];
  readonly y: readonly { readonly at: number; readonly value: number }[];
}

export interface CourseLine {
  readonly cylinder: number;
  readonly colour: string;
  readonly chosen: boolean;
  /** Broken where a repair began a new life. */
  readonly path: string;
  readonly points: readonly { readonly x: number; readonly y: number; readonly used: boolean }[];
  /** Where its label stands; null: no reading is used. */
  readonly end: { readonly x: number; readonly y: number } | null;
}

const letters: Readonly<Record<UnitReport["repairs"][number]["scope"], string | null>> = {
  "top-end": "T",
  "bottom-end": "B",
  complete: "C",
  "engine-swap": "S",
  assumed: "?",
  // An adjustment starts no new life and would only crowd the small chart.
  adjustment: null,
};

/** Lays out one measure of a report. `chosen`: the cylinder whose likely course is drawn ahead; null: none. `shown`: ticks are round in the units shown. */
export function courseDrawing(
  report: UnitReport,
  chart: MeasureChart,
  chosen: number | null,
  shown: ShownFactors = { meter: 1, level: 1 },
): CourseDrawing {
  const own = chart.cylinders.find((c) => c.cylinder === chosen);
  const points = chart.cylinders.flatMap((c) => c.points);
  const first = Math.min(report.xNow, ...points.map((p) => p.x));
  const past = Math.max(1, report.xNow - first);
  const crossing = own?.crossingX;
  const wanted = (crossing?.p90 ?? crossing?.p50 ?? crossing?.p10 ?? report.xNow) - report.xNow;
  const fanEnd = own?.fan.at(-1)?.x ?? report.xNow;
  const ahead =
    own === undefined || own.fan.length === 0
      ? 0
      : Math.min(fanEnd - report.xNow, Math.max(past / 4, Math.min(past, wanted * 1.1)));
  const xDomain: Domain = [first - past * 0.02, report.xNow + Math.max(ahead, past * 0.04)];
  const limit = own?.limit ?? chart.limit;
  const fan = (own?.fan ?? []).filter((row) => row.x <= xDomain[1]);
  const yDomain = levelDomain(chart, limit, fan);
  const place = ([low, high]: Domain, value: number) => (100 * (value - low)) / (high - low);
  const x = (value: number) => rounded(place(xDomain, value));
  const y = (value: number) => rounded(100 - place(yDomain, Math.min(yDomain[1], Math.max(yDomain[0], value))));
  const lines = [
    { kind: "limit", value: limit },
    { kind: "plan", value: chart.plan },
    { kind: "watch", value: chart.watch },
  ] as const;
  const outline = (low: "p10" | "p25", high: "p90" | "p75") =>
    `M${[...fan.map((r) => `${x(r.x)} ${y(r[low])}`), ...fan.toReversed().map((r) => `${x(r.x)} ${y(r[high])}`)].join("L")}Z`;
  return {
    lines: chart.cylinders
      .toSorted((a, b) => Number(a.cylinder === chosen) - Number(b.cylinder === chosen))
      .map((c) => {
        const used = c.points.filter((p) => p.weight > 0);
        const last = used.at(-1);
        return {
          cylinder: c.cylinder,
          colour: cylinderColour(c.cylinder),
          chosen: c.cylinder === chosen,
          path: used.map((p, i) => `${p.life === used[i - 1]?.life ? "L" : "M"}${x(p.x)} ${y(p.value)}`).join(""),
          points: c.points.map((p) => ({ x: x(p.x), y: y(p.value), used: p.weight > 0 })),
          end: last === undefined ? null : { x: x(last.x), y: y(last.value) },
        };
      }),
    limits: lines.flatMap(({ kind, value }) => (value === null ? [] : [{ kind, value, y: y(value) }])),
    wash:
      limit === null
        ? null
        : chart.measure === "leak-down"
          ? { y: 0, height: y(limit) }
          : { y: y(limit), height: 100 - y(limit) },
    fan:
      fan.length < 2
        ? null
        : {
            eighty: outline("p10", "p90"),
            fifty: outline("p25", "p75"),
            likely: `M${fan.map((r) => `${x(r.x)} ${y(r.p50)}`).join("L")}`,
          },
    marks: marksOf(report, xDomain, x),
    departures: departures(
      { chart, warnings: report.earlyWarnings.filter((one) => one.measure === chart.measure) },
      yDomain,
    ).map((d) => ({ cylinder: d.cylinder, date: d.date, x: x(d.x), y: y(d.value) })),
    today: x(report.xNow),
    x: ticksOf(xDomain, 6, shown.meter).map((value) => ({ at: x(value), value })),
    dates: dateTicks(report.datesOnAxis, xDomain).map(({ x: value, date }) => ({ at: x(value), date })),
    y: clearTicks(yDomain, limit === null ? [] : [limit], ticksOf(yDomain, 4, shown.level), 0.09).map((value) => ({
      at: y(value),
      value,
    })),
  };
}

/** Repairs at one place, as an overhaul on the bench and the fitting after it, share one mark: "C S". */
function marksOf(report: UnitReport, [from, to]: Domain, place: (x: number) => number): CourseDrawing["marks"] {
  const marks = new Map<number, string[]>();
  for (const repair of report.repairs) {
    const letter = letters[repair.scope];
    if (letter === null || repair.x < from || repair.x > to) continue;
    const at = place(repair.x);
    marks.set(at, [...new Set([...(marks.get(at) ?? []), letter])]);
  }
  return [...marks].map(([at, of]) => ({ at, letter: of.join(" ") }));
}

const ticksOf = ([from, to]: Domain, parts: number, factor: number): number[] =>
  roundTicks([from * factor, to * factor], parts).map((tick) => tick / factor);

/** What lies ahead may take so much of the height beyond what was read and the limit. */
const mostAhead = 1.4;

/**
 * Leakage from 0 to beyond its limit, compression from below its minimum; all readings lie inside, and the range ahead as
 * far as it leaves them room.
 */
function levelDomain(chart: MeasureChart, limit: number | null, fan: CylinderSeries["fan"]): Domain {
  const values = [...chart.cylinders.flatMap((c) => c.points.map((p) => p.value)), ...(limit === null ? [] : [limit])];
  const [low, high] = [Math.min(...values), Math.max(...values)];
  if (chart.measure === "leak-down") {
    const ahead = Math.min(mostAhead * high, Math.max(0, ...fan.map((row) => row.p90)));
    return [0, Math.min(100, Math.max(5, ahead, (high === limit ? 1.25 : 1.1) * high))];
  }
  const room = Math.max(high - low, 0.02 * high) * 0.12;
  const ahead = Math.max(low - (mostAhead - 1) * (high - low), Math.min(low, ...fan.map((row) => row.p10)));
  return [Math.max(0, Math.min(low - room, ahead)), high + room];
}

const rounded = (value: number): number => Number(value.toFixed(2));
