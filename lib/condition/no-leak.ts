import { roundingSdOf } from "../sealing/rounding.ts";
import type { SealedReading, SealedTest } from "../sealing/types.ts";
import { median } from "../statistics/quantile.ts";
import { cylinderWords, numberWords } from "../wording.ts";
import { type DoubtSheet, noteDoubt, noteDoubtOfCylinders } from "./doubt-sheet.ts";
import { type CylinderSeries, isSound, type MeasureSeries } from "./series.ts";
import { perfectPercent } from "./too-good.ts";

/** Read as nothing at all, however finely the tester is read. */
export const nothingPercent = 0.25;
/** What is left of its weight: alone, and where the next test was not as tight. */
const unconfirmedWeight = 0.3;
const refutedWeight = 0.1;

/** Readings of 0 %: of whole tests, and first ones of single cylinders. */
export function noteNoLeak(sheet: DoubtSheet, leakDown: MeasureSeries): void {
  noteFirstAtNothing(sheet, leakDown, noteAllAtNothing(sheet, leakDown));
}

/** Read by steps as wide as what a new engine leaks, nothing but a little is told by 0 % of all. */
const coarseStepPercent = 5;
/** What is left where the engine's other tests find it nearly as tight. */
const tightWeight = 0.5;

/**
 * Leak-down tests that find nothing at all in any cylinder: every engine leaks a little, a new one 1 to 5 %, and several
 * cylinders at 0 % at once are the tester's word and not theirs. That the next test says the same bears nothing out, for the same
 * tester was as likely shut off again; only a reading of the same life that shows a little speaks for the engine, or
 * against the test. Where that little is within the error of a tester a single cylinder may well read 0 % and is not doubted. Gives the tests
 * that it doubts.
 */
function noteAllAtNothing(sheet: DoubtSheet, series: MeasureSeries): ReadonlySet<number> {
  const noted = new Set<number>();
  const readingsOf = (index: number) => (sheet.history.tests[index] as SealedTest).readings;
  const nothing = series.tests.filter((index) => readingsOf(index).length > 0 && readingsOf(index).every(isNothing));
  for (const index of nothing) {
    const measured = readingsOf(index).map(({ cylinder }) => series.cylinders[cylinder - 1] as CylinderSeries);
    if (!measured.some((own) => isSound(sheet, own, own.test.indexOf(index)))) continue;
    const beside = measured.flatMap((own) => besideNothing(sheet, own, own.test.indexOf(index)));
    const isTight = beside.length > 0 && median(beside) <= perfectPercent;
    if (isTight && measured.length < 2) continue;
    const [weight, then] =
      beside.length === 0
        ? [unconfirmedWeight, "Test again"]
        : isTight
          ? [tightWeight, "Other tests show a little: counts half"]
          : [refutedWeight, "Other tests were not so: hardly used"];
    const which = cylinderWords(measured.map(({ cylinder }) => cylinder).toSorted((a, b) => a - b));
    noted.add(index);
    noteDoubt(sheet, index, {
      code: "too-good",
      cylinder: null,
      weight,
      words: `${which} at 0 %${asIn(nothing.length - 1)}, which no engine reads: tester shut, not connected or zeroed with the hose shut, or the valve core left in the hose? ${then}`,
    });
  }
  return noted;
}

const asIn = (others: number): string =>
  others === 0 ? "" : `, as in ${others === 1 ? "another test" : `${numberWords(others)} other tests`}`;

/** Read as nothing, by steps fine enough to show what a tight engine leaks. */
const isNothing = ({ value, roundingSd }: SealedReading): boolean =>
  value <= nothingPercent && roundingSd < roundingSdOf(coarseStepPercent);

/** The nearest sound readings before and after of the same life that show a little. */
function besideNothing(sheet: DoubtSheet, own: CylinderSeries, place: number): number[] {
  return [-1, 1].flatMap((step) => {
    for (let p = place + step; own.life[p] === own.life[place]; p += step) {
      const value = own.value[p] as number;
      if (value > nothingPercent && isSound(sheet, own, p)) return [value];
    }
    return [];
  });
}

/**
 * First readings of a life at 0 %: no engine holds all its air, so that the tester was shut, not zeroed, or its hose kept the
 * valve core. With no earlier reading nothing else tells them from a very tight cylinder but its siblings, or the next
 * test, which may bear them out. `noted`: tests of which that is said already.
 */
function noteFirstAtNothing(sheet: DoubtSheet, { tests, cylinders }: MeasureSeries, noted: ReadonlySet<number>): void {
  for (const index of tests) {
    if (noted.has(index)) continue;
    // Beside siblings that hold all but a little it may well be true.
    const { readings } = sheet.history.tests[index] as SealedTest;
    const siblings = readings.map(({ value }) => value).filter((value) => value > nothingPercent);
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
