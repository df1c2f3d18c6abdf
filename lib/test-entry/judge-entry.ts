import { judgeMeasure, judgeValue } from "../intake/judge-reading.ts";
import { areEnoughToBeCopied } from "../intake/odd-readings.ts";
import { repeatability } from "../repeatability.ts";
import { type PressureUnit, pressureUnits } from "../schema/words.ts";
import { toKpa } from "../units.ts";
import { type Entry, type EntryTerms, expectedOf, levelOf } from "./entry.ts";
import type { MeasureFacts } from "./sheet-facts.ts";

/**
 * What is to be said of a reading before it is kept. Levels in kPa, or in % of leakage. `impossible`: it is not taken.
 * `past-limit`: it is told, and nothing is asked. All others are asked: measure again, or keep it as read.
 */
export type EntryFinding =
  | { readonly code: "impossible"; readonly why: string }
  | { readonly code: "other-unit"; readonly unit: OtherScale; readonly reads: number; readonly near: number }
  | { readonly code: "far"; readonly from: number; readonly to: number }
  | { readonly code: "not-at-top"; readonly to: number }
  | { readonly code: "no-loss"; readonly to: number }
  | { readonly code: "above-others"; readonly to: number; readonly highest: number }
  | { readonly code: "above-new"; readonly to: number; readonly newKpa: number }
  | { readonly code: "first-stroke-above"; readonly first: number; readonly to: number }
  | { readonly code: "copied"; readonly cylinders: readonly number[] }
  | { readonly code: "past-limit"; readonly limit: number; readonly to: number };

/** What the figure may have been read on instead: a gauge in another unit, or a tester that shows what the cylinder holds. */
export type OtherScale = PressureUnit | "held-of-80" | "held-percent";

/**
 * A reading is far from another where they differ by more than this many standard deviations of the difference of two
 * honest readings (lib/repeatability.ts). Four, as measured (`npm run bench -- slips`): engines wear meanwhile, and a test
 * has many readings, so that with three one honest test in thirty was asked about.
 */
const farSds = 4;
/** The same for a compression above the others, which hardly ever rises by itself: honest ones are not asked about at three. */
const aboveSds = 3;
/**
 * From here on a valve is more likely open than the cylinder so bad: a piston off top dead centre reads 90 to 100 % (trade
 * notes, section 2; judgement).
 */
const openValvePercent = 90;
/** No engine loses nothing: a closed valve core in the hose, or a gauge that was not zeroed (trade notes, section 2; judgement). */
const noLossPercent = 0.5;
/** Yet of a cylinder as tight as this some readings come out so; then it takes a second one (measured). */
const tightPercent = 5;

/** The most that two honest readings of one cylinder at a level differ by. */
export function farFrom(level: number, { test }: Pick<EntryTerms, "test">): number {
  const { shared, own } = repeatability(test === "leak-down" ? "leak-down" : "compression-dry", Math.max(0, level));
  return farSds * Math.SQRT2 * Math.hypot(shared, own);
}

interface Taken {
  readonly terms: EntryTerms;
  readonly facts: MeasureFacts;
  /** The readings of the sheet that are kept already, in their order. */
  readonly before: readonly Entry[];
}

/**
 * Sets a reading against what is possible, the last test, the limit, the other cylinders of this sheet and the figures of
 * the last one. What it finds, the weightiest first; one cause is told once.
 */
export function judgeEntry(entry: Entry, { terms, facts, before }: Taken): readonly EntryFinding[] {
  const to = levelOf(entry.value, terms);
  const { last, limit } = expectedOf(entry.cylinder, facts, terms);
  const near = last ?? facts.newKpa;
  const otherUnit = near === null ? null : otherScale(entry.value, { terms, to, near });
  const why = impossible(entry, terms);
  const found: (EntryFinding | null)[] = [why === null ? null : { code: "impossible", why }, otherUnit];
  if (to === null || why !== null) return found.filter((finding) => finding !== null);
  const isOpen = terms.test === "leak-down" && to >= openValvePercent;
  const isNone = isNoLoss(entry, to, { terms, facts, before });
  const isFar = last !== null && Math.abs(to - last) > farFrom(last, terms);
  const first = entry.firstStroke === null ? null : levelOf(entry.firstStroke, terms);
  if (otherUnit === null) {
    found.push(
      isOpen ? { code: "not-at-top", to } : null,
      isNone ? { code: "no-loss", to } : null,
      isFar && !isOpen && !isNone ? { code: "far", from: last, to } : null,
      aboveOthers(entry, to, { terms, facts, before }) ?? aboveNew(to, { terms, facts, isFar }),
    );
  }
  found.push(
    first !== null && first > to ? { code: "first-stroke-above", first, to } : null,
    copied(entry, { terms, facts, before }),
    otherUnit === null && limit !== null && (terms.test === "leak-down" ? to >= limit : to <= limit)
      ? { code: "past-limit", limit, to }
      : null,
  );
  return found.filter((finding) => finding !== null);
}

/** What intake would refuse, by its own rules and in its words. */
function impossible({ value, firstStroke }: Entry, { test, valueUnit, supply, orificeMm }: EntryTerms): string | null {
  const reading = { test, valueUnit, supply, firstStroke, orificeMm };
  const refused = [...judgeMeasure(reading), judgeValue(value, reading, "value")].find(
    (finding) => finding?.severity === "refused",
  );
  return refused?.why ?? null;
}

