import type { ChartPoint, CylinderSeries, MeasureChart, RepairMark, UnitReport } from "@/lib/schema/report.ts";
import type { CrossingStatus, JudgedMeasure } from "@/lib/schema/words.ts";
import { yearsLater } from "../formats.ts";
import { clearTicks, type Domain, dateTicks, roundStep, roundTicks, xAtDate } from "./axis.ts";
import type { Choice } from "./choice.ts";
import { doubtWords } from "./doubt-words.ts";
import { cylinderColour, hasSquarePoints } from "./standing.ts";

/** One row of the chart's data: a place on the meter axis, and under each key a value or a range. */
export interface TrendRow {
  readonly x: number;
  readonly [key: string]: number | readonly [number, number];
}

/** A run of points that is drawn alike: readings of one cylinder in one wear life, or its doubtful readings. */
export interface TrendRun {
  readonly key: string;
  readonly cylinder: number;
  readonly colour: string;
  readonly square: boolean;
  readonly chosen: boolean;
}

export interface LimitLine {
  readonly kind: "limit" | "plan" | "watch" | "usual-limit";
  readonly value: number;
}

/** Readings of one test that count less or not at all, for one reason. */
export interface DoubtNote {
  readonly x: number;
  /** The reading nearest to where the words stand: the highest for leakage, the lowest for compression. */
  readonly value: number;
  readonly words: string;
  /** Readings that the axis does not reach; their points lie on its edge. */
  readonly offAxis: readonly { readonly cylinder: number; readonly value: number }[];
}

export interface RepairLine {
  readonly x: number;
  readonly letter: "T" | "B" | "C" | "S" | "A" | "?";
  readonly assumed: boolean;
  readonly date: string;
  readonly words: string;
}

/** The crossing on the axis: null where a quantile is unknown or lies beyond its end. */
export interface CrossingOnAxis {
  readonly status: CrossingStatus;
  readonly limit: number;
  readonly p10: number | null;
  readonly p50: number | null;
  readonly p90: number | null;
}

/** All that the trend chart draws, ready for it: it only has to turn values into pixels. */
export interface TrendSeries {
  readonly measure: JudgedMeasure;
  readonly unit: "kPa" | "%";
  readonly cylinder: number;
  readonly rows: readonly TrendRow[];
  /** The chosen cylinder comes last, so that it is drawn over the others. */
  readonly lines: readonly TrendRun[];
  readonly doubtful: readonly TrendRun[];
  readonly doubts: readonly DoubtNote[];
  readonly limits: readonly LimitLine[];
  /** From the limit in force to the bad end of the axis. */
  readonly wash: Domain | null;
  readonly hasFan: boolean;
  readonly crossing: CrossingOnAxis | null;
  readonly repairs: readonly RepairLine[];
  /** The last reading used of each cylinder, where its line is labelled. */
  readonly ends: readonly { readonly cylinder: number; readonly value: number; readonly chosen: boolean }[];
  readonly today: number;
  readonly x: { readonly domain: Domain; readonly ticks: readonly number[] };
  readonly dates: readonly { readonly x: number; readonly date: string }[];
  readonly y: { readonly domain: Domain; readonly ticks: readonly number[] };
}

/** Keys of a row that belong to the chosen cylinder alone. */
export const fanKeys = { eighty: "b80", fifty: "b50", likely: "p50", whisker: "sd" } as const;

