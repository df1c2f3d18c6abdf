import { addMonths } from "../calendar.ts";
import type { ChangeFrame, Standing } from "../schema/changes.ts";
import type { IsoDate } from "../schema/facts.ts";
import type { AssessmentSettings } from "../schema/settings.ts";
import { type Band, bands } from "../schema/words.ts";
import { type WindowMove, windowMove } from "./window-move.ts";

/** What is different about a unit between two assessments. */
export interface UnitChange {
  readonly fleet: "new" | "left" | null;
  readonly band: { readonly from: Band | null; readonly to: Band | null } | null;
  readonly topEnd: WindowMove | null;
  readonly bottomEnd: WindowMove | null;
  /** Open questions before and now, where their number differs. */
  readonly questions: { readonly from: number; readonly to: number } | null;
  /** The date of the last test, where it is a newer one. */
  readonly newerTest: IsoDate | null;
  /** By band; where that stayed, by windows, the worse of the two. */
  readonly direction: "worse" | "better" | null;
  /** Something that a person looks for: more than that it was tested again. */
  readonly told: boolean;
}

/** The dates that standings are compared on, by the settings in force. */
export const changeFrame = (
  { horizonYears }: Pick<AssessmentSettings, "horizonYears">,
  asOf: IsoDate,
): ChangeFrame => ({
  asOf,
  horizonEnd: addMonths(asOf, Math.round(12 * horizonYears)),
});

/**
 * Compares where a unit stood with where it stands. null: it was not, or is not, in the fleet; at least one of them is
 * given.
 */
export function compareStandings(was: Standing | null, now: Standing | null, frame: ChangeFrame): UnitChange {
  const nothing = { band: null, topEnd: null, bottomEnd: null, questions: null, newerTest: null, direction: null };
  if (was === null || now === null) {
    if (was === now) throw new Error("a unit that neither was nor is in the fleet has not changed");
    return { ...nothing, fleet: was === null ? "new" : "left", newerTest: now?.lastTestDate ?? null, told: true };
  }
  const band = was.band === now.band ? null : { from: was.band, to: now.band };
  const topEnd = windowMove(was.topEnd, now.topEnd, frame);
  const bottomEnd = windowMove(was.bottomEnd, now.bottomEnd, frame);
  const questions = was.questions === now.questions ? null : { from: was.questions, to: now.questions };
  const newer =
    now.lastTestDate !== null && (was.lastTestDate === null || now.lastTestDate > was.lastTestDate)
      ? now.lastTestDate
      : null;
  const told = band !== null || topEnd !== null || bottomEnd !== null || questions !== null;
  const direction = directionOf(band, [topEnd, bottomEnd]);
  return { fleet: null, band, topEnd, bottomEnd, questions, newerTest: newer, direction, told };
}

function directionOf(band: UnitChange["band"], windows: readonly (WindowMove | null)[]): UnitChange["direction"] {
  if (band !== null && band.from !== null && band.to !== null) {
    return bands.indexOf(band.to) > bands.indexOf(band.from) ? "worse" : "better";
  }
  const signs = windows.map((move) => move?.sign ?? 0);
  if (signs.includes(-1)) return "worse";
  return signs.includes(1) ? "better" : null;
}
