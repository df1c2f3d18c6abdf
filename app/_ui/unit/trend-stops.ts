import type { IsoDate } from "@/lib/schema/facts.ts";
import type { Domain } from "./axis.ts";
import { doubtWords } from "./doubt-words.ts";
import { isDoubtful, onLevelAxis } from "./trend-parts.ts";
import type { TrendSource } from "./trend-source.ts";

/** One test in the chart, as pointer, finger and keyboard stop at it: what each cylinder read, and what is doubted. */
export interface TrendStop {
  readonly key: string;
  readonly x: number;
  /** Where on the level axis it is told: at the chosen cylinder's point, or at the worst doubtful one. */
  readonly y: number;
  readonly date: IsoDate;
  readonly readings: readonly { readonly cylinder: number; readonly value: number; readonly counts: boolean }[];
  /** Standard deviation of the chosen cylinder's reading; null: not told for raw values, or it was not read. */
  readonly sd: number | null;
  /** Each reason with the cylinders that it holds for; empty: all readings count. */
  readonly doubts: readonly { readonly words: string; readonly cylinders: readonly number[] }[];
  readonly wet: boolean;
  /** Cylinders that left their family at this test. */
  readonly departed: readonly number[];
}

/** The tests in view, ascending. Two at one place on one day are told apart by their order. */
export function trendStops(source: TrendSource, [from, to]: Domain, yDomain: Domain): TrendStop[] {
  const { chart, choice, wet, warnings } = source;
  const tests = new Map<string, { x: number; date: IsoDate; readings: Reading[] }>();
  for (const { cylinder, points } of chart.cylinders) {
    const seen = new Map<string, number>();
    for (const point of points) {
      if (point.x < from || point.x > to) continue;
      const place = `${point.x} ${point.date}`;
      const nth = (seen.get(place) ?? 0) + 1;
      seen.set(place, nth);
      const test = tests.get(`${place} ${nth}`) ?? { x: point.x, date: point.date, readings: [] };
      test.readings.push({ cylinder, point });
      tests.set(`${place} ${nth}`, test);
    }
  }
  const worst = chart.measure === "leak-down" ? Math.max : Math.min;
  const dry = [...tests].map(([key, { x, date, readings }]): TrendStop => {
    const own = readings.find((r) => r.cylinder === choice.cylinder)?.point;
    return {
      key,
      x,
      y: onLevelAxis(yDomain, own?.value ?? worst(...readings.map((r) => r.point.value))),
      date,
      readings: readings.map((r) => ({
        cylinder: r.cylinder,
        value: r.point.value,
        counts: !isDoubtful(r.point),
      })),
      sd: own === undefined || own.sd === 0 ? null : own.sd,
      doubts: doubtsOf(readings),
      wet: false,
      departed: warnings
        .filter((w) => w.x === x && w.date === date && readings.some((r) => r.cylinder === w.cylinder))
        .map((w) => w.cylinder),
    };
  });
  const wetStops = wet
    .filter((w) => w.x >= from && w.x <= to)
    .map(
      (w, i): TrendStop => ({
        key: `wet ${i}`,
        x: w.x,
        y: onLevelAxis(yDomain, w.value),
        date: w.date,
        readings: [{ cylinder: choice.cylinder, value: w.value, counts: false }],
        sd: null,
        doubts: [],
        wet: true,
        departed: [],
      }),
    );
  return [...dry, ...wetStops].sort((a, b) => a.x - b.x || (a.date < b.date ? -1 : 1));
}

type Reading = {
  readonly cylinder: number;
  readonly point: TrendSource["chart"]["cylinders"][number]["points"][number];
};

function doubtsOf(readings: readonly Reading[]): TrendStop["doubts"] {
  const byWords = new Map<string, number[]>();
  for (const { cylinder, point } of readings.filter((r) => isDoubtful(r.point))) {
    const words = doubtWords(point.weight, point.doubt);
    byWords.set(words, [...(byWords.get(words) ?? []), cylinder]);
  }
  return [...byWords].map(([words, cylinders]) => ({ words, cylinders }));
}
