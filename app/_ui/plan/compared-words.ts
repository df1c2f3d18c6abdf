import type { ComparedPlans, ComparedUnits } from "../../../lib/plan/compare-plans.ts";
import type { KeptPlan } from "../../../lib/schema/kept-plan.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { countWord, listWords, sentenceWords } from "../../../lib/wording.ts";
import { leftOutWords } from "../plan-papers/paper-words.ts";

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

const unitsNamed = 8;

/** Which units one plan alone reckons with, and why the other does not, in sentences; empty: none. */
export function aloneWords({ onlyBefore, onlyAfter }: Pick<ComparedUnits, "onlyBefore" | "onlyAfter">): string {
  const sentence = (alone: ComparedUnits["onlyBefore"], which: string) =>
    [...new Set(alone.map(({ why }) => why))].map((why) => {
      const units = alone.filter((one) => one.why === why).map(({ unit }) => unit);
      const more = units.length > unitsNamed ? [`${units.length - unitsNamed} more`] : [];
      const names = listWords([...units.slice(0, unitsNamed), ...more]);
      const because = why === null ? "the other plan has no such unit" : `in the other plan, ${leftOutWords[why]}`;
      return `Only ${which}: ${names} (${because}).`;
    });
  return [...sentence(onlyBefore, "before"), ...sentence(onlyAfter, "after")].join(" ");
}