/** The unit or scale in which the figure would be what is expected, where it is not so as it stands. */
function otherScale(
  value: number,
  { terms, to, near }: { readonly terms: EntryTerms; readonly to: number | null; readonly near: number },
): EntryFinding | null {
  const margin = farFrom(near, terms);
  if (to !== null && Math.abs(to - near) <= margin) return null;
  if (terms.test === "leak-down" && to !== null && to >= openValvePercent) return null;
  const scales: readonly (readonly [OtherScale, number])[] =
    terms.test === "leak-down"
      ? terms.valueUnit === "%"
        ? [
            ["held-of-80", 100 * (1 - value / 80)],
            ["held-percent", 100 - value],
          ]
        : []
      : pressureUnits.filter((unit) => unit !== terms.valueUnit).map((unit) => [unit, toKpa(value, unit)] as const);
  // A scale counts only where it explains the figure far better than wear could.
  const fits = scales.filter(([, reads]) => Math.abs(reads - near) <= margin && farApart(to, reads));
  const [best] = fits.toSorted(([, a], [, b]) => Math.abs(a - near) - Math.abs(b - near));
  return best === undefined ? null : { code: "other-unit", unit: best[0], reads: best[1], near };
}

/**
 * kgf/cm2 and bar lie 2 % apart, and an engine that holds half its air may be as worn as it reads: such figures are left to
 * the other questions. Judgement: pressures three times apart, leakages by thirty points.
 */
function farApart(to: number | null, reads: number): boolean {
  if (to === null) return true;
  const [less, more] = [Math.min(to, reads), Math.max(to, reads)];
  return more > 3 * less && more - less > 30;
}

/** Nothing lost in a cylinder that lost something, or of which nothing is known, or in two of this sheet. */
function isNoLoss(entry: Entry, to: number, taken: Taken): boolean {
  if (taken.terms.test !== "leak-down" || to > noLossPercent) return false;
  const { last } = expectedOf(entry.cylinder, taken.facts, taken.terms);
  return last === null || last > tightPercent || [...othersOf(entry, taken).values()].some((of) => of <= noLossPercent);
}

/** The newest reading of each other cylinder on this sheet, as a level. */
function othersOf(entry: Entry, { terms, before }: Taken): ReadonlyMap<number, number> {
  const others = new Map<number, number>();
  for (const { cylinder, value } of before) {
    const level = levelOf(value, terms);
    if (cylinder !== entry.cylinder && level !== null) others.set(cylinder, level);
  }
  return others;
}

/**
 * A compression far above the highest of the others, unless it stood as far above them at the last test: carbon, oil or
 * fuel in the cylinder, or a slip. What a test's readings share falls away between them, so only each one's own error counts:
 * that of two shares of two readings each.
 */
function aboveOthers(entry: Entry, to: number, taken: Taken): EntryFinding | null {
  const { terms, facts } = taken;
  if (terms.test !== "compression-dry") return null;
  const others = othersOf(entry, taken);
  if (others.size < 2) return null;
  const highest = Math.max(...others.values());
  const lastOf = (cylinder: number) => expectedOf(cylinder, facts, terms).last;
  const lastOfOthers = [...others.keys()].map(lastOf).filter((level) => level !== null);
  const own = lastOf(entry.cylinder);
  const stood = own === null || lastOfOthers.length === 0 ? 0 : Math.max(0, own / Math.max(...lastOfOthers) - 1);
  const margin = (aboveSds * 2 * repeatability("compression-dry", highest).own) / highest;
  return to / highest - 1 - stood > margin ? { code: "above-others", to, highest } : null;
}

/** Without a last test, the model's figure when new is the only measure of too high. */
function aboveNew(
  to: number,
  { terms, facts, isFar }: Pick<Taken, "terms" | "facts"> & { readonly isFar: boolean },
): EntryFinding | null {
  const { newKpa } = facts;
  if (terms.test !== "compression-dry" || newKpa === null || isFar) return null;
  return to - newKpa > farFrom(newKpa, terms) ? { code: "above-new", to, newKpa } : null;
}

/** This reading and those just before it repeat the last test's figures to the last digit. */
function copied(entry: Entry, { terms, facts, before }: Taken): EntryFinding | null {
  const repeats = ({ cylinder, value }: Entry) => {
    const [last] = facts.byCylinder.find((each) => each.cylinder === cylinder)?.last ?? [];
    return last !== undefined && last.valueUnit === terms.valueUnit && last.value === value;
  };
  const run: Entry[] = [];
  for (const each of [entry, ...before.toReversed()]) {
    if (!repeats(each) || run.some(({ cylinder }) => cylinder === each.cylinder)) break;
    run.unshift(each);
  }
  const isEnough = (entries: readonly Entry[]) =>
    areEnoughToBeCopied(
      terms.test,
      entries.map(({ value }) => value),
    );
  // Asked once, when the run is long enough; those after it belong to it.
  if (!isEnough(run) || isEnough(run.slice(0, -1))) return null;
  return { code: "copied", cylinders: run.map(({ cylinder }) => cylinder) };
}
