import { daysBetween } from "../calendar.ts";
import type { UseForecast } from "../projection/types.ts";
import type { UseCourse } from "../schema/report.ts";
import type { MeterPoint, UnitHistory } from "../sealing/types.ts";
import { normalQuantile } from "../statistics/normal.ts";
import { listWords, monthWords, percentWords } from "../wording.ts";
import { rounded } from "./rounding.ts";

/** Readings closer together than this are told as one: a day's rounding would make any use of them. */
const shortestSpanDays = 7;
/** A chart of more steps than this shows no more. */
const mostSpans = 150;

const z90 = normalQuantile(0.9);

/** The unit's use between its meter readings, its new meters, and what the forecast takes it to be: log-normal by the day. */
export function useCourse({ meterPoints, status }: UnitHistory, use: UseForecast): UseCourse {
  const ahead = (z: number) => rounded(use.perDay * Math.exp(z * use.logSd), 3);
  return {
    spans: spansOf(meterPoints),
    resets: meterPoints.flatMap((point, i) => {
      const before = meterPoints[i - 1];
      const isNewMeter = before !== undefined && point.cumulative - point.meter > before.cumulative - before.meter;
      return isNewMeter ? [{ date: point.date, before: before.meter, after: point.meter }] : [];
    }),
    ahead: status === "in-service" ? { p10: ahead(-z90), p50: ahead(0), p90: ahead(z90) } : null,
    season: status === "in-service" ? (use.season?.quarters ?? null) : null,
    aheadIsPooled: use.intervals === 0,
    notes: status === "in-service" ? useNotes(use) : [],
  };
}

const quarterNames = ["January to March", "April to June", "July to September", "October to December"] as const;

function useNotes({ changedOn, stood, season }: UseForecast): string[] {
  const notes: string[] = [];
  if (changedOn != null) {
    notes.push(`Use changed about ${monthWords(changedOn)}: the forecast takes only what came after it.`);
  }
  if (stood != null) {
    notes.push(`Stood from ${monthWords(stood.from)} to ${monthWords(stood.to)}: not counted as a slower rate.`);
  }
  if (season != null) {
    const parts = season.quarters.map((share, q) => `${quarterNames[q]} ${percentWords(100 * share)}`);
    notes.push(`By season, as such units show, of their mean use: ${listWords(parts)}.`);
  }
  return notes;
}

function spansOf(points: readonly MeterPoint[]): UseCourse["spans"] {
  const [first] = points;
  const last = points.at(-1);
  if (first === undefined || last === undefined) return [];
  const shortest = Math.max(shortestSpanDays, daysBetween(first.date, last.date) / mostSpans);
  const spans: { from: string; to: string; used: number }[] = [];
  let from = first;
  for (const point of points.slice(1)) {
    if (daysBetween(from.date, point.date) < shortest && point !== last) continue;
    if (point.date === from.date) continue;
    spans.push({ from: from.date, to: point.date, used: rounded(Math.max(0, point.cumulative - from.cumulative), 1) });
    from = point;
  }
  return spans;
}
