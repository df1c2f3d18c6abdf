import type { ComparedPlans } from "../../../lib/plan/compare-plans.ts";
import type { KeptPlan } from "../../../lib/schema/kept-plan.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { countWord, listWords, sentenceWords } from "../../../lib/wording.ts";

/** What differs between two plans, in a sentence. */
export function comparedFinding(f: Formats, { moved, added, gone, bookings }: ComparedPlans, after: KeptPlan): string {
  const parts = [
    moved === 0 ? null : `${countWord(moved)} ${moved === 1 ? "repair has" : "repairs have"} moved`,
    added === 0 ? null : `${countWord(added)} ${added === 1 ? "has" : "have"} come in`,
    gone === 0 ? null : `${countWord(gone)} ${gone === 1 ? "is" : "are"} booked no longer`,
  ].filter((part) => part !== null);
  if (parts.length === 0) {
    return bookings.length === 0
      ? "Neither plan books anything."
      : `Both plans book the same ${f.number(after.bookings.length)} ${after.bookings.length === 1 ? "repair" : "repairs"} in the same weeks.`;
  }
  return `${sentenceWords(listWords(parts))}.`;
}
