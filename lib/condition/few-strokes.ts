import { repeatability } from "../repeatability.ts";
import { median } from "../statistics/quantile.ts";
import { percentWords } from "../wording.ts";
import { type DoubtSheet, noteDoubt } from "./doubt-sheet.ts";
import { isSound, levelFromOthers, type MeasureSeries } from "./series.ts";

const fewestOthers = 3;
/** The gauge did not climb any more after the first stroke, where that of the siblings did. */
const hardlyClimbs = 0.93;
const usualClimb = 0.88;
/** How far the reading must stand from what it should be: judgement; above also four times its own scatter. */
const lowShare = 0.08;
const highShare = 0.06;
const zLimit = 4;

/**
 * Readings of compression that one cylinder alone leaves its tests by, and that the way of testing explains. Too few
 * strokes: low, and the first stroke about as high as the last, while the siblings' gauge climbed. Oil, fuel or carbon in
 * it: above its siblings and its own tests, at the last test or one that the next did not bear out.
 */
export function noteOddStrokes(sheet: DoubtSheet, series: MeasureSeries): void {
  // Noted once all are looked at: one cylinder's doubt must not change what the next is held against.
  const noted: [test: number, doubt: Parameters<typeof noteDoubt>[2]][] = [];
  const expectedOf = series.cylinders.map((own) =>
    own.test.map((_, place) => levelFromOthers(sheet, own, place, fewestOthers, () => false)),
  );
  // By test: what its readings are of what their cylinders should have read.
  const commonOf = new Map<number, number>();
  for (const [k, t] of series.tests.entries()) {
    const shares = sheet.history.tests[t]?.readings.map((r, i) => {
      const expected = expectedOf[r.cylinder - 1]?.[series.places[k]?.[i] as number] ?? null;
      return expected === null ? 1 : r.value / expected.level;
    });
    if (shares !== undefined && shares.length > 0) commonOf.set(t, median(shares));
  }
  for (const [c, own] of series.cylinders.entries()) {
    for (const [place, value] of own.value.entries()) {
      if (!isSound(sheet, own, place)) continue;
      const t = own.test[place] as number;
      const expected = expectedOf[c]?.[place] ?? null;
      const test = sheet.history.tests[t];
      const common = commonOf.get(t);
      if (expected === null || test === undefined || common === undefined) continue;
      const share = value / (expected.level * common) - 1;
      const reading = test.readings[own.reading[place] as number];
      const climbs = test.readings.flatMap((r) =>
        r.cylinder === own.cylinder || r.firstStrokeShare === null ? [] : [r.firstStrokeShare],
      );
      const first = reading?.firstStrokeShare ?? null;
      if (
        share <= -lowShare &&
        first !== null &&
        first >= hardlyClimbs &&
        climbs.length > 0 &&
        median(climbs) <= usualClimb
      ) {
        noted.push([
          t,
          {
            code: "few-strokes",
            cylinder: own.cylinder,
            weight: 0.25,
            words: `cylinder ${own.cylinder} reads ${percentWords(-100 * share)} low and hardly climbed after the first stroke, as the others did: probably too few strokes; test again`,
          },
        ]);
      }
      const scatter = repeatability("compression-dry", 1).own * Math.sqrt(expected.varianceFactor);
      if (share < Math.max(highShare, zLimit * scatter) || test.readings.length < 3) continue;
      const after = own.value[place + 1];
      const isBorneOut =
        after !== undefined && own.life[place + 1] === own.life[place] && after / expected.level - 1 >= share / 2;
      if (isBorneOut || own.life[place - 1] !== own.life[place]) continue;
      noted.push([
        t,
        {
          code: "above-siblings",
          cylinder: own.cylinder,
          weight: 0.35,
          words: `cylinder ${own.cylinder} reads ${percentWords(100 * share)} above its siblings and its own tests: probably oil, fuel or carbon in it; test again`,
        },
      ]);
    }
  }
  for (const [test, doubt] of noted) noteDoubt(sheet, test, doubt);
}
