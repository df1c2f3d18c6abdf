import { median } from "../statistics/quantile.ts";
import { cylinderWords, percentWords } from "../wording.ts";
import { nextSound } from "./common-part.ts";
import { type DoubtSheet, noteDoubt, noteDoubtOfCylinders } from "./doubt-sheet.ts";
import { type CylinderSeries, isSound, levelFromOthers, type MeasureSeries } from "./series.ts";

/** Leakage that no used engine has, and what must have stood there before for it to be too good. */
const perfectPercent = 3;
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

/** Read as nothing at all, however finely the tester is read. */
const nothingPercent = 0.25;
/** What is left of its weight: alone, and where the next test was not as tight. */
const unconfirmedWeight = 0.3;
const refutedWeight = 0.1;

/**
 * First readings of a life at 0 %: no engine holds all its air, so that the tester was shut, not zeroed, or its hose kept the
 * valve core. With no earlier reading nothing else tells them from a very tight cylinder but its siblings, or the next
 * test, which may bear them out.
 */
export function noteNoLeak(sheet: DoubtSheet, { tests, cylinders }: MeasureSeries): void {
  for (const index of tests) {
    // Beside siblings that hold all but a little it may well be true.
    const siblings = readingsAt(sheet, index).filter((value) => value > nothingPercent);
    if (siblings.length > 0 && median(siblings) <= perfectPercent) continue;
    const found = cylinders.flatMap((own) => {
      const place = own.test.indexOf(index);
      const isFirst = place >= 0 && own.life[place - 1] !== own.life[place];
      if (!isFirst || (own.value[place] as number) > nothingPercent || !isSound(sheet, own, place)) return [];
      const next = nextReading(sheet, own, place);
      return next !== null && next <= perfectPercent ? [] : [{ cylinder: own.cylinder, isRefuted: next !== null }];
    });
    for (const isRefuted of [false, true]) {
      const which = found.filter((one) => one.isRefuted === isRefuted).map(({ cylinder }) => cylinder);
      if (which.length === 0) continue;
      noteDoubtOfCylinders(sheet, index, which, {
        code: "too-good",
        weight: isRefuted ? refutedWeight : unconfirmedWeight,
        words: `${cylinderWords(which)} at 0 %, which no engine reads: tester shut or not zeroed, or the valve core left in the hose? ${isRefuted ? "The next test was not so: hardly used" : "Test again"}`,
      });
    }
  }
}

/** The next sound reading of the same life; null: none. */
function nextReading(sheet: DoubtSheet, own: CylinderSeries, place: number): number | null {
  for (let p = place + 1; own.life[p] === own.life[place]; p++)
    if (isSound(sheet, own, p)) return own.value[p] as number;
  return null;
}
