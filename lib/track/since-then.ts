import { blankDoubtSheet, type DoubtSheet } from "../condition/doubt-sheet.ts";
import { earlyWarnings } from "../condition/early-warning.ts";
import type { FamilySpreads } from "../condition/family.ts";
import { findImprovements } from "../condition/improvements.ts";
import { isConcerned } from "../condition/instrument-bias.ts";
import { judgementOf } from "../condition/judgement-of.ts";
import { madeAfter, measureSeries, worseSign } from "../condition/series.ts";
import type { ConditionedEngine, UnexplainedImprovement } from "../condition/types.ts";
import type { InstrumentBias } from "../schema/comparison.ts";
import type { IsoDate } from "../schema/facts.ts";
import type { JudgedMeasure } from "../schema/words.ts";
import type { SealedTest } from "../sealing/types.ts";
import { dateWords, numberWords, percentWords } from "../wording.ts";
import type { Life, LifeReading } from "./life.ts";

/** What is known now, and was not when a forecast was made, that may be why it missed. Each gives words, or null. */

export interface Since {
  /** The engine as it is known now. */
  readonly now: ConditionedEngine;
  readonly measure: JudgedMeasure;
  readonly cylinder: number;
  readonly made: IsoDate;
  /** The test that the forecast was made after, and what came. */
  readonly from: SealedTest;
  readonly came: LifeReading;
  readonly life: Life;
  /** The likely level that was told for what came, as badness. */
  readonly likely: number;
  /** Above 0: worse than foretold. */
  readonly z: number;
}

/** Of the distance from the likely level to what came the instruments must explain so much. */
const mostOfIt = 0.5;

/**
 * The forecast's test or the one that came was made with an instrument, or at a depot, that the tests of the whole fleet show
 * to have read off on that day, to the side of the miss and by half of it or more. Where both were made with it nothing is
 * left to explain.
 */
export function instrumentOff(
  { from, came, likely, z, measure }: Since,
  biases: readonly InstrumentBias[],
): string | null {
  const [then, later] = [from, came.test].map((test) => surest(test, biases));
  const byThen = badnessOf(then, measure, likely);
  const byLater = badnessOf(later, measure, likely);
  const net = (byLater - byThen) * Math.sign(z);
  if (net <= 0 || net < mostOfIt * Math.abs(came.badness - likely)) return null;
  const isLater = byLater * z > 0;
  const [bias, date] = isLater ? [later, came.date] : [then, from.date];
  if (bias == null) return null;
  const size = Math.abs(bias.mean);
  const amount = measure === "leak-down" ? `${numberWords(size, size < 10 ? 1 : 0)} points` : percentWords(size);
  const whose = `${bias.of === "depot" ? "at" : "with"} ${bias.name}`;
  const off = `read about ${amount} ${bias.mean > 0 ? "high" : "low"} then, on ${numberWords(bias.engines)} engines alike`;
  const tests = bias.of === "depot" ? "where tests" : "which";
  return isLater
    ? `The test of ${dateWords(date)} was made ${whose}, ${tests} ${off}`
    : `The forecast rests on the test of ${dateWords(date)}, made ${whose}, ${tests} ${off}`;
}

const surest = (test: SealedTest, biases: readonly InstrumentBias[]): InstrumentBias | null =>
  biases
    .filter((bias) => isConcerned({ ...test, ...test.setUp }, bias))
    .toSorted((a, b) => b.probability - a.probability)[0] ?? null;

/** How much worse it makes a reading, in the unit of the measure. */
function badnessOf(bias: InstrumentBias | null | undefined, measure: JudgedMeasure, likely: number): number {
  if (bias == null) return 0;
  return worseSign[measure] * (measure === "leak-down" ? bias.mean : (bias.mean / 100) * Math.abs(likely));
}

/** A known miss needs a smaller step to be told by than a question to a person, and hardly a less sure one; judgement. */
const smallerStep = { ofLeast: 0.5, zLimit: 3, memberZLimit: 2 };
const bearsItOut = 2;

/**
 * The cylinder's readings stepped for the better with no repair on file between the forecast and what came; or at the forecast's
 * own test, which alone could not tell it from chance. By the same look as a question to a person
 * (lib/condition/improvements.ts), or by a smaller step that a second test bears out.
 */
export function unrecordedRepair({ now, measure, cylinder, made, came, z }: Since): string | null {
  if (z > 0) return null;
  const isMeant = (step: UnexplainedImprovement) =>
    step.cylinders.includes(cylinder) && step.date <= came.date && step.date >= made;
  const sheet = sheetOf(now);
  const smaller = findImprovements(sheet, measureSeries(now.history, measure), smallerStep).filter(
    (step) => step.testsSince >= bearsItOut,
  );
  const own = now.improvements.filter((step) => step.measure === measure);
  const step = [...own, ...smaller].find(isMeant);
  if (step === undefined) return null;
  const [decimals, unit] = step.measure === "leak-down" ? [1, "%"] : [0, "kPa"];
  const figures = `${numberWords(step.from, decimals)} to ${numberWords(step.to, decimals)} ${unit}`;
  return `Got better at once, from ${figures}, by the test of ${dateWords(step.date)}, and no repair is on file`;
}

/** The doubts and weights as they stand, to look at the readings again. */
export function sheetOf({ history, tests }: ConditionedEngine): DoubtSheet {
  return {
    ...blankDoubtSheet(history),
    doubts: tests.map(({ doubts }) => [...doubts]),
    weights: tests.map(({ weights }) => [...weights]),
  };
}

/**
 * A fault began after the forecast: by the test that came the cylinder had left its family for the worse, which the early
 * warning tells and no later test of the same life took back, or a person found so. Nobody could foretell it.
 */
export function faultBegan(since: Since, spreads: FamilySpreads): string | null {
  const { now, measure, cylinder, made, came, z } = since;
  if (z < 0) return null;
  const isSince = (date: IsoDate) => date > made && date <= came.date;
  const judged = now.history.tests.find(
    (test) => test.measure === measure && isSince(test.date) && judgementOf(test, cylinder)?.verdict === "fault",
  );
  if (judged !== undefined)
    return `A fault began after the forecast: ${judgementOf(judged, cylinder)?.by} accepted the test of ${dateWords(judged.date)} as that of a fault`;
  const warning = earlyWarnings(upToTheEnd(since), spreads).find((of) => of.cylinder === cylinder);
  if (warning === undefined || !isSince(warning.date)) return null;
  return `A fault began after the forecast: cylinder ${cylinder} left ${now.history.model.cylinders === 1 ? "its own course" : "its family"} at the test of ${dateWords(warning.date)}`;
}

/** The engine's tests and repairs up to the last reading of the life, which a repair then ended: it would end the warning too. */
function upToTheEnd({ now, life, came }: Since): ConditionedEngine {
  const end = (life.readings.at(-1) ?? came).test;
  const last = now.history.tests.findLastIndex((test) => test === end || (test.date === end.date && test.x === end.x));
  return {
    ...now,
    history: {
      ...now.history,
      tests: now.history.tests.slice(0, last + 1),
      repairs: now.history.repairs.filter((repair) => madeAfter(end, repair)),
    },
    tests: now.tests.slice(0, last + 1),
  };
}
