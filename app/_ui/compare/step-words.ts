import type { SharedStep } from "../../../lib/schema/comparison.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { listWords } from "../../../lib/wording.ts";
import { levelUnitOf } from "./compare-words.ts";
import { amountWords } from "./tester-words.ts";

/** "At Midfell the leakage of 5 engines has read 11.0 points lower (9.8 to 12.2) since 3 Sep 2025, …", one sentence. */
export function stepWords(f: Formats, step: SharedStep): string {
  const { measure, of, name, date, mean, low, high, from, to, engines } = step;
  const what = measure === "leak-down" ? "leakage" : "compression";
  const unit = levelUnitOf(measure);
  const [near, far] = [low, high].map((v) => Math.abs(v)).sort((a, b) => a - b) as [number, number];
  const range = `(${f.number(near, 1)} to ${f.number(far, 1)})`;
  const how = `${amountWords(f, measure, mean)} ${mean > 0 ? "higher" : "lower"} ${range}`;
  const levels = `from about ${f.level(from, unit)} to ${f.level(to, unit)}`;
  const where = of === "depot" ? `At ${name}` : `With ${name}`;
  return `${where} the ${what} of ${f.number(engines)} engines has read ${how} since ${f.date(date)}, ${levels}, with no repair on file.`;
}

/** What a person is asked about it. */
export function stepQuestion({ of, name, boreNotNoted, newInstruments }: SharedStep): string {
  if (boreNotNoted) {
    return "No bore has been noted since: was another tester used? Enter the bore of its restrictor for these tests, or measure one calibrated leak with it.";
  }
  if (newInstruments.length > 0) {
    return `${listWords(newInstruments)} ${newInstruments.length === 1 ? "was" : "were"} new then: measure one calibrated leak, or one cylinder, with old and new.`;
  }
  return of === "instrument"
    ? `Check ${name}: its hose valve and adaptors, its zero, and one calibrated leak or gauge.`
    : "Another tester, another hand, or the air supply? Measure one calibrated leak there.";
}
