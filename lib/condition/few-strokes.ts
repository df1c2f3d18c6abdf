import { median, medianAbsoluteDeviation } from "../statistics/quantile.ts";
import { percentWords } from "../wording.ts";
import { type DoubtSheet, noteDoubt } from "./doubt-sheet.ts";
import { faultProbability, weightOf } from "./fault-probability.ts";
import { atError, usualErrors } from "./reading-errors.ts";
import { type CylinderSeries, isSound, levelFromOthers, type MeasureSeries } from "./series.ts";

const fewestOthers = 3;
/** The gauge did not climb any more after the first stroke, where that of the siblings did. */
const hardlyClimbs = 0.93;
const usualClimb = 0.88;
/** How far the reading must stand from what it should be, at usual repeatability: judgement; also four times its scatter. */
const lowShare = 0.08;
const highShare = 0.06;
const zLimit = 4;
/** Of a cylinder that should read less than any gauge shows no share is off. */
const leastKpa = 1;
/**
 * Of readings so many are spoilt before their distance is looked at: by oil, fuel or carbon, and by too few strokes where the
 * gauge hardly climbed; and what is left of the weight of one that surely is. Judgement.
 */
const spoilt = {
  high: { share: 0.03, least: 0.35 },
  low: { share: 0.3, least: 0.25 },
} as const;

/**
 * Readings of compression that one cylinder alone leaves its tests by, and that the way of testing explains. Too few
 * strokes: low, and the first stroke about as high as the last, while the siblings' gauge climbed. Oil, fuel or carbon in
 * it: above its siblings and its own tests, at the last test or one that the next did not bear out.
 */
export function noteOddStrokes(sheet: DoubtSheet, series: MeasureSeries): void {
  // Noted once all are looked at: one cylinder's doubt must not change what the next is held against.
  const noted: [test: number, doubt: Parameters<typeof noteDoubt>[2]][] = [];
  const standingOf = standingIn(sheet, series);
  for (const readings of series.cylinders) {
    for (const [place, value] of readings.value.entries()) {
      if (!isSound(sheet, readings, place)) continue;
      const t = readings.test[place] as number;
      const test = sheet.history.tests[t];
      const stands = standingOf(readings, place);
      if (stands === null || test === undefined) continue;
      const { expected, level } = stands;
      const share = value / level - 1;
      const own = sheet.errors["compression-dry"].own(level, test.instrument) / level;
      const scatter = own * Math.sqrt(expected.varianceFactor);
      const beyond = (least: number) =>
        Math.max(atError(least, { is: own, usual: usualErrors["compression-dry"].own(1) }), zLimit * scatter);
      const weighed = (of: "high" | "low") =>
        weightOf(
          faultProbability(
            { measure: "compression-dry", size: value - level, sd: scatter * level, level },
            spoilt[of].share,
          ),
          spoilt[of].least,
        );
      const reading = test.readings[readings.reading[place] as number];
      const climbs = test.readings.flatMap((r) =>
        r.cylinder === readings.cylinder || r.firstStrokeShare === null ? [] : [r.firstStrokeShare],
      );
      const first = reading?.firstStrokeShare ?? null;
      if (
        share <= -beyond(lowShare) &&
        first !== null &&
        first >= hardlyClimbs &&
        climbs.length > 0 &&
        median(climbs) <= usualClimb
      ) {
        noted.push([
          t,
          {
            code: "few-strokes",
            cylinder: readings.cylinder,
            weight: weighed("low"),
            words: `cylinder ${readings.cylinder} reads ${percentWords(-100 * share)} low and hardly climbed after the first stroke, as the others did: probably too few strokes; test again`,
          },
        ]);
      }
      // Where others fell the one that did not only looks high: it must stand above its own tests too.
      const high = Math.min(share, value / expected.level - 1);
      if (high < beyond(highShare) || test.readings.length < 3) continue;
      if (share < zLimit * usualScatter(sheet, standingOf, readings, place)) continue;
      const after = readings.value[place + 1];
      const isBorneOut =
        after !== undefined &&
        readings.life[place + 1] === readings.life[place] &&
        after / expected.level - 1 >= share / 2;
      if (isBorneOut || readings.life[place - 1] !== readings.life[place]) continue;
      noted.push([
        t,
        {
          code: "above-siblings",
          cylinder: readings.cylinder,
          weight: weighed("high"),
          words: `cylinder ${readings.cylinder} reads ${percentWords(100 * share)} above its siblings and its own tests: probably oil, fuel or carbon in it; test again`,
        },
      ]);
    }
  }
  for (const [test, doubt] of noted) noteDoubt(sheet, test, doubt);
}

/** What a reading should be, by its place in the cylinder's readings; null: too few others to tell. */
type Standing = (
  readings: CylinderSeries,
  place: number,
) => { readonly expected: NonNullable<ReturnType<typeof levelFromOthers>>; readonly level: number } | null;

/**
 * What readings should be by their cylinders' other tests, and beside them by what their tests' cylinders have in common. All
 * are reckoned once: each reading asks for those of its whole test.
 */
function standingIn(sheet: DoubtSheet, series: MeasureSeries): Standing {
  const expectedOf = series.cylinders.map((own) =>
    own.test.map((_, place) => levelFromOthers(sheet, own, place, fewestOthers, () => false)),
  );
  // By test: what its readings are of what their cylinders should have read.
  const commonOf = new Map<number, number>();
  for (const [k, t] of series.tests.entries()) {
    const shares = sheet.history.tests[t]?.readings.map((r, i) => {
      const expected = expectedOf[r.cylinder - 1]?.[series.places[k]?.[i] as number] ?? null;
      return expected === null || expected.level < leastKpa ? 1 : r.value / expected.level;
    });
    if (shares !== undefined && shares.length > 0) commonOf.set(t, median(shares));
  }
  return (readings, place) => {
    const expected = expectedOf[readings.cylinder - 1]?.[place] ?? null;
    const common = commonOf.get(readings.test[place] as number);
    const level = expected === null || common === undefined ? 0 : expected.level * common;
    return expected === null || level < leastKpa ? null : { expected, level };
  };
}

/** So many places on either side tell how widely a cylinder's tests scatter, where they hold so many readings at the least. */
const reach = 10;
const fewestForScatter = 4;

/** How far the cylinder's other readings stand from what they should be, in shares: an engine whose tests scatter widely. */
function usualScatter(sheet: DoubtSheet, standingOf: Standing, readings: CylinderSeries, place: number): number {
  const shares: number[] = [];
  for (let other = Math.max(0, place - reach); other <= place + reach; other++) {
    const value = readings.value[other];
    if (other === place || value === undefined || readings.life[other] !== readings.life[place]) continue;
    const stands = isSound(sheet, readings, other) ? standingOf(readings, other) : null;
    if (stands !== null) shares.push(value / stands.level - 1);
  }
  return shares.length < fewestForScatter ? 0 : medianAbsoluteDeviation(shares);
}
