import { dateWords, measureWords } from "../wording.ts";
import type { Finding } from "./bayes.ts";
import type { EngineView } from "./engine-view.ts";
import { causeBit } from "./words.ts";

/** Doubts about the last reading of a cylinder, or about the whole test, that no usable re-test has settled. */
export function observeDoubts(view: EngineView, cylinder: number): Finding[] {
  return (view.recent.unsettled[cylinder - 1] ?? []).map(({ doubt, measure, strength }) => ({
    id: doubt.cylinder === null ? "test-doubted" : "reading-doubted",
    strength,
    slots: { doubt: doubt.words, measure: measureWords[measure] },
    renewed: 0,
  }));
}

/** What was renewed in the cylinder, the last time of each class. */
export function observeRenewals(view: EngineView, cylinder: number): Finding[] {
  const renewals = view.recent.renewals[cylinder - 1] ?? [];
  const findings: Finding[] = [];
  const topEnd = renewals.findLast((renewal) => (renewal.causes & causeBit("exhaust-valve")) !== 0);
  const bottomEnd = renewals.findLast((renewal) => (renewal.causes & causeBit("rings-or-bore")) !== 0);
  if (topEnd !== undefined) {
    findings.push({ id: "top-end-renewed", strength: 1, slots: { date: dateWords(topEnd.date) }, renewed: 0 });
  }
  if (bottomEnd !== undefined) {
    findings.push({ id: "bottom-end-renewed", strength: 1, slots: { date: dateWords(bottomEnd.date) }, renewed: 0 });
  }
  return findings;
}