/** Shapes one measure of a unit's report into rows, lines, bands and axes. Throws when the measure has no chart. */
export function trendSeries(report: UnitReport, choice: Choice): TrendSeries {
  const chart = report.charts.find((c) => c.measure === choice.measure);
  if (chart === undefined) throw new Error(`no chart of ${choice.measure}`);
  const ordered = [
    ...chart.cylinders.filter((c) => c.cylinder !== choice.cylinder),
    ...chart.cylinders.filter((c) => c.cylinder === choice.cylinder),
  ];
  const chosen = chart.cylinders.find((c) => c.cylinder === choice.cylinder);
  const xDomain = meterDomain(report, chart, chosen);
  const limits = limitLines(report, chart, chosen);
  const limit = limits.find((l) => l.kind === "limit")?.value ?? null;
  const yDomain = levelDomain(chart, limits);
  const fan = fanRows(chosen, xDomain);
  const run = (key: string, cylinder: number): TrendRun => ({
    key,
    cylinder,
    colour: cylinderColour(cylinder),
    square: hasSquarePoints(report.model, cylinder),
    chosen: cylinder === choice.cylinder,
  });
  const isLeak = chart.measure === "leak-down";

  return {
    measure: chart.measure,
    unit: chart.unit,
    cylinder: choice.cylinder,
    rows: [...pointRows(ordered, choice.cylinder, yDomain), ...fan].sort((a, b) => a.x - b.x),
    lines: ordered.flatMap((c) => livesOf(c).map((life) => run(lineKey(c.cylinder, life), c.cylinder))),
    doubtful: ordered.filter((c) => c.points.some(isDoubtful)).map((c) => run(doubtKey(c.cylinder), c.cylinder)),
    doubts: doubtNotes(chart, yDomain),
    limits,
    wash: limit === null ? null : isLeak ? [limit, yDomain[1]] : [yDomain[0], limit],
    hasFan: fan.length > 0,
    crossing: crossingOnAxis(chosen, limit, xDomain),
    repairs: report.repairs.filter((r) => r.x >= xDomain[0] && r.x <= xDomain[1]).map(repairLine),
    ends: ordered.flatMap((c) => {
      const last = c.points.filter((p) => !isDoubtful(p)).at(-1);
      return last === undefined
        ? []
        : [{ cylinder: c.cylinder, value: last.value, chosen: c.cylinder === choice.cylinder }];
    }),
    today: report.xNow,
    x: { domain: xDomain, ticks: roundTicks(xDomain, 7) },
    dates: dateTicks(report.datesOnAxis, xDomain),
    y: {
      domain: yDomain,
      ticks: clearTicks(
        yDomain,
        [...(isLeak ? [0] : []), ...limits.map((l) => l.value)],
        [...(isLeak ? [yDomain[1]] : []), ...roundTicks(yDomain, 5)],
        0.07,
      ),
    },
  };
}

const lineKey = (cylinder: number, life: number) => `c${cylinder}_${life}`;
const doubtKey = (cylinder: number) => `d${cylinder}`;

/** Drawn hollow and outside the line: it counts less for a reason, or not at all. */
export function isDoubtful(point: ChartPoint): boolean {
  return point.weight === 0 || (point.doubt !== null && point.weight < 1);
}

const livesOf = (c: CylinderSeries) => [...new Set(c.points.filter((p) => !isDoubtful(p)).map((p) => p.life))];

/** One row a place on the axis; a second test of a cylinder at the same place gets a row of its own. */
function pointRows(series: readonly CylinderSeries[], chosen: number, [low, high]: Domain): TrendRow[] {
  const rows: { x: number; [key: string]: number }[] = [];
  const edge = (high - low) * 0.012;
  for (const { cylinder, points } of series) {
    for (const point of points) {
      const doubtful = isDoubtful(point);
      const key = doubtful ? doubtKey(cylinder) : lineKey(cylinder, point.life);
      let row = rows.find((r) => r.x === point.x && r[key] === undefined);
      if (row === undefined) {
        row = { x: point.x };
        rows.push(row);
      }
      row[key] = doubtful ? Math.min(high - edge, Math.max(low + edge, point.value)) : point.value;
      if (cylinder === chosen && !doubtful) row[fanKeys.whisker] = point.sd;
    }
  }
  return rows;
}

