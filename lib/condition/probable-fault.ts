import type { JudgedMeasure } from "../schema/words.ts";
import type { SealedTest } from "../sealing/types.ts";
import { median } from "../statistics/quantile.ts";
import { numberWords } from "../wording.ts";
import { atError, type ReadingErrors, usualErrors } from "./reading-errors.ts";

/** One cylinder of a test that lies off as a whole: what it read, and what the other tests let expect. */
export interface OffReading {
  readonly value: number;
  readonly expected: number;
  readonly order: number | null;
  /** Its usual leakage, where one is known; null: none. */
  readonly usualLeakage: number | null;
}

export interface OffTest {
  readonly test: SealedTest;
  readonly measure: JudgedMeasure;
  readonly readings: readonly OffReading[];
  readonly referenceRpm: number | null;
  /** Of the other measure on the same day: how far its readings lie off, worse is positive, in % or points; null: none. */
  readonly otherMeasure: number | null;
  /** What readings repeat to. */
  readonly errors?: ReadingErrors;
}

/** Turning so far below the reference speed lowers what is read, though not yet so far that the test cannot be used. */
const slowShare = 0.9;
/** The other measure of the same day is as usual within this: points of leakage, or % of compression; at usual repeatability. */
const asUsual = 3;
/** Of that measure, or of the same where two usual leakages are told apart: by how well tests of it repeat. */
const usualWithin = (measure: JudgedMeasure, errors: ReadingErrors): number => {
  const level = measure === "leak-down" ? 0 : 100;
  return atError(asUsual, { is: errors[measure].shared(level), usual: usualErrors[measure].shared(level) });
};

/**
 * What most probably went wrong with a test whose cylinders all lie off together, by the signature that it leaves in the
 * figures (trade practice and judgement): "probably a weak battery". Two or three words that a person can check; the test
 * keeps its doubt whatever is named. The rules are asked in order, the surest first.
 */
export function probableFault(of: OffTest): string {
  // Where no cylinder has other tests to go by, nothing tells one fault from another.
  if (of.readings.length === 0) return "probably its set-up or the tester";
  return of.measure === "leak-down" ? leakDownFault(of) : compressionFault(of);
}

function compressionFault({ test, readings, referenceRpm, otherMeasure, errors = usualErrors }: OffTest): string {
  const within = usualWithin("leak-down", errors);
  const slide = leastSlideAt(errors, test.instrument, median(readings.map((r) => r.expected)));
  const shares = readings.map(({ value, expected }) => value / expected - 1);
  const unit = unitSlip(median(shares) + 1);
  if (unit !== null) return unit;
  if (median(shares) > 0)
    return "probably another gauge, oil or fuel in the cylinders, or an altitude that is not on file";
  const rpm = test.setUp.crankingRpm;
  if (rpm !== null && referenceRpm !== null && rpm < slowShare * referenceRpm) {
    return `cranking speed ${numberWords(rpm)}/min: probably a weak battery`;
  }
  if (slides(readings, slide)) return "they slide down in the order of testing: probably a battery that tires";
  // Where nobody wrote down the order, it is mostly that of the cylinders.
  if (readings.length > 3 && readings.every((r) => r.order === null) && slides(inTurn(readings), slide)) {
    return "they slide down from the first cylinder to the last: a battery that tires if they were tested in that order, else slow cranking, the throttle shut or a cold engine";
  }
  if (leakyLoseMost(readings, { slide, within }))
    return "the leaky ones lose most: probably a weak battery, or plugs left in";
  if (otherMeasure !== null && otherMeasure >= within) return "leakage was up as well: probably a cold engine";
  if (otherMeasure !== null && Math.abs(otherMeasure) < within) {
    return areAlike("compression-dry", readings, { errors, test })
      ? "all by the same share beside the usual leakage: probably the throttle shut, or the gauge or its hose valve"
      : "beside the usual leakage: probably the throttle shut, or slow cranking";
  }
  return areAlike("compression-dry", readings, { errors, test })
    ? "all by the same share: probably the throttle shut, a cold engine, or the gauge or its hose valve"
    : "probably slow cranking, the throttle shut or a cold engine";
}

