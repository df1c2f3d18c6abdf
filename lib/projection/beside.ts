import type { MutableOwnPart, OwnPart, TwoParts } from "./two-parts.ts";
import type { BesideOther } from "./types.ts";

/**
 * What one measure says of a cylinder by the other. A leak that shows in one cylinder's leak-down takes pressure from its
 * compression too, so that how the cylinder stands beside its siblings in the one foretells how it stands in the other.
 * What all cylinders of a compression test have in common says next to nothing of leakage (battery, temperature and gauge
 * weigh more), and is left out.
 *
 * How much of the one goes with how much of the other is learnt from the model's own engines, tested both ways on one day:
 * a line through 0 between two quantities of which both are read with errors, by moments (Fuller 1987, section 1.3.2:
 * errors of known variance).
 */

/** One cylinder on one day, beside its siblings, by both measures; variances are those of the readings' own errors. */
export interface Pair {
  readonly level: number;
  readonly variance: number;
  readonly other: number;
  readonly otherVariance: number;
}

/** Days on which cylinders of a model must have been tested both ways before the one says anything of the other. */
const fewestPairs = 40;
/** The slope must stand this many standard errors off 0. */
const leastSignal = 5;

/** null: too few pairs, or none that shows one to go with the other. */
export function besideOther(pairs: readonly Pair[]): BesideOther | null {
  if (pairs.length < fewestPairs) return null;
  let [levels, others, both, variance, otherVariance] = [0, 0, 0, 0, 0];
  for (const pair of pairs) {
    levels += pair.level ** 2;
    others += pair.other ** 2;
    both += pair.level * pair.other;
    variance += pair.variance;
    otherVariance += pair.otherVariance;
  }
  const true2 = others - otherVariance;
  if (true2 <= 0.2 * others || both <= 0) return null;
  const slope = both / true2;
  const residual = levels - 2 * slope * both + slope * slope * others;
  const standardError = Math.sqrt(residual * others) / true2 / Math.sqrt(pairs.length);
  if (slope < leastSignal * standardError) return null;
  const scatter = Math.max(0, (residual - variance - slope * slope * otherVariance) / pairs.length);
  return { slope, scatter, pairs: pairs.length };
}

/** The cylinders of one engine where both measures were taken at one reading of the meter. */
export function pairsOf(own: TwoParts["own"], other: TwoParts["own"]): Pair[] {
  return own.flatMap((part, c) => {
    const beside = other[c];
    if (beside === undefined || own.length === 1) return [];
    const pairs: Pair[] = [];
    let j = 0;
    for (const [i, x] of part.x.entries()) {
      while (j < beside.x.length && (beside.x[j] as number) < x) j++;
      if (beside.x[j] !== x) continue;
      pairs.push({
        level: part.level[i] as number,
        variance: varianceOf(part, i),
        other: beside.level[j] as number,
        otherVariance: varianceOf(beside, j),
      });
    }
    return pairs;
  });
}

const varianceOf = (part: OwnPart, i: number): number => (part.ownFactor[i] as number) + (part.added[i] as number);

/** Tests of the other measure are counted from here, so that they are none of this one's and yet the same for siblings. */
const otherTests = 1e6;

/**
 * A cylinder's own part with what the other measure says of it as readings of their own, since its present baseline. The
 * scatter of the one about the other is mostly the cylinder's own and stays from test to test; so each reading is given as
 * many times its variance as there are, and all of them together say no more of the level than one would without errors.
 */
export function withOther(part: OwnPart, other: OwnPart, { slope, scatter }: BesideOther): OwnPart {
  const renewed = part.renewed.lastIndexOf(true);
  const from = renewed < 0 ? Number.NEGATIVE_INFINITY : (part.x[renewed] as number);
  const first = Math.max(0, other.renewed.lastIndexOf(true));
  const used = other.x.flatMap((x, i) => (i >= first && x >= from ? [i] : []));
  if (used.length === 0) return part;
  const merged: MutableOwnPart = {
    x: [],
    level: [],
    testFactor: [],
    ownFactor: [],
    added: [],
    renewed: [],
    test: [],
    heard: [],
    ruled: [],
    spoilt: [],
  };
  const take = (i: number) => {
    merged.x.push(part.x[i] as number);
    merged.level.push(part.level[i] as number);
    merged.testFactor.push(part.testFactor[i] as number);
    merged.ownFactor.push(part.ownFactor[i] as number);
    merged.added.push(part.added[i] as number);
    merged.renewed.push(part.renewed[i] as boolean);
    merged.test.push(part.test[i] as number);
    merged.heard.push(part.heard[i] as number);
    merged.ruled.push(part.ruled[i] ?? null);
    merged.spoilt.push(part.spoilt[i] as number);
  };
  let next = 0;
  for (const j of used) {
    const x = other.x[j] as number;
    while (next < part.x.length && (part.x[next] as number) <= x) take(next++);
    merged.x.push(x);
    merged.level.push(slope * (other.level[j] as number));
    merged.testFactor.push(0);
    merged.ownFactor.push(0);
    merged.added.push(slope * slope * varianceOf(other, j) + scatter * used.length);
    merged.renewed.push(false);
    merged.test.push(otherTests + (other.test[j] as number));
    merged.heard.push(0);
    merged.ruled.push(other.ruled[j] ?? null);
    merged.spoilt.push(other.spoilt[j] as number);
  }
  while (next < part.x.length) take(next++);
  return merged;
}
