import { daysBetween } from "../calendar.ts";
import { type ChangeFrame, materialMove } from "../schema/changes.ts";
import type { IsoDate } from "../schema/facts.ts";
import type { WindowDates } from "../schema/report.ts";

/** Days that a date of a window went; negative: sooner. */
interface DateMove {
  readonly from: IsoDate | null;
  readonly to: IsoDate | null;
  readonly days: number;
}

export interface WindowMove {
  readonly kind: "crossed" | "no-longer-crossed" | "appeared" | "gone" | "moved";
  /** −1: sooner, 1: later, 0: neither, for the unit had too few tests before or has too few now. */
  readonly sign: -1 | 0 | 1;
  readonly from: WindowDates;
  readonly to: WindowDates;
  /** Those of early, likely and late that moved by more than is told as noise; empty for a limit crossed. */
  readonly early: DateMove | null;
  readonly likely: DateMove | null;
  readonly late: DateMove | null;
}

/** The move of a date that counts, in days: a tenth of the window that it belonged to, within a week and a month. */
function threshold({ p10, p90 }: WindowDates): number {
  const { share, leastDays, mostDays } = materialMove;
  if (p10 === null || p90 === null) return mostDays;
  return Math.min(mostDays, Math.max(leastDays, share * daysBetween(p10, p90)));
}

/**
 * How a window moved between two assessments; null: not by more than is told as noise (`materialMove`). A date beyond the
 * horizon counts as its end, one that has gone by as the as-of date: neither the passing of a day nor a horizon that goes
 * along with it is a move.
 */
export function windowMove(from: WindowDates, to: WindowDates, { asOf, horizonEnd }: ChangeFrame): WindowMove | null {
  const none = { from, to, early: null, likely: null, late: null };
  if (to.status === "crossed") return from.status === "crossed" ? null : { ...none, kind: "crossed", sign: -1 };
  if (from.status === "crossed") return { ...none, kind: "no-longer-crossed", sign: 1 };
  const least = threshold(from);
  const move = (quantile: "p10" | "p50" | "p90"): DateMove | null => {
    const before = from[quantile] ?? horizonEnd;
    const days = daysBetween(before > asOf ? before : asOf, to[quantile] ?? horizonEnd);
    return Math.abs(days) > least ? { from: from[quantile], to: to[quantile], days } : null;
  };
  const moves = { early: move("p10"), likely: move("p50"), late: move("p90") };
  // The likely date is what people plan by; the edges decide only where it stayed.
  const leading = moves.likely ?? moves.early ?? moves.late;
  if (leading === null) return null;
  const isKnown = from.status !== "too-few-tests" && to.status !== "too-few-tests";
  const kind = from.p10 === null ? "appeared" : to.p10 === null ? "gone" : "moved";
  return { ...none, ...moves, kind, sign: !isKnown ? 0 : leading.days < 0 ? -1 : 1 };
}
