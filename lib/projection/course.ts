/**
 * One course of wear: a line on its clock whose level wanders, seen through readings with errors. It is followed from
 * reading to reading by a Kalman filter (Durbin and Koopman 2012, chapter 4, with a random walk in the level), in which
 * a reading that lies far off what was foretold counts as one of a wider error: the errors are Student t, not normal
 * (as in Meinhold and Singpurwalla 1989), so that one bad test moves little.
 */

export interface Course {
  /** What the clock showed at each reading; never falls. */
  readonly clock: readonly number[];
  readonly level: readonly number[];
  /** Variance of each reading's error. */
  readonly variance: readonly number[];
  /** Whether a new baseline begins with the reading: its level may lie anywhere. */
  readonly renewed: readonly boolean[];
  /** Whether a person takes the reading as it is: its error is normal then, however far off it lies. Absent: none. */
  readonly believed?: readonly boolean[];
  /** The level stepped between this reading and the one before, and went on at its old rate: by how much, as a deviation. */
  readonly step?: { readonly at: number; readonly sd: number };
}

/** What is held of a course before its first reading: level at clock 0 and rate, independent and normal. */
export interface CoursePrior {
  readonly level: number;
  readonly levelSd: number;
  readonly rate: number;
  readonly rateSd: number;
  /** Variance of the level's wandering for each unit of the clock. */
  readonly wander: number;
  /** How far a new baseline may lie from the old one, and whether its rate is a new one too. */
  readonly renewalSd: number;
  readonly renewsRate: boolean;
  /** How far out errors reach: both ways alike, wider towards the worse, or normal, with no regard to what lies far out. */
  readonly tails: "even" | "lopsided" | "normal";
}

/** A fault from one reading on: a jump, and growth on its own clock. */
export interface CourseFault {
  /** Index of the first reading that shows it. */
  readonly from: number;
  /** What the fault's own clock showed at each reading; 0 before it. */
  readonly clock: readonly number[];
  readonly jump: number;
  readonly jumpSd: number;
  readonly growth: number;
  readonly growthSd: number;
}

/** Joint normal state: level at clock 0, rate, and with a fault its jump and growth; covariance row by row. */
export interface Followed {
  readonly mean: readonly number[];
  readonly covariance: readonly number[] | Float64Array;
  readonly size: 2 | 4;
  /** Logarithm of the likelihood of the readings, but for a constant that is the same for all courses of that many. */
  readonly logLikelihood: number;
  /** Sum of standardised surprises upward, kept above 0 (a CUSUM), at its highest: whether a fault is worth looking for. */
  readonly worstRise: number;
}

/** Degrees of freedom of the readings' errors; of what a whole test gets wrong, which mostly makes engines look worse. */
const tailsOf = {
  even: { above: studentTail(6), below: studentTail(6) },
  lopsided: { above: studentTail(4), below: studentTail(8) },
  normal: null,
};

/**
 * A Student t whose scale is such that normal errors are still found to have the variance that they have: the
 * expectation of the score at the true variance, over a normal, is 0. By the midpoint rule and halving.
 */
function studentTail(freedom: number): { readonly freedom: number; readonly scale: number } {
  const steps = 400;
  const score = (scale: number) => {
    let sum = 0;
    for (let i = 0; i < steps; i++) {
      const squared = (-8 + (16 * (i + 0.5)) / steps) ** 2;
      sum += (Math.exp(-squared / 2) * (freedom + 1) * squared) / (freedom * scale + squared);
    }
    return (sum * 16) / steps / Math.sqrt(2 * Math.PI) - 1;
  };
  let low = 0.1;
  let high = 1;
  for (let pass = 0; pass < 40; pass++) {
    const middle = (low + high) / 2;
    if (score(middle) > 0) low = middle;
    else high = middle;
  }
  return { freedom, scale: low };
}
/** What a CUSUM of surprises lets pass each time. */
const allowance = 0.5;

/** A fault's first reading that lies so many standard deviations beyond what faults jump by says how far this one did. */
const farJump = 2;

type Tail = ReturnType<typeof studentTail>;

/** Logarithm of the density of a surprise, its square over its variance `total` being `squared`. */
function logDensity(total: number, squared: number, tail: Tail | null): number {
  if (tail === null) return -0.5 * (Math.log(total) + squared);
  const far = squared / tail.scale;
  return -(0.5 * Math.log(total) + ((tail.freedom + 1) / 2) * Math.log1p(far / tail.freedom));
}

/** How many times its variance the error of such a reading is taken to have. */
const widerBy = (squared: number, tail: Tail | null): number =>
  tail === null ? 1 : Math.max(1, (tail.freedom + squared / tail.scale) / (tail.freedom + 1));

/**
 * Follows a course through all its readings; with none it is the prior itself. Up to the first reading that shows a fault
 * level and rate alone are followed: until then the fault's jump and growth are what they are held to be beforehand.
 */
