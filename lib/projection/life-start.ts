/**
 * Where the life of an engine's rings and bores may have begun. Without a renewal on file the meter's 0 is the likeliest
 * place; but of an engine that was first tested after half of a usual life, a used one or one whose books begin late,
 * nobody knows that it was never renewed. So later beginnings are tried as well, and its readings decide.
 */
export interface LifeStart {
  /** Wear meter. */
  readonly from: number;
  /** What is held of it beforehand. */
  readonly share: number;
}

/** Of usual lives; an engine that has run so little before its first test is taken for one that began at 0. */
const soonTested = 0.15;
/** Ages at the first test that are tried beside its whole meter, as shares of it: lately renewed, and half-way. */
const renewedAges = [0.1, 0.45];

/** What is known of the use before an engine's readings. */
export interface Before {
  /** Wear meter at which rings and bores were last renewed in all cylinders; where no renewal is on file, 0. */
  readonly origin: number;
  /** Whether a renewal on file says so. */
  readonly originKnown: boolean;
  /** Wear meter of the first reading; of an engine without one, now. */
  readonly first: number;
}

/**
 * All beginnings of an engine's life that are tried; shares add up to 1. After a whole usual life without a test an
 * unrecorded renewal is as likely as none (judgement, no source).
 * @param usualLife use in which an engine of this model usually wears from new to the limit
 */
export function lifeStarts({ origin, originKnown, first }: Before, usualLife: number): readonly LifeStart[] {
  const before = first - origin;
  if (originKnown || before < soonTested * usualLife) return [{ from: origin, share: 1 }];
  const whole = 0.5 ** (before / usualLife);
  const share = (1 - whole) / renewedAges.length;
  return [{ from: origin, share: whole }, ...renewedAges.map((age) => ({ from: origin + (1 - age) * before, share }))];
}

/** Where it is taken to have begun for a first look, before its readings decide: no further back than half a usual life. */
export const assumedStart = ({ origin, originKnown, first }: Before, usualLife: number): number =>
  originKnown ? origin : Math.max(origin, first - usualLife / 2);
