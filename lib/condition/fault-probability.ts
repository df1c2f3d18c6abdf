import type { JudgedMeasure } from "../schema/words.ts";

/** Errors of sound tests have Student's tails, as the early warning takes them. */
const tailFreedom = 8;
const tailVariance = tailFreedom / (tailFreedom - 2);
/** Γ(9/2) / (Γ(4) √(8π)): the density of Student's t at 0 with 8 degrees of freedom. */
const tailPeak = 35 / (64 * Math.SQRT2);

/** How far a fault of the set-up moves what is read, as a standard deviation: points of leakage, share of compression. Judgement. */
const moved: Readonly<Record<JudgedMeasure, number>> = { "leak-down": 10, "compression-dry": 0.12 };

export interface Deviation {
  readonly measure: JudgedMeasure;
  /** From what the other tests let expect, and its standard deviation without a fault; kPa or points. */
  readonly size: number;
  readonly sd: number;
  /** Of what was to be expected. */
  readonly level: number;
}

/** Density at `size` of errors with this standard deviation. */
const densityAt = (size: number, sd: number): number =>
  (tailPeak *
    Math.sqrt(tailVariance) *
    (1 + ((size / sd) ** 2 * tailVariance) / tailFreedom) ** (-(tailFreedom + 1) / 2)) /
  sd;

/**
 * How likely a test, or a reading, that lies so far off was spoilt by its set-up, and not by chance: Bayes' rule over two
 * kinds of tests, sound ones and spoilt ones that are moved either way. Both have Student's tails, so that the further off
 * it lies the likelier it is.
 *
 * @param before share of such tests that are spoilt, before this one is looked at
 */
export function faultProbability({ measure, size, sd, level }: Deviation, before: number): number {
  // Of readings at 0 kPa nothing is known to scatter.
  if (sd <= 0) return size === 0 ? before : 1;
  const scale = Math.hypot(sd, measure === "leak-down" ? moved[measure] : moved[measure] * level);
  const [spoilt, sound] = [before * densityAt(size, scale), (1 - before) * densityAt(size, sd)];
  return spoilt / (spoilt + sound);
}

/** What is left of a weight: `least` where it is sure that it was spoilt, all of it where it is sure that it was not. */
export const weightOf = (probability: number, least: number): number =>
  Math.round(1000 * (1 - probability * (1 - least))) / 1000;