export function followCourse(course: Course, prior: CoursePrior, fault: CourseFault | null): Followed {
  const tails = tailsOf[prior.tails];
  let level = prior.level;
  let rate = prior.rate;
  let p00 = prior.levelSd ** 2;
  let p01 = 0;
  let p11 = prior.rateSd ** 2;
  let logLikelihood = 0;
  let rise = 0;
  let worstRise = 0;
  let last = 0;
  const sound = fault === null ? course.clock.length : fault.from;
  for (let i = 0; i < sound; i++) {
    const clock = course.clock[i] as number;
    p00 += prior.wander * Math.max(0, clock - last);
    last = clock;
    if (course.step?.at === i) p00 += course.step.sd ** 2;
    if (course.renewed[i]) {
      p00 += prior.renewalSd ** 2;
      if (prior.renewsRate) {
        // As renewRate has it, of two.
        const levelVariance = p00 + 2 * clock * p01 + clock * clock * p11;
        level = level + clock * rate - prior.rate * clock;
        rate = prior.rate;
        p11 = prior.rateSd ** 2;
        p00 = levelVariance + clock * clock * p11;
        p01 = -clock * p11;
      }
    }
    const gain0 = p00 + p01 * clock;
    const gain1 = p01 + p11 * clock;
    const spread = gain0 + gain1 * clock;
    const variance = course.variance[i] as number;
    const surprise = (course.level[i] as number) - (level + rate * clock);
    const total = spread + variance;
    const squared = (surprise * surprise) / total;
    const tail = tails === null || course.believed?.[i] ? null : surprise > 0 ? tails.above : tails.below;
    logLikelihood += logDensity(total, squared, tail);
    rise = Math.max(0, rise + Math.min(surprise / Math.sqrt(total), 4) - allowance);
    if (rise > worstRise) worstRise = rise;
    const used = spread + variance * widerBy(squared, tail);
    level += (gain0 / used) * surprise;
    rate += (gain1 / used) * surprise;
    p00 -= (gain0 * gain0) / used;
    p01 -= (gain0 * gain1) / used;
    p11 -= (gain1 * gain1) / used;
  }
  if (fault === null)
    return { mean: [level, rate], covariance: [p00, p01, p01, p11], size: 2, logLikelihood, worstRise };

  const n = 4;
  const mean = [level, rate, fault.jump, fault.growth];
  const p = new Float64Array(n * n);
  p[0] = p00;
  p[1] = p01;
  p[n] = p01;
  p[n + 1] = p11;
  p[2 * n + 2] = fault.jumpSd ** 2;
  p[3 * n + 3] = fault.growthSd ** 2;
  const gain = new Float64Array(n);
  for (let i = fault.from; i < course.clock.length; i++) {
    const clock = course.clock[i] as number;
    p[0] = (p[0] as number) + prior.wander * Math.max(0, clock - last);
    last = clock;
    if (course.renewed[i]) {
      p[0] = (p[0] as number) + prior.renewalSd ** 2;
      if (prior.renewsRate) renewRate(mean, p, n, prior, clock);
    }
    const grown = fault.clock[i] as number;
    const foretold =
      (mean[0] as number) + (mean[1] as number) * clock + ((mean[2] as number) + (mean[3] as number) * grown);
    for (let a = 0; a < n; a++) {
      gain[a] =
        (p[a * n] as number) +
        (p[a * n + 1] as number) * clock +
        ((p[a * n + 2] as number) + (p[a * n + 3] as number) * grown);
    }
    const spread =
      (gain[0] as number) + (gain[1] as number) * clock + (gain[2] as number) + (gain[3] as number) * grown;
    const variance = course.variance[i] as number;
    const surprise = (course.level[i] as number) - foretold;
    const total = spread + variance;
    const squared = (surprise * surprise) / total;
    const tail = tails === null || course.believed?.[i] ? null : surprise > 0 ? tails.above : tails.below;
    logLikelihood += logDensity(total, squared, tail);
    rise = Math.max(0, rise + Math.min(surprise / Math.sqrt(total), 4) - allowance);
    if (rise > worstRise) worstRise = rise;
    let used = spread + variance * widerBy(squared, tail);
    if (i === fault.from && surprise > 0 && squared > farJump ** 2) {
      // Where the fault has just begun it is the jump that lies far out, not the reading: none makes the cylinder look better.
      const more = (squared / farJump ** 2 - 1) * total;
      p[2 * n + 2] = (p[2 * n + 2] as number) + more;
      gain[2] = (gain[2] as number) + more;
      used = total + more;
    }
    for (let a = 0; a < n; a++) {
      mean[a] = (mean[a] as number) + ((gain[a] as number) / used) * surprise;
      for (let b = a; b < n; b++) {
        const left = (p[a * n + b] as number) - ((gain[a] as number) * (gain[b] as number)) / used;
        p[a * n + b] = left;
        p[b * n + a] = left;
      }
    }
  }
  return { mean, covariance: p, size: n, logLikelihood, worstRise };
}

/** A new rate from this clock on: the level that the course stands at is kept, whatever the old rate was. */
function renewRate(mean: number[], p: Float64Array, n: number, prior: CoursePrior, clock: number): void {
  // level0' + rate'·clock = level0 + rate·clock, with rate' drawn anew.
  const at = (a: number, b: number) => p[a * n + b] as number;
  const levelVariance = at(0, 0) + 2 * clock * at(0, 1) + clock * clock * at(1, 1);
  const level = (mean[0] as number) + clock * (mean[1] as number);
  mean[1] = prior.rate;
  mean[0] = level - prior.rate * clock;
  const rateVariance = prior.rateSd ** 2;
  for (let a = 2; a < n; a++) {
    const withLevel = at(0, a) + clock * at(1, a);
    p[a] = withLevel;
    p[a * n] = withLevel;
    p[n + a] = 0;
    p[a * n + 1] = 0;
  }
  p[0] = levelVariance + clock * clock * rateVariance;
  p[1] = -clock * rateVariance;
  p[n] = -clock * rateVariance;
  p[n + 1] = rateVariance;
}
