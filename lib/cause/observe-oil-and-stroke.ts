import { daysBetween } from "../calendar.ts";
import { median } from "../statistics/quantile.ts";
import type { Finding } from "./bayes.ts";
import { type EngineView, ramp } from "./engine-view.ts";
import { isWeak } from "./observe-compression.ts";
import type { RecentReading } from "./recent.ts";

/** A dry reading further away than this is not what the wet one was compared with. */
const dryWithinDays = 30;
/** Rises between these two say nothing. */
const noRisePercent = 5;
const clearRisePercent = 8;
/** On opposed engines the oil runs to one side of the bore. */
const opposedStrength = 0.4;
const oldAfterDays = 730;

/** The wet test of a cylinder against its dry one: oil helps worn rings, and nothing else. */
export function observeWet(view: EngineView, cylinder: number): Finding | null {
  const compared = wetBesideDry(view, cylinder);
  if (compared === null) return null;
  const { wet, dry } = compared;
  const rise = 100 * (wet.value / dry.value - 1);
  const slots = { rise: rise };
  const layout = view.model.layout === "opposed" ? opposedStrength : 1;
  const age = daysBetween(wet.date, view.asOf) > oldAfterDays ? 0.5 : 1;
  const say = Math.min(wet.trust, dry.trust) * layout * age;
  const weak = isWeak(view, cylinder);
  if (rise >= clearRisePercent) {
    // Oil raises a sound cylinder a little as well.
    const strength = ramp(rise, 5, 13) * say * (weak ? 1 : 0.4);
    return { id: "wet-rise", strength, slots, renewed: wet.renewed };
  }
  if (rise < noRisePercent && weak) {
    return { id: "wet-no-rise", strength: ramp(-rise, -6, -2.5) * say, slots, renewed: wet.renewed };
  }
  return null;
}

/** The last wet reading of a cylinder and the dry one that it is compared with; null: there are none. */
export function wetBesideDry(
  view: EngineView,
  cylinder: number,
): { readonly wet: RecentReading; readonly dry: RecentReading } | null {
  const wet = view.recent.byMeasure["compression-wet"][cylinder - 1]?.[0];
  if (wet === undefined) return null;
  const dry = dryFor(wet, view.recent.byMeasure["compression-dry"][cylinder - 1] ?? []);
  return dry === null || dry.value <= 0 ? null : { wet, dry };
}

/** The dry reading of the same day (the last attempt), else the nearest within 30 days. */
function dryFor(wet: RecentReading, dryReadings: readonly RecentReading[]): RecentReading | null {
  let nearest: RecentReading | null = null;
  let nearestDays = dryWithinDays + 1;
  for (const dry of dryReadings) {
    const days = dry.date === wet.date ? 0 : Math.abs(daysBetween(dry.date, wet.date));
    if (days < nearestDays && dry.renewed === wet.renewed) {
      nearest = dry;
      nearestDays = days;
    }
  }
  return nearest;
}

/** First stroke of the final reading that a sound cylinder shows where no sibling tells. (J) */
const usualFirstStrokeShare = 0.7;

/** How the pressure built up: late (rings), or low from the first stroke to the last (valve). */
export function observeFirstStroke(view: EngineView, cylinder: number): Finding | null {
  const latest = view.compression[cylinder - 1]?.readings[0];
  if (latest === undefined || latest.firstStrokeShare === null || !isWeak(view, cylinder)) return null;
  const siblings: number[] = [];
  for (const reading of latest.test.test.readings) {
    if (reading.cylinder !== cylinder && reading.firstStrokeShare !== null) siblings.push(reading.firstStrokeShare);
  }
  const ordinary = siblings.length === 0 ? usualFirstStrokeShare : median(siblings);
  // Where all are worn the siblings are no measure of a sound first stroke.
  const below = Math.max(ordinary, usualFirstStrokeShare - 0.1) - latest.firstStrokeShare;
  const slots = { first: 100 * latest.firstStrokeShare };
  const { trust, renewed } = latest;
  if (below >= 0.06) return { id: "first-stroke-builds-up", strength: ramp(below, 0.02, 0.14) * trust, slots, renewed };
  const isAlone = siblings.length > 0 && latest.value < 0.93 * ordinaryFinal(view, cylinder, latest.value);
  // Held against the siblings: one whose gauge climbed by as much as theirs has built up as they did.
  const above = latest.firstStrokeShare - ordinary;
  if (isAlone && above >= 0.03) {
    const strength = 0.8 * ramp(above, 0.01, 0.08) * trust;
    return { id: "first-stroke-stays-low", strength, slots: { ...slots, others: 100 * ordinary }, renewed };
  }
  return null;
}

function ordinaryFinal(view: EngineView, cylinder: number, otherwise: number): number {
  const finals = view.compression.flatMap((own, index) => (own === null || index + 1 === cylinder ? [] : [own.latest]));
  return finals.length === 0 ? otherwise : median(finals);
}
