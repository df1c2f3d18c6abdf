import { addDays } from "../../../lib/calendar.ts";
import type { WeekLoad } from "../../../lib/plan/load.ts";
import type { IsoDate } from "../../../lib/schema/facts.ts";
import type { DepotWeek } from "../../../lib/schema/kept-plan.ts";

/** A week of a depot's note. */
export interface NoteWeek {
  readonly start: IsoDate;
  readonly isClosed: boolean;
  readonly isPeak: boolean;
  readonly bayDays: { readonly used: number; readonly has: number };
  readonly hours: { readonly used: number; readonly has: number };
}

/** The weeks worth telling of a depot: those with work, closed or of a peak. */
export const noteWeeks = (
  load: readonly WeekLoad[],
  weeks: readonly DepotWeek[],
  firstMonday: IsoDate,
): readonly NoteWeek[] =>
  load
    .map(({ week, bayDays, hours }) => ({
      start: addDays(firstMonday, 7 * week),
      isClosed: weeks[week]?.openDays === 0,
      isPeak: (weeks[week]?.peakShare ?? 0) > 0,
      bayDays,
      hours,
    }))
    .filter(({ isClosed, isPeak, bayDays, hours }) => isClosed || isPeak || bayDays.used > 0 || hours.used > 0);

export interface WeekRun {
  readonly from: IsoDate;
  /** Monday of its last week. */
  readonly to: IsoDate;
}

/** Weeks that follow each other, joined. */
export function weekRuns(starts: readonly IsoDate[]): readonly WeekRun[] {
  const runs: { from: IsoDate; to: IsoDate }[] = [];
  for (const start of starts) {
    const last = runs.at(-1);
    if (last !== undefined && addDays(last.to, 7) === start) last.to = start;
    else runs.push({ from: start, to: start });
  }
  return runs;
}
