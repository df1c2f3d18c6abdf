import type { InstrumentBias } from "../schema/comparison.ts";
import type { EngineHistory } from "../sealing/types.ts";
import { noteBreakIn } from "./break-in.ts";
import { findContradictions } from "./contradictions.ts";
import { blankDoubtSheet, type DoubtSheet } from "./doubt-sheet.ts";
import { noteOddStrokes } from "./few-strokes.ts";
import { findImprovements } from "./improvements.ts";
import { noteInstrumentBiases } from "./instrument-bias.ts";
import { noteJudgements } from "./judgements.ts";
import { noteLastOfFew } from "./last-of-few.ts";
import { noteDecompressor, noteLifters } from "./lasting-set-up.ts";
import { noteLowAlone } from "./low-alone.ts";
import { noteNoLeak } from "./no-leak.ts";
import { noteNotAtTdc } from "./not-at-tdc.ts";
import { type ReadingErrors, usualErrors } from "./reading-errors.ts";
import { noteRepeats } from "./repeats.ts";
import { noteReversedRows } from "./row-reversed.ts";
import { measureSeries } from "./series.ts";
import { noteSetUpDoubts } from "./set-up-doubts.ts";
import { noteTestsAllOff } from "./shared-error.ts";
import { noteTiringBattery } from "./tiring-battery.ts";
import { noteTooGood } from "./too-good.ts";
import type { ConditionedEngine } from "./types.ts";

/**
 * Judges how far each reading of an engine's history may be trusted, and finds improvements that nobody explained.
 * Nothing is taken away: a doubted reading keeps its place with a lower weight and the reason in words. What a person said
 * of a test comes before all else, then what the set-up columns say, then what the readings say about each other; each step
 * sees the weights left by those before.
 *
 * Rules and their figures: common practice and engineering judgement; each is stated with its function. They mislead most
 * with fewer than four tests, when little can be told from little, and little is doubted.
 *
 * @param errors what readings of the fleet repeat to; without it what is usual, as while that is still being learnt
 * @param biases instruments that read off on engines of the whole fleet; without them none is known
 */
export function conditionEngine(
  history: EngineHistory,
  errors: ReadingErrors = usualErrors,
  biases: readonly InstrumentBias[] = [],
): ConditionedEngine {
  const sheet = blankDoubtSheet(history, errors);
  const leakDown = measureSeries(history, "leak-down");
  const dry = measureSeries(history, "compression-dry");
  const judged = [leakDown, dry];
  noteJudgements(sheet);
  noteSetUpDoubts(sheet);
  noteInstrumentBiases(sheet, biases);
  noteRepeats(sheet);
  for (const series of judged) noteBreakIn(sheet, series);
  noteNotAtTdc(sheet, leakDown, dry);
  noteTooGood(sheet, leakDown);
  noteNoLeak(sheet, leakDown);
  noteDecompressor(sheet, dry, leakDown);
  noteLifters(sheet, leakDown);
  noteOddStrokes(sheet, dry);
  // A whole row that is explained has no cylinder that is low alone, and one reading put aside would hide the row.
  for (const series of judged) noteReversedRows(sheet, series);
  noteTiringBattery(sheet, dry);
  noteLowAlone(sheet, dry, leakDown);
  for (const series of judged) {
    const opened = findImprovements(sheet, series).map((improvement) => improvement.afterX);
    noteTestsAllOff(sheet, series, testsAt(sheet, opened));
    noteLastOfFew(sheet, series);
  }
  return {
    history,
    tests: history.tests.map((test, t) => ({
      test,
      doubts: sheet.doubts[t] ?? [],
      weights: sheet.weights[t] ?? [],
    })),
    improvements: judged.flatMap((series) => findImprovements(sheet, series)),
    contradictions: judged.flatMap((series) => findContradictions(sheet, series)),
  };
}

function testsAt({ history }: DoubtSheet, x: readonly number[]): ReadonlySet<number> {
  return new Set(x.length === 0 ? [] : history.tests.flatMap((test, t) => (x.includes(test.x) ? [t] : [])));
}
