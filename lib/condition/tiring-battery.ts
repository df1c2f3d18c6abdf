import { numberWords, percentWords } from "../wording.ts";
import { type DoubtSheet, noteDoubt } from "./doubt-sheet.ts";
import { faultProbability, weightOf } from "./fault-probability.ts";
import { fewestToSlide } from "./probable-fault.ts";
import { isSound, levelFromOthers, type MeasureSeries } from "./series.ts";
import { returnedWeight, spoiltShare, zLimit } from "./shared-error.ts";

/** How much of the cylinders' differences an even fall from the first tested to the last must explain. Judgement. */
const explained = 0.9;
/**
 * What the last cylinder must have lost more than the first, as a share: with the order written down, and without. It does not
 * sink where tests repeat better, for a step of all cylinders leaves their lines a few per cent apart. Judgement.
 */
const leastFall = { noted: 0.06, notNoted: 0.12 } as const;
/** kPa; a cylinder that should read less has no compression that a battery could take. */
const leastLevel = 100;
const nothingOff = (): boolean => false;

interface Lost {
  /** Share of what the cylinder should have read that it lost. */
  readonly share: number;
  readonly variance: number;
  readonly level: number;
}

/**
 * Compression tests whose cylinders lose more and more in the order of testing, evenly, against what their other tests let
 * expect: a battery that tires as it cranks, and no cylinder's fault. No mean of all of them need lie far off for that, and
 * against each other they cannot be held. Where nobody wrote down the order it is mostly that of the cylinders; four of
 * them must be measured then. The fall from the first to the last must be beyond 3.5 standard deviations of what single
 * readings repeat to; one bad cylinder at the end, or two, make no even fall. Engineering judgement.
 */
export function noteTiringBattery(sheet: DoubtSheet, series: MeasureSeries): void {
  for (const k of series.tests.keys()) {
    const test = series.tests[k] as number;
    const { readings, setUp } = sheet.history.tests[test] as (typeof sheet.history.tests)[number];
    const isNoted = readings.every(({ order }) => order !== null);
    if (readings.length < (isNoted ? fewestToSlide : fewestToSlide + 1)) continue;
    const lostBy = (r: number): Lost | null => {
      const { cylinder, value, referralSd } = readings[r] as (typeof readings)[number];
      const own = series.cylinders[cylinder - 1];
      const place = series.places[k]?.[r] as number;
      if (own === undefined || !isSound(sheet, own, place)) return null;
      const expected = levelFromOthers(sheet, own, place, 1, nothingOff);
      if (expected === null || expected.level < leastLevel) return null;
      const error = sheet.errors["compression-dry"].own(expected.level, sheet.history.tests[test]?.instrument ?? null);
      return {
        share: 1 - value / expected.level,
        variance: (expected.varianceFactor * error ** 2 + referralSd ** 2) / expected.level ** 2,
        level: expected.level,
      };
    };
    const turn = (r: number): number => (isNoted ? readings[r]?.order : readings[r]?.cylinder) as number;
    const inTurn = [...readings.keys()].toSorted((a, b) => turn(a) - turn(b));
    // The two ends first: of nearly all tests they tell that nothing slides.
    const [first, last] = [lostBy(inTurn[0] as number), lostBy(inTurn.at(-1) as number)];
    if (first === null || last === null) continue;
    const slide = last.share - first.share;
    const sd = Math.sqrt(first.variance + last.variance);
    if (slide < (isNoted ? leastFall.noted : leastFall.notNoted) || slide <= zLimit * sd) continue;
    const lost = inTurn.flatMap((r) => lostBy(r) ?? []);
    if (lost.length < readings.length || !fallsEvenly(lost.map(({ share }) => share))) continue;
    const isLast = series.tests[k + 1] === undefined;
    const probability = faultProbability(
      { measure: "compression-dry", size: slide * first.level, sd: sd * first.level, level: first.level },
      spoiltShare,
    );
    const rpm = setUp.crankingRpm === null ? "" : ` (cranked at ${numberWords(setUp.crankingRpm)}/min)`;
    const inOrder = isNoted ? "in the order of testing" : "from the first cylinder to the last";
    noteDoubt(sheet, test, {
      code: "slow-cranking",
      cylinder: null,
      weight: weightOf(probability, returnedWeight),
      words: `readings fall ${inOrder}, by ${percentWords(100 * slide)} in all${rpm}: probably a battery that tires; ${isLast ? "charge it and test again" : "hardly used"}`,
    });
  }
}

/** Each loses more than the one before, by about as much. */
function fallsEvenly(shares: readonly number[]): boolean {
  if (shares.some((share, i) => i > 0 && share <= (shares[i - 1] as number))) return false;
  const n = shares.length;
  const mean = shares.reduce((sum, v) => sum + v, 0) / n;
  let [both, turns, squares] = [0, 0, 0];
  for (const [i, share] of shares.entries()) {
    const turn = i - (n - 1) / 2;
    both += turn * (share - mean);
    turns += turn ** 2;
    squares += (share - mean) ** 2;
  }
  return both ** 2 >= explained * turns * squares;
}
