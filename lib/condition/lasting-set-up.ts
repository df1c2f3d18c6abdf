import { daysBetween } from "../calendar.ts";
import type { SealedTest } from "../sealing/types.ts";
import { median } from "../statistics/quantile.ts";
import { percentWords } from "../wording.ts";
import { type DoubtSheet, noteDoubt } from "./doubt-sheet.ts";
import { type MeasureSeries, madeAfter } from "./series.ts";

/** A decompressor lets out 30 to 60 % from new on (trade practice). */
const opened = { least: 0.3, most: 0.65 };
const fewestTests = 2;
/** Flat: no further than this from the first test to the last. */
const flatShare = 0.08;
const soundPercent = 15;

/**
 * Compression that was very low at the first test already and stays there, beside a leakage that is normal: a decompressor
 * works, and the figure says nothing of the engine. All tests are kept and not used; leak-down judges it.
 */
export function noteDecompressor(sheet: DoubtSheet, dry: MeasureSeries, leakDown: MeasureSeries): void {
  const { history } = sheet;
  const newKpa = history.model.compression?.newKpa;
  if (newKpa === undefined || dry.tests.length < fewestTests || leakDown.tests.length === 0) return;
  const levels = dry.tests.flatMap((t) => {
    const values = (history.tests[t] as SealedTest).readings.map((r) => r.value);
    return values.length === 0 ? [] : [median(values)];
  });
  if (levels.length < fewestTests) return;
  const [first, last] = [levels[0] as number, levels.at(-1) as number];
  const lost = levels.map((level) => 1 - level / newKpa);
  if (lost.some((share) => share < opened.least || share > opened.most)) return;
  if (Math.abs(last - first) > flatShare * first) return;
  const leakage = leakDown.cylinders.flatMap((own) => own.value);
  if (leakage.some((value) => value > soundPercent)) return;
  const words = `${percentWords(100 * median(lost))} below new from the first test on and flat, beside normal leakage: probably a decompressor at work; kept, not used`;
  for (const t of dry.tests) noteDoubt(sheet, t, { code: "decompressor", cylinder: null, weight: 0, words });
}

const soonAfter = 31;
const fewestCylinders = 2;
const raisedPercent = 10;

/**
 * Several cylinders that leak at their valves soon after the head was off: lifters that are pumped up hold the valves open
 * a little, and are back after the engine has stood. Said of the first leak-down test after such a repair, unless a later
 * one bears it out.
 */
export function noteLifters(sheet: DoubtSheet, leakDown: MeasureSeries): void {
  const { history } = sheet;
  for (const repair of history.repairs) {
    if (repair.scope !== "top-end" && repair.scope !== "complete") continue;
    const later = leakDown.tests.filter((t) => madeAfter(history.tests[t] as SealedTest, repair));
    const [t, next] = later;
    if (t === undefined || !isRaised(history.tests[t] as SealedTest)) continue;
    if (daysBetween(repair.date, (history.tests[t] as SealedTest).date) > soonAfter) continue;
    if (next !== undefined && isRaised(history.tests[next] as SealedTest)) continue;
    const words =
      "several cylinders leak at their valves soon after the head was off: probably hydraulic lifters pumped up; let it stand and test again";
    noteDoubt(sheet, t, { code: "lifters", cylinder: null, weight: next === undefined ? 0.5 : 0.25, words });
  }
}

const isRaised = ({ readings }: SealedTest): boolean =>
  readings.filter(
    ({ value, heardAt }) => value >= raisedPercent && heardAt.some((place) => place === "inlet" || place === "exhaust"),
  ).length >= fewestCylinders;
