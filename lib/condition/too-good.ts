import { median } from "../statistics/quantile.ts";
import { percentWords } from "../wording.ts";
import { nextSound } from "./common-part.ts";
import { type DoubtSheet, noteDoubt } from "./doubt-sheet.ts";
import { levelFromOthers, type MeasureSeries } from "./series.ts";

/** Leakage that no used engine has, and what must have stood there before for it to be too good. */
export const perfectPercent = 3;
const wellAbovePercent = 8;
const nothingOff: ReadonlySet<number> = new Set();

const readingsAt = (sheet: DoubtSheet, test: number): number[] =>
  sheet.history.tests[test]?.readings.map((reading) => reading.value) ?? [];

/**
 * Leak-down tests at which every cylinder of an engine that leaked well before seals perfectly, and neither the test
 * before nor the next does: the valve core left in the hose, or no air at all.
 */
export function noteTooGood(sheet: DoubtSheet, series: MeasureSeries): void {
  for (const [k, index] of series.tests.entries()) {
    const readings = sheet.history.tests[index]?.readings ?? [];
    if (readings.some((reading) => reading.value > perfectPercent)) continue;
    const levels: number[] = [];
    for (const [r, reading] of readings.entries()) {
      const own = series.cylinders[reading.cylinder - 1];
      if (own === undefined) continue;
      const expected = levelFromOthers(sheet, own, series.places[k]?.[r] as number, 1, () => false);
      if (expected !== null) levels.push(expected.level);
    }
    if (levels.length < Math.max(1, readings.length / 2) || median(levels) < wellAbovePercent) continue;
    const halfway = (perfectPercent + median(levels)) / 2;
    const borneOut = ([-1, 1] as const).some((step) => {
      const beside = nextSound(sheet, series, k, step, nothingOff);
      const values = beside === null ? [] : readingsAt(sheet, series.tests[beside] as number);
      return values.length > 0 && median(values) < halfway;
    });
    if (borneOut) continue;
    noteDoubt(sheet, index, {
      code: "too-good",
      cylinder: null,
      weight: 0.1,
      words: `all cylinders at 0 to ${perfectPercent} % where about ${percentWords(median(levels))} was to be expected: valve core left in the hose? Test again`,
    });
  }
}