function leakDownFault({ test, readings, otherMeasure, errors = usualErrors }: OffTest): string {
  const points = readings.map(({ value, expected }) => value - expected);
  if (median(points) < 0) return "probably another orifice, or a regulator that was not zeroed";
  const heard = test.readings.flatMap((r) => r.heardAt);
  if (heard.length > 0 && heard.every((place) => place === "none")) {
    return "air was heard nowhere in the engine: probably the hose or an adaptor leaks";
  }
  if (otherMeasure !== null && otherMeasure >= usualWithin("compression-dry", errors))
    return "compression was down as well: probably a cold engine";
  if (areAlike("leak-down", readings, { errors, test }))
    return "all alike: probably a regulator not zeroed, a leaking hose, or low supply";
  return "probably low supply, another orifice, or a cold engine";
}

const inTurn = (readings: readonly OffReading[]): readonly OffReading[] =>
  readings.map((reading, i) => ({ ...reading, order: i + 1 }));

/** kPa of one of each unit that gauges are read in. */
const unitKpa = { psi: 6.895, bar: 100, "kgf/cm2": 98.07 } as const;
/** Readings further from the ratio of two units than this are no slip between them. Judgement. */
const nearRatio = 0.15;

/** Off by the ratio of two units: "about 1/7 of it: probably psi written as kPa". null: by no such ratio. */
function unitSlip(ratio: number): string | null {
  if (ratio <= 0) return null;
  const isNear = (of: number) => Math.abs(Math.log(ratio / of)) < nearRatio;
  if (isNear(1 / unitKpa.psi)) return "about a seventh of it: probably psi written as kPa";
  if (isNear(unitKpa.psi)) return "about seven times as much: probably kPa written as psi";
  if (isNear(1 / unitKpa.bar)) return "about a hundredth of it: probably bar or kgf/cm2 written as kPa";
  if (isNear(unitKpa.bar)) return "about a hundred times as much: probably kPa written as bar or kgf/cm2";
  if (isNear(unitKpa.psi / unitKpa.bar)) return "about a fourteenth of it: probably bar written as psi";
  if (isNear(unitKpa.bar / unitKpa.psi)) return "about fourteen times as much: probably psi written as bar";
  return null;
}

/** Cylinders whose order of testing is known that a slide must be told from. */
export const fewestToSlide = 3;

/** Later cylinders in the order of testing have lost more than earlier ones, and much more in all. */
function slides(readings: readonly OffReading[], slide: number): boolean {
  const ordered = readings
    .filter((r) => r.order !== null)
    .toSorted((a, b) => (a.order as number) - (b.order as number));
  if (ordered.length < fewestToSlide) return false;
  const shares = ordered.map(({ value, expected }) => value / expected);
  const falls = shares.slice(1).filter((share, i) => share < (shares[i] as number)).length;
  return falls === shares.length - 1 && (shares[0] as number) - (shares.at(-1) as number) >= slide;
}

/** What the last cylinder has lost more than the first: a good deal beyond what readings scatter by themselves usually. */
const leastSlide = 0.06;
const leastSlideAt = (errors: ReadingErrors, instrument: string | null, level: number): number =>
  atError(leastSlide, {
    is: errors["compression-dry"].own(level, instrument),
    usual: usualErrors["compression-dry"].own(level),
  });

/** By their usual leakage the leakier half has lost clearly more than the other. */
function leakyLoseMost(
  readings: readonly OffReading[],
  { slide, within }: { readonly slide: number; readonly within: number },
): boolean {
  const known = readings.filter((r) => r.usualLeakage !== null);
  if (known.length < 3) return false;
  const byLeak = known.toSorted((a, b) => (a.usualLeakage as number) - (b.usualLeakage as number));
  const [tightest, leakiest] = [byLeak[0], byLeak.at(-1)] as [OffReading, OffReading];
  if ((leakiest.usualLeakage as number) - (tightest.usualLeakage as number) < within) return false;
  return tightest.value / tightest.expected - leakiest.value / leakiest.expected >= slide;
}

/** No further apart than readings of one test scatter. */
function areAlike(
  measure: JudgedMeasure,
  readings: readonly OffReading[],
  { errors, test }: { readonly errors: ReadingErrors; readonly test: SealedTest },
): boolean {
  const off = readings.map(({ value, expected }) => (measure === "leak-down" ? value - expected : value / expected));
  const level = median(readings.map((r) => r.expected));
  const own = errors[measure].own(level, test.instrument) / (measure === "leak-down" ? 1 : level);
  return Math.max(...off) - Math.min(...off) <= 4 * own;
}