/** The fan up to the end of the axis, cut there by a straight line between its two neighbours. */
function fanRows(chosen: CylinderSeries | undefined, [, end]: Domain): TrendRow[] {
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

/** The limit in force for the chosen cylinder with its own plan and watch lines, and the usual limit where it differs. */
function limitLines(report: UnitReport, chart: MeasureChart, chosen: CylinderSeries | undefined): LimitLine[] {
  const limit = chosen?.limit ?? chart.limit;
  const valves = report.model.leakDown?.valves;
  const isValves = chart.measure === "leak-down" && limit !== chart.limit && limit === valves?.limitPercent;
  const plan = isValves ? valves.planPercent : chart.plan;
  const watch = isValves ? valves.watchPercent : chart.watch;
  const usual = limit === chart.limit ? null : chart.limit;
  const lines: LimitLine[] = [];
  if (limit !== null) lines.push({ kind: "limit", value: limit });
  // Beyond the limit in force neither says anything.
  if (plan !== null && (limit === null || plan < limit)) lines.push({ kind: "plan", value: plan });
  if (watch !== null && (limit === null || watch < limit)) lines.push({ kind: "watch", value: watch });
  if (usual !== null) lines.push({ kind: "usual-limit", value: usual });
  return lines;
}

/**
 * Leakage from 0 to clear above the limits and the readings used; compression from below its minimum. A doubtful
 * reading far off does not flatten the rest: its point stays on the edge.
 */
function levelDomain(chart: MeasureChart, limits: readonly LimitLine[]): Domain {
  const used = chart.cylinders.flatMap((c) => c.points.filter((p) => !isDoubtful(p)).map((p) => p.value));
  const all = chart.cylinders.flatMap((c) => c.points.map((p) => p.value));
  const seen = used.length > 0 ? used : all;
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
  const step = roundStep(top - bottom, 20);
  return [Math.max(0, Math.floor(bottom / step) * step), Math.ceil(top / step) * step];
}

/** From the first reading to clear beyond the crossing, but never so far that the readings shrink to a corner. */
function meterDomain(report: UnitReport, chart: MeasureChart, chosen: CylinderSeries | undefined): Domain {
  const now = report.xNow;
  const tested = Math.min(now, ...chart.cylinders.flatMap((c) => c.points.map((p) => p.x)));
  // A repair or a swap shortly before the first test tells where the line comes from; one long before would squeeze it.
  const told = report.repairs.filter((r) => r.x < tested && tested - r.x <= 0.5 * (now - tested)).map((r) => r.x);
  const first = Math.min(tested, ...told);
  const inAYear = xAtDate(report.datesOnAxis, yearsLater(report.asOf, 1)) ?? now;
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

function doubtNotes(chart: MeasureChart, [low, high]: Domain): DoubtNote[] {
  const groups = new Map<string, { point: ChartPoint; cylinder: number }[]>();
  for (const { cylinder, points } of chart.cylinders) {
    for (const point of points.filter(isDoubtful)) {
      const key = `${point.x} ${point.weight === 0} ${point.doubt}`;
      groups.set(key, [...(groups.get(key) ?? []), { point, cylinder }]);
    }
  }
  return [...groups.values()].map((group) => {
    const values = group.map((g) => Math.min(high, Math.max(low, g.point.value)));
    const [first] = group;
    return {
      x: first?.point.x ?? 0,
      value: chart.measure === "leak-down" ? Math.max(...values) : Math.min(...values),
      words: doubtWords(first?.point.weight ?? 0, first?.point.doubt ?? null),
      offAxis: group
        .filter((g) => g.point.value > high || g.point.value < low)
        .map((g) => ({ cylinder: g.cylinder, value: g.point.value })),
    };
  });
}

function crossingOnAxis(
  chosen: CylinderSeries | undefined,
  limit: number | null,
  [, end]: Domain,
): CrossingOnAxis | null {
  if (limit === null || chosen?.crossing == null) return null;
  const onAxis = (x: number | null | undefined) => (x == null || x > end ? null : x);
  return {
    status: chosen.crossing.status,
    limit,
    p10: onAxis(chosen.crossingX?.p10),
    p50: onAxis(chosen.crossingX?.p50),
    p90: onAxis(chosen.crossingX?.p90),
  };
}

const repairLetters = {
  "top-end": "T",
  "bottom-end": "B",
  complete: "C",
  "engine-swap": "S",
  adjustment: "A",
  assumed: "?",
} as const satisfies Record<RepairMark["scope"], RepairLine["letter"]>;

function repairLine({ x, scope, date, words }: RepairMark): RepairLine {
  return { x, letter: repairLetters[scope], assumed: scope === "assumed", date, words };
}
