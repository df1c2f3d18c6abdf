import type { FleetCounts } from "../../../lib/schema/report.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { countWord, listWords, sentenceWords } from "../../../lib/wording.ts";
import type { FleetView } from "./address.ts";
import type { DueWhileClosed } from "./depot-weeks.ts";

const units = (count: number): string => `${countWord(count)} ${count === 1 ? "unit" : "units"}`;
/** A number of months as one says it: "a year", "two years", "six months". */
export const monthsInWords = (months: number): string =>
  months === 12 ? "a year" : months % 12 === 0 ? `${countWord(months / 12)} years` : `${countWord(months)} months`;

interface Found {
  readonly f: Formats;
  /** Of the part looked at, or of the whole fleet. */
  readonly counts: FleetCounts;
  /** Units of the whole fleet. */
  readonly fleet: number;
  /** What part is looked at; empty: the whole fleet. */
  readonly part: string;
  readonly leadTimeMonths: number;
  /** Of those at plan: what falls due while its depot is closed. */
  readonly whileClosed: readonly DueWhileClosed[];
}

/**
 * The Fleet's finding: what is past its limit and what wants a repair booked, else what is watched, else that nothing
 * stands out; then what falls into a depot's closed weeks, and what lacks a test or an answer. One to four sentences.
 */
export function fleetFinding(found: Found): string {
  const { part, counts, fleet } = found;
  if (part === "") return findingOf(found);
  if (counts.all > 0) return `${part}: ${startLow(findingOf(found))}`;
  return fleet === 1
    ? `The one unit does not match ${part}.`
    : `None of the ${found.f.words(countWord(fleet))} units matches ${part}.`;
}

const startLow = (sentence: string): string => sentence.charAt(0).toLowerCase() + sentence.slice(1);

function findingOf({ counts, leadTimeMonths, whileClosed, f }: Found): string {
  if (counts.all === 0) return "No units yet.";
  const tested = counts.all - counts.neverTested;
  if (tested === 0) {
    return counts.all === 1
      ? "The one unit was never tested."
      : `None of the ${f.words(countWord(counts.all))} units was ever tested.`;
  }
  // Depots have names that people typed, so their sentence is not put into other words.
  return [
    f.words(urgent(counts, tested, monthsInWords(leadTimeMonths))),
    closedWords(counts, whileClosed, f),
    f.words(openMatters(counts)),
  ]
    .filter((s) => s !== "")
    .join(" ");
}

/** "At Highcol two of them fall due while the depot is closed." */
function closedWords({ planSoon }: FleetCounts, whileClosed: readonly DueWhileClosed[], f: Formats): string {
  const word = (count: number) => f.words(countWord(count));
  const all = whileClosed.reduce((sum, { units: count }) => sum + count, 0);
  const [first] = whileClosed;
  if (first === undefined) return "";
  if (planSoon === 1) return `The likely date of that repair falls into the closed weeks of ${first.depot}.`;
  const due = `of them ${all === 1 ? "falls" : "fall"} due while the depot is closed.`;
  if (whileClosed.length > 3) return `At ${word(whileClosed.length)} depots ${word(all)} ${due}`;
  return `${sentenceWords(listWords(whileClosed.map(({ depot, units: count }) => `at ${depot} ${word(count)}`)))} ${due}`;
}

function urgent(counts: FleetCounts, tested: number, within: string): string {
  const { "past-limit": past, plan, watch } = counts.byBand;
  const pastWords = `${units(past)} ${past === 1 ? "is past its limit" : "are past their limits"}`;
  if (past > 0 && plan > 0) return sentenceWords(`${pastWords}; ${planWords(plan, counts.planSoon, within)}.`);
  if (past > 0) return sentenceWords(`${pastWords}; no other needs a repair planned.`);
  if (plan > 0) return sentenceWords(`${planWords(plan, counts.planSoon, within)}; none is past its limit.`);
  if (watch > 0) return `No unit needs a repair planned; ${countWord(watch)} ${watch === 1 ? "is" : "are"} on watch.`;
  return tested === 1
    ? "Nothing stands out in the one unit tested."
    : `Nothing stands out in the ${countWord(tested)} units tested.`;
}

/** A unit is at plan by its level as well: what is likely within the lead time is told apart from what comes later. */
function planWords(plan: number, soon: number, within: string): string {
  const need = (count: number) => (count === 1 ? "needs" : "need");
  if (soon === plan) return `${units(plan)} likely ${need(plan)} a repair within ${within}`;
  const at = `${units(plan)} ${plan === 1 ? "is" : "are"} at plan`;
  if (soon === 0) return `${at}, with no repair likely within ${within}`;
  const others = plan - soon === 1 ? "one" : "the others";
  return `${at}, of which ${countWord(soon)} likely ${need(soon)} a repair within ${within} and ${others} later, if at all`;
}

function openMatters(counts: FleetCounts): string {
  const parts: string[] = [];
  if (counts.overdue > 0)
    parts.push(`${units(counts.overdue)} ${counts.overdue === 1 ? "has" : "have"} no recent test`);
  if (counts.questions > 0) {
    const who = parts.length === 0 ? units(counts.questions) : countWord(counts.questions);
    parts.push(`${who} ${counts.questions === 1 ? "waits" : "wait"} for an answer`);
  }
  return parts.length === 0 ? "" : `${sentenceWords(parts.join(" and "))}.`;
}

/** "Units 1–25 of 40", for under the table. */
export function rowsInWords(
  { page, pageSize }: Pick<FleetView, "page" | "pageSize">,
  total: number,
  f: Formats,
): string {
  if (total === 0) return "No units";
  const first = (page - 1) * pageSize + 1;
  const last = Math.min(total, page * pageSize);
  return first === last
    ? `Unit ${f.number(first)} of ${f.number(total)}`
    : `Units ${f.number(first)}\u2013${f.number(last)} of ${f.number(total)}`;
}
