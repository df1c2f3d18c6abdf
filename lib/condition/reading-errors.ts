import { repeatability } from "../repeatability.ts";
import type { JudgedMeasure } from "../schema/words.ts";
import type { FamilySpreads } from "./family.ts";

/** Standard deviations of one reading about the truth, in the unit of the measure, at a level. */
export interface ReadingError {
  /** What the readings of a test share: battery, temperature, gauge. */
  readonly shared: (level: number) => number;
  /** Each one's own, by the instrument where its tests say enough of it. */
  readonly own: (level: number, instrument?: string | null) => number;
}

/** What doubts are judged by. */
export type ReadingErrors = Readonly<Record<JudgedMeasure, ReadingError>>;

const usualOf = (measure: JudgedMeasure): ReadingError => ({
  shared: (level) => repeatability(measure, level).shared,
  own: (level) => repeatability(measure, level).own,
});

/** Before the fleet's own tests say anything: engineering judgement (lib/repeatability.ts). */
export const usualErrors: ReadingErrors = {
  "leak-down": usualOf("leak-down"),
  "compression-dry": usualOf("compression-dry"),
};

/** What the fleet's own tests repeat to, weighed against the starting values (lib/condition/family.ts). */
export function fleetErrors(spreads: FamilySpreads): ReadingErrors {
  const of = (measure: JudgedMeasure): ReadingError => ({
    shared: (level) => spreads[measure].sharedSd(level),
    own: (level, instrument = null) => spreads[measure].ownSd(level, instrument),
  });
  return { "leak-down": of("leak-down"), "compression-dry": of("compression-dry") };
}

/** No threshold sinks below this share of the usual one, however well a fleet's tests repeat. Judgement. */
const leastShare = 0.4;

/**
 * A threshold that is set for the usual error, in a fleet whose error is another: in proportion where that is smaller. Where
 * it is larger the threshold stays, for there the standard deviation decides.
 */
export const atError = (threshold: number, { is, usual }: { readonly is: number; readonly usual: number }): number =>
  threshold * (usual > 0 ? Math.min(1, Math.max(leastShare, is / usual)) : 1);
