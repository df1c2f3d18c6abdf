import type { FleetCounts } from "../../../lib/schema/report.ts";
import { countWord, formatNumber, sentenceCase } from "../formats.ts";

const units = (count: number): string => `${countWord(count)} ${count === 1 ? "unit" : "units"}`;
const span = (months: number): string =>
  months === 12 ? "a year" : months % 12 === 0 ? `${countWord(months / 12)} years` : `${countWord(months)} months`;

/**
 * The Fleet's finding: what is past its limit and what wants a repair booked, else what is watched, else that nothing
 * stands out; then what lacks a test or an answer. One to three sentences.
 */
export function fleetFinding(counts: FleetCounts, leadTimeMonths: number): string {
  if (counts.all === 0) return "No units yet.";
  const tested = counts.all - counts.neverTested;
  if (tested === 0) {
    return counts.all === 1
      ? "The one unit was never tested."
      : `None of the ${countWord(counts.all)} units was ever tested.`;
  }
  return [urgent(counts, tested, span(leadTimeMonths)), openMatters(counts)].filter((s) => s !== "").join(" ");
}

function urgent(counts: FleetCounts, tested: number, within: string): string {
  const { "past-limit": past, plan, watch } = counts.byBand;
  const pastWords = `${units(past)} ${past === 1 ? "is past its limit" : "are past their limits"}`;
  if (past > 0 && plan > 0) return sentenceCase(`${pastWords}; ${planWords(plan, counts.planSoon, within)}.`);
  if (past > 0) return sentenceCase(`${pastWords}; no other needs a repair planned.`);
  if (plan > 0) return sentenceCase(`${planWords(plan, counts.planSoon, within)}; none is past its limit.`);
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
  return parts.length === 0 ? "" : `${sentenceCase(parts.join(" and "))}.`;
}

/** "Units 1–25 of 40", for under the table. */
export function rowsInWords(page: number, pageSize: number, total: number): string {
  if (total === 0) return "No units";
  const first = (page - 1) * pageSize + 1;
  const last = Math.min(total, page * pageSize);
  return first === last
    ? `Unit ${formatNumber(first)} of ${formatNumber(total)}`
    : `Units ${formatNumber(first)}\u2013${formatNumber(last)} of ${formatNumber(total)}`;
}
