import { daysBetween } from "../calendar.ts";
import type { SealedTest } from "../sealing/types.ts";
import { dateWords, numberWords } from "../wording.ts";
import { commonPart, nextSound } from "./common-part.ts";
import { type DoubtSheet, noteDoubt } from "./doubt-sheet.ts";
import { faultProbability, weightOf } from "./fault-probability.ts";
import { smallestStep } from "./improvements.ts";
import { probableFault } from "./probable-fault.ts";
import type { MeasureSeries } from "./series.ts";
import { fewestOthers, offTestOf, spoiltShare, unconfirmedWeight, zLimit } from "./shared-error.ts";

/** What an engine may have worn since the test before: points of leakage, or share of the compression, in a year. Judgement. */
const wornInAYear = { "leak-down": 3, "compression-dry": 0.02 } as const;
const nothingOff: ReadonlySet<number> = new Set();

/**
 * A last test at which all cylinders read far worse than the one or two tests before it, too few to foretell it from: the test
 * or a fault that came at once, which nothing but a further test can tell. It counts when it lies a whole fault away (8
 * points and 35 % of leakage, 8 % of compression, as an improvement that nobody explained) and beyond 3.5 standard deviations
 * of what the fleet's tests repeat to, with what an engine may wear meanwhile. Engineering judgement, no source.
 *
 * With three tests before it lib/condition/shared-error.ts judges it by their line.
 */
export function noteLastOfFew(sheet: DoubtSheet, series: MeasureSeries): void {
  const { measure, tests } = series;
  const k = tests.length - 1;
  const before = k < 1 ? null : nextSound(sheet, series, k, -1, nothingOff);
  if (before === null || commonPart(sheet, series, k, fewestOthers, nothingOff) !== null) return;
  // A line through two tests foretells nothing: the last is held against the one before it.
  const others = new Set(tests.filter((_, i) => i !== k && i !== before));
  const part = commonPart(sheet, series, k, 1, others);
  if (!part?.together || part.deviation <= 0) return;
  const last = sheet.history.tests[tests[k] as number] as SealedTest;
  const earlier = sheet.history.tests[tests[before] as number] as SealedTest;
  const years = daysBetween(earlier.date, last.date) / 365;
  const worn = years * wornInAYear[measure] * (measure === "leak-down" ? 1 : part.level);
  const sd = Math.hypot(part.sd, worn);
  const level = measure === "leak-down" ? part.level + part.deviation : part.level;
  if (part.deviation < smallestStep(measure, level) || part.deviation <= zLimit * sd) return;
  const probability = faultProbability({ measure, size: part.deviation, sd, level: part.level }, spoiltShare);
  const isLeak = measure === "leak-down";
  const read = numberWords(isLeak ? part.level + part.deviation : part.level - part.deviation);
  const who = series.cylinders.length === 1 ? "the cylinder" : "all cylinders";
  noteDoubt(sheet, tests[k] as number, {
    code: "last-of-few",
    cylinder: null,
    weight: weightOf(probability, unconfirmedWeight),
    words: `${who} read about ${read} ${isLeak ? "%" : "kPa"}, at the test before, of ${dateWords(earlier.date)}, about ${numberWords(part.level)}: a fault that came at once, or the test (${probableFault(offTestOf(sheet, series, k, nothingOff))}); test again now`,
  });
}
