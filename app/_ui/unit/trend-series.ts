import type { ChartPoint, CylinderSeries, MeasureChart, RepairMark } from "@/lib/schema/report.ts";
import type { CrossingStatus, JudgedMeasure, MeterUnit } from "@/lib/schema/words.ts";
import { clearTicks, type DateTick, type Domain, dateTicks, roundTicks, tickDigits } from "./axis.ts";
import { type Departure, departures } from "./departures.ts";
import { doubtWords } from "./doubt-words.ts";
import { cylinderColour, hasSquarePoints } from "./standing.ts";
import { levelDomain, meterExtent } from "./trend-domains.ts";
import { doubtKey, fanRows, isDoubtful, type LimitLine, lineKey, pointRows, type TrendRow } from "./trend-parts.ts";
import type { TrendSource, WetReading } from "./trend-source.ts";

/** A run of points that is drawn alike: readings of one cylinder in one wear life, or its doubtful readings. */
export interface TrendRun {
  readonly key: string;
  readonly cylinder: number;
  readonly colour: string;
  readonly square: boolean;
  readonly chosen: boolean;
}

/** Readings of one test that count less or not at all, for one reason. */
export interface DoubtNote {
  readonly x: number;
  /** The reading nearest to where the words stand: the highest for leakage, the lowest for compression. */
  readonly value: number;
  /** The one farthest from there, beyond which the words stand where there is no room before the first. */
  readonly farthest: number;
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

/** Where a line is labelled: at today, or at the edge of the view where today lies beyond it. */
export interface LineEnd {
  readonly cylinder: number;
  readonly value: number;
  readonly chosen: boolean;
}

/** All that the trend chart draws, ready for it: it only has to turn values into pixels. */
export interface TrendSeries {
  readonly measure: JudgedMeasure;
  readonly unit: "kPa" | "%";
  readonly meterUnit: MeterUnit;
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
  /** So many cylinders that points of the others would hide each other: the small multiples carry theirs. */
  readonly isCrowded: boolean;
  readonly hasWhiskers: boolean;
  readonly crossing: CrossingOnAxis | null;
  readonly repairs: readonly RepairLine[];
  readonly wet: readonly WetReading[];
  /** Where cylinders left their family, in view. */
  readonly departures: readonly Departure[];
  readonly cylinders: number;
  readonly ends: readonly LineEnd[];
  readonly today: number;
  readonly x: { readonly domain: Domain; readonly ticks: readonly number[]; readonly digits: number };
  readonly dates: readonly DateTick[];
  readonly y: { readonly domain: Domain; readonly ticks: readonly number[] };
}

/** What figures are multiplied by to be shown, so that ticks are round in the viewer's units. */
export interface ShownFactors {
  readonly meter: number;
  readonly level: number;
}

/**
 * Shapes the chosen measure into rows, lines, bands and axes. `view`: the part of the meter axis that is shown; left out,
 * the whole. All figures stay canonical; only ticks are round in what is shown.
 */
export function trendSeries(
  source: TrendSource,
  view?: Domain,
  shown: ShownFactors = { meter: 1, level: 1 },
): TrendSeries {
  const { chart, choice, model, xNow } = source;
  const ordered = [
    ...chart.cylinders.filter((c) => c.cylinder !== choice.cylinder),
    ...chart.cylinders.filter((c) => c.cylinder === choice.cylinder),
  ];
  const chosen = chart.cylinders.find((c) => c.cylinder === choice.cylinder);
  const xDomain = view ?? meterExtent(source).whole;
  const isInView = ({ x }: { readonly x: number }) => x >= xDomain[0] && x <= xDomain[1];
  const limits = limitLines(source, chosen);
  const limit = limits.find((l) => l.kind === "limit")?.value ?? null;
  const yDomain = levelDomain(source, limits, shown.level);
  const fan = fanRows(chosen, xDomain);
  const run = (key: string, cylinder: number): TrendRun => ({
    key,
    cylinder,
    colour: cylinderColour(cylinder),
    square: hasSquarePoints(model, cylinder),
    chosen: cylinder === choice.cylinder,
  });
  const isLeak = chart.measure === "leak-down";
  const [xTicks, xDigits] = shownTicks(xDomain, 7, shown.meter);
  const [yTicks] = shownTicks(yDomain, 5, shown.level);

  return {
    measure: chart.measure,
    unit: chart.unit,
    meterUnit: source.meterUnit,
    cylinder: choice.cylinder,
    rows: [...pointRows(ordered, choice.cylinder, { xDomain, yDomain }), ...fan].sort((a, b) => a.x - b.x),
    lines: ordered.flatMap((c) => livesOf(c).map((life) => run(lineKey(c.cylinder, life), c.cylinder))),
    doubtful: ordered.filter((c) => c.points.some(isDoubtful)).map((c) => run(doubtKey(c.cylinder), c.cylinder)),
    doubts: doubtNotes(chart, yDomain).filter(isInView),
    limits,
    wash: limit === null ? null : isLeak ? [limit, yDomain[1]] : [yDomain[0], limit],
    isCrowded: chart.cylinders.length > 8,
    hasFan: fan.length > 0 && xDomain[1] > xNow,
    hasWhiskers: chosen?.points.some((p) => p.sd > 0 && !isDoubtful(p)) ?? false,
    crossing: crossingOnAxis(chosen, limit, xDomain),
    repairs: source.repairs.filter(isInView).map(repairLine),
    wet: source.wet.filter(isInView),
    departures: departures(source, yDomain).filter(isInView),
    cylinders: model.cylinders,
    ends: ordered.flatMap((c) => {
      const value = valueAtEnd(c, xDomain);
      return value === null ? [] : [{ cylinder: c.cylinder, value, chosen: c.cylinder === choice.cylinder }];
    }),
    today: xNow,
    x: { domain: xDomain, ticks: xTicks, digits: xDigits },
    dates: dateTicks(source.datesOnAxis, xDomain),
    y: {
      domain: yDomain,
      ticks: clearTicks(
        yDomain,
        [...(isLeak ? [0] : []), ...limits.map((l) => l.value)],
        [...(isLeak ? [yDomain[1]] : []), ...yTicks],
        0.07,
      ),
    },
  };
}

/** Ticks that are round in what is shown, as canonical figures, and the decimals that they need there. */
function shownTicks([low, high]: Domain, parts: number, factor: number): readonly [readonly number[], number] {
  const ticks = roundTicks([low * factor, high * factor], parts);
  return [ticks.map((t) => Math.min(high, Math.max(low, t / factor))), tickDigits(ticks)];
}

const livesOf = (c: CylinderSeries) => [...new Set(c.points.filter((p) => !isDoubtful(p)).map((p) => p.life))];

/** The last reading used, or where its line leaves the view; null: no line is in view. */
function valueAtEnd({ points }: CylinderSeries, [from, to]: Domain): number | null {
  const used = points.filter((p) => !isDoubtful(p));
  const before = used.filter((p) => p.x <= to).at(-1);
  if (before === undefined) return null;
  const next = used.find((p) => p.x > to && p.life === before.life);
  if (next === undefined) return before.x < from ? null : before.value;
  return before.value + ((to - before.x) / (next.x - before.x)) * (next.value - before.value);
}

/** The limit in force for the chosen cylinder with its own plan and watch lines, and the usual limit where it differs. */
function limitLines({ chart, model }: TrendSource, chosen: CylinderSeries | undefined): LimitLine[] {
  const limit = chosen?.limit ?? chart.limit;
  const valves = model.leakDown?.valves;
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
      farthest: chart.measure === "leak-down" ? Math.min(...values) : Math.max(...values),
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

function repairLine({ x, scope, date, words }: TrendSource["repairs"][number]): RepairLine {
  return { x, letter: repairLetters[scope], assumed: scope === "assumed", date, words };
}
