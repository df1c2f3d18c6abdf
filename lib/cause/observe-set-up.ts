import { dateWords, measureWords } from "../wording.ts";
import type { Finding } from "./bayes.ts";
import { type EngineView, ramp } from "./engine-view.ts";
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

/** An improvement is half forgotten once a second test agrees with it. */
const improvedStrength = 0.5;

/** Leakage that fell with no repair on file: of this cylinder, or of all. */
export function observeImprovements(view: EngineView, cylinder: number): Finding[] {
  return view.engine.improvements.flatMap((improvement): Finding[] => {
    const { measure, cylinders, date, from, to, testsSince } = improvement;
    if (measure !== "leak-down" || date > view.asOf || !cylinders.includes(cylinder)) return [];
    const strength = testsSince >= 2 ? improvedStrength / 2 : improvedStrength;
    const isOfAll = view.model.cylinders > 1 && cylinders.length === view.model.cylinders;
    return [
      isOfAll
        ? { id: "improved-all", strength, slots: { date: dateWords(date) }, renewed: 0 }
        : { id: "improved-alone", strength, slots: { from, to, date: dateWords(date) }, renewed: 0 },
    ];
  });
}

/** Less than this of its leakage gone, or fewer points, and the repair did not cure it. */
const unmovedShare = 0.85;
const unmovedPoints = 2;

/** What the last repair did to the leakage: where it is as it was, the renewed parts were not what leaked. */
export function observeRepairEffect(view: EngineView, cylinder: number): Finding | null {
  const readings = view.recent.byMeasure["leak-down"][cylinder - 1] ?? [];
  const [latest] = readings;
  if (latest === undefined) return null;
  const at = readings.findIndex((reading) => reading.renewed !== latest.renewed);
  const [after, before] = [readings[at - 1], readings[at]];
  if (after === undefined || before === undefined || before.value < 0.9 * view.watchPercent) return null;
  const isUnmoved = after.value >= unmovedShare * before.value || after.value >= before.value - unmovedPoints;
  const repair = view.recent.renewals[cylinder - 1]?.findLast(({ date }) => date <= after.date && date >= before.date);
  if (!isUnmoved || repair === undefined) return null;
  const renewed = before.renewed & ~after.renewed;
  const [top, bottom] = [causeBit("exhaust-valve"), causeBit("rings-or-bore")].map((bit) => (renewed & bit) !== 0);
  if (top === bottom) return null;
  return {
    id: top ? "unmoved-by-top-end" : "unmoved-by-bottom-end",
    strength: ramp(before.value / view.watchPercent, 0.7, 1.5) * Math.min(before.trust, after.trust),
    slots: { before: before.value, after: after.value, date: dateWords(repair.date) },
    renewed: 0,
  };
}
