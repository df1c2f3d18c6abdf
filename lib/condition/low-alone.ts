import { daysBetween } from "../calendar.ts";
import type { MeterUnit } from "../schema/words.ts";
import type { SealedTest } from "../sealing/types.ts";
import { median } from "../statistics/quantile.ts";
import { percentWords } from "../wording.ts";
import { type DoubtSheet, noteDoubt } from "./doubt-sheet.ts";
import { besideLeakage } from "./leakage-cost.ts";
import { type CylinderSeries, isSound, type MeasureSeries } from "./series.ts";

/** Earlier readings that tell a cylinder's place beside its siblings. */
const fewestEarlier = 1;
const mostEarlier = 6;
/** How far it must lie below that place, and by how many standard deviations of what one reading repeats to: judgement. */
const lowShare = 0.1;
const zLimit = 4;
/** Its own readings must have fallen too, or it is the siblings that rose. */
const ownShare = 0.92;
/** A leak-down test is of the same occasion by days or by use. */
const nearDays = 31;
const nearUse: Readonly<Record<MeterUnit, number>> = { h: 50, km: 2000, mi: 1250 };

/**
 * A reading of compression that alone, at once, lies far below the cylinder's place beside its siblings, while a leak-down
 * test of about the same day shows no leak that would cost so much. An adaptor, a hose or plug threads that leak while one
 * cylinder is tested look so, and a rocker or a spring that gave way does: it is kept, not used, until a second test bears it
 * out. No lesser weight would do: a model that knows of faults takes one such reading for the step of one.
 */
export function noteLowAlone(sheet: DoubtSheet, dry: MeasureSeries, leakDown: MeasureSeries): void {
  // Noted once all are looked at: one cylinder's doubt must not change what the next is held against.
  const noted: [test: number, doubt: Parameters<typeof noteDoubt>[2]][] = [];
  for (const series of dry.cylinders) {
    for (const place of series.value.keys()) {
      const drop = lowAt(sheet, series, place);
      if (drop === null || isBorneOutOrMended(sheet, series, place, drop)) continue;
      const leak = leakageNear(sheet, leakDown, series, place);
      const percent = 100 * drop;
      if (leak === null || besideLeakage(percent, leak).unexplained < percent / 2) continue;
      noted.push([
        series.test[place] as number,
        {
          code: "low-alone",
          cylinder: series.cylinder,
          weight: 0,
          words: `cylinder ${series.cylinder} reads ${percentWords(percent)} below its place beside the others, which its leakage (${percentWords(leak.leakagePercent)}) does not explain: adaptor, hose or plug threads, else the valve gear; test again`,
        },
      ]);
    }
  }
  for (const [test, doubt] of noted) noteDoubt(sheet, test, doubt);
}

/** How far a reading lies below its place beside the siblings, as a share of it; null: not low, or too few others to tell. */
function lowAt(sheet: DoubtSheet, series: CylinderSeries, place: number): number | null {
  const value = series.value[place] as number;
  // Cheap test first, for nearly all readings: it must lie below the highest of its own earlier ones, as below their middle.
  let highest = 0;
  for (let p = place - 1; p >= 0 && series.life[p] === series.life[place]; p--)
    highest = Math.max(highest, series.value[p] as number);
  if (value > ownShare * highest) return null;
  const middle = siblingsAt(sheet, series, place);
  if (middle === null || !isSound(sheet, series, place)) return null;
  const shares: number[] = [];
  const own: number[] = [];
  for (let p = place - 1; p >= 0 && series.life[p] === series.life[place] && shares.length < mostEarlier; p--) {
    const beside = siblingsAt(sheet, series, p);
    if (beside === null || !isSound(sheet, series, p)) continue;
    shares.push((series.value[p] as number) / beside);
    own.push(series.value[p] as number);
  }
  if (shares.length < fewestEarlier) return null;
  // Below the last one as well as below the middle one: what falls evenly is no step.
  const usual = Math.min(median(shares), shares[0] as number);
  const level = usual * middle;
  const test = sheet.history.tests[series.test[place] as number];
  const scatter = sheet.errors["compression-dry"].own(level, test?.instrument ?? null) / level;
  const share = scatter * Math.sqrt(1.5 * (1 + 1 / shares.length));
  const drop = 1 - value / level;
  return drop >= Math.max(lowShare, zLimit * share) && value <= ownShare * median(own) ? drop : null;
}

/** Median of the siblings' usable readings in the same test; null: none, or they hold nothing. */
function siblingsAt({ history, weights }: DoubtSheet, series: CylinderSeries, place: number): number | null {
  const t = series.test[place] as number;
  const values = (history.tests[t] as SealedTest).readings.flatMap((reading, r) =>
    reading.cylinder !== series.cylinder && (weights[t]?.[r] ?? 0) >= 0.5 ? [reading.value] : [],
  );
  const middle = values.length === 0 ? 0 : median(values);
  return middle > 1 ? middle : null;
}

/** The next reading of the same life is as low or half as low, or work on the cylinder came between that may have cured it. */
function isBorneOutOrMended(sheet: DoubtSheet, series: CylinderSeries, place: number, drop: number): boolean {
  const next = place + 1;
  const at = (p: number) => sheet.history.tests[series.test[p] as number]?.date ?? "";
  const until = series.value[next] === undefined ? "9999-12-31" : at(next);
  const isWorkedOn = sheet.history.repairs.some(
    ({ cylinders, date }) => cylinders.includes(series.cylinder) && date >= at(place) && date <= until,
  );
  if (isWorkedOn) return true;
  if (series.value[next] === undefined) return false;
  const beside = siblingsAt(sheet, series, next);
  const was = siblingsAt(sheet, series, place);
  if (beside === null || was === null) return false;
  const usual = (series.value[place] as number) / was / (1 - drop);
  return (series.value[next] as number) / beside <= usual * (1 - drop / 2);
}

/** Leakage of the cylinder and the middle of its siblings' in the usable leak-down test nearest by days; null: none near. */
function leakageNear(
  sheet: DoubtSheet,
  leakDown: MeasureSeries,
  dry: CylinderSeries,
  place: number,
): { readonly leakagePercent: number; readonly othersPercent: number | null } | null {
  const { history } = sheet;
  const series = leakDown.cylinders[dry.cylinder - 1] as CylinderSeries;
  const at = history.tests[dry.test[place] as number] as SealedTest;
  let nearest: number | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (const [p, x] of series.x.entries()) {
    if (series.life[p] !== dry.life[place] || !isSound(sheet, series, p)) continue;
    const days = Math.abs(daysBetween(at.date, (history.tests[series.test[p] as number] as SealedTest).date));
    const far = Math.min(days / nearDays, Math.abs(x - at.x) / nearUse[history.meterUnit]);
    if (far <= 1 && days < least) [nearest, least] = [p, days];
  }
  if (nearest === null) return null;
  return { leakagePercent: series.value[nearest] as number, othersPercent: siblingsAt(sheet, series, nearest) };
}
