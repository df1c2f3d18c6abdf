import type { Forecaster, Held, MissReason } from "../schema/track-record.ts";
import { numberWords, percentWords } from "../wording.ts";

/** How the record is told, on the page and in the terminal. */

export const forecasterWords = {
  borecast: "Borecast",
  "straight-line": "straight-line trend",
  "last-time": "same as last time",
  "fixed-interval": "fixed interval",
} as const satisfies Record<Forecaster, string>;

export const reasonWords = {
  "limit-changed": "limit changed",
  "instrument-off": "instrument off",
  "set-up": "set-up",
  "wrong-cause": "wrong cause",
  "repaired-early": "repaired early",
  "repair-not-recorded": "repair not recorded",
  "use-changed": "use changed",
  scatter: "that test alone was off",
  "fault-began": "fault began",
  "within-scatter": "within the scatter",
  "rate-changed": "rate changed",
} as const satisfies Record<MissReason, string>;

/** How figures are written. */
interface Figures {
  readonly number: (value: number) => string;
  readonly percent: (percent: number) => string;
}

/** "83 %" of a share; "17 of 19" where that is too few to tell. */
export const shareOrCount = ({ share, held, of }: Pick<Held, "share" | "held" | "of">, write: Figures): string =>
  share === null ? `${write.number(held)} of ${write.number(of)}` : write.percent(100 * share);

/** The same in the terminal. */
export const heldWords = (held: Held): string => shareOrCount(held, { number: numberWords, percent: percentWords });

/** "76 to 88 %"; null: too few to tell. */
export const intervalWords = ({ low, high }: Pick<Held, "low" | "high">): string | null =>
  low === null || high === null ? null : `${numberWords(100 * low)} to ${percentWords(100 * high)}`;

/** "ranges 12 % too narrow", "ranges as wide as they should be" */
export function widthWords(factor: number): string {
  const percent = Math.round(100 * Math.abs(factor - 1));
  if (percent < 3) return "as wide as they should be";
  return factor > 1 ? `too narrow: widen by ${percent} %` : `too wide: narrow by ${percent} %`;
}
