import { daysBetween } from "../calendar.ts";
import type { MeterUnit } from "../schema/words.ts";
import { median } from "../statistics/quantile.ts";
import { percentWords } from "../wording.ts";
import { type DoubtSheet, noteDoubt } from "./doubt-sheet.ts";
import { type CylinderSeries, isSound, type MeasureSeries } from "./series.ts";

/** Leakage at which a valve is probably just open, and below which such a leakage came or went suddenly. */
const openPercent = 85;
const confirmingPercent = 60;

/** A compression test is near by days or by use. */
const nearDays = 31;
const nearUse: Readonly<Record<MeterUnit, number>> = { h: 50, km: 2000, mi: 1250 };
/** Compression within 12 % of what it is compared with is normal. */
const normalShare = 0.88;

/**
 * Leakage of 85 % and more beside normal compression of the same cylinder: the piston was hardly at top dead centre on
 * compression, and the reading says nothing. Where no compression test is near, a leakage that came suddenly waits for a
 * second test: one that bears it out clears the doubt, one that does not puts the reading aside.
 */
export function noteNotAtTdc(sheet: DoubtSheet, leakDown: MeasureSeries, dry: MeasureSeries): void {
  for (const series of leakDown.cylinders) {
    for (const [place, value] of series.value.entries()) {
      if (value < openPercent || !isSound(sheet, series, place)) continue;
      const doubt = doubtOf(sheet, series, place, dry);
      if (doubt === null) continue;
      const cylinder = `cylinder ${series.cylinder} at ${percentWords(value)}`;
      noteDoubt(sheet, series.test[place] as number, {
        code: "not-at-tdc",
        cylinder: series.cylinder,
        weight: doubt.weight,
        words: `${cylinder} ${doubt.words}`,
      });
    }
  }
}

function doubtOf(
  sheet: DoubtSheet,
  series: CylinderSeries,
  place: number,
  dry: MeasureSeries,
): { weight: number; words: string } | null {
  const normal = compressionNormal(sheet, series, place, dry);
  if (normal === true) {
    return { weight: 0, words: "beside normal compression: piston probably not at top dead centre; measure again" };
  }
  if (normal === false) return null;
  const before = neighbour(sheet, series, place, -1);
  const after = neighbour(sheet, series, place, 1);
  if ((before ?? 0) >= confirmingPercent || (after ?? 0) >= confirmingPercent) return null;
  if (after !== null) {
    return { weight: 0, words: `and ${percentWords(after)} at the next test, without a repair: kept, not used` };
  }
  return { weight: 0.3, words: "at once: valve, particle under it, or piston not at top dead centre; measure again" };
}

/** The value of the nearest sound reading of the same life in one direction. */
function neighbour(sheet: DoubtSheet, series: CylinderSeries, place: number, step: 1 | -1): number | null {
  for (let p = place + step; series.life[p] === series.life[place]; p += step) {
    if (isSound(sheet, series, p)) return series.value[p] as number;
  }
  return null;
}

/** null: no sound compression reading of the cylinder is near enough, or nothing to compare it with. */
function compressionNormal(
  sheet: DoubtSheet,
  series: CylinderSeries,
  place: number,
  dry: MeasureSeries,
): boolean | null {
  const { history } = sheet;
  const own = dry.cylinders[series.cylinder - 1] as CylinderSeries;
  const at = history.tests[series.test[place] as number];
  let nearest = -1;
  let least = Infinity;
  for (const [p, x] of own.x.entries()) {
    if (own.life[p] !== series.life[place] || !isSound(sheet, own, p) || at === undefined) continue;
    const days = Math.abs(daysBetween(at.date, history.tests[own.test[p] as number]?.date ?? at.date));
    const use = Math.abs(x - at.x);
    const distance = Math.min(days / nearDays, use / nearUse[history.meterUnit]);
    if (distance <= 1 && distance < least) {
      least = distance;
      nearest = p;
    }
  }
  if (nearest < 0) return null;
  const kpa = own.value[nearest] as number;
  const test = history.tests[own.test[nearest] as number];
  const siblings = test?.readings.filter((r) => r.cylinder !== series.cylinder).map((r) => r.value) ?? [];
  const earlier = own.value.filter(
    (_, p) => p !== nearest && own.life[p] === own.life[nearest] && isSound(sheet, own, p),
  );
  const compared = siblings.length > 0 ? siblings : earlier;
  const model = history.model.compression;
  const reference = compared.length > 0 ? median(compared) : model?.newKpa;
  if (reference === undefined) return null;
  return kpa >= normalShare * reference && kpa >= (model?.minimumKpa ?? 0);
}
