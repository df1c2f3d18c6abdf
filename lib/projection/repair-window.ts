import { normalCdf, normalNodes, normalQuantile } from "../statistics/normal.ts";
import type { CrossingDistribution } from "./types.ts";

/** Values of the common factor. */
const factorNodes = normalNodes(11);

/** One cylinder's part in a unit's window: its own crossing, and the chance that its growth is of the class in question. */
export interface WindowMember {
  readonly distribution: CrossingDistribution;
  readonly classProbability: number;
}

/**
 * The first crossing of either of two limits by one cylinder (leak-down and compression). Both tell of the same leak, so
 * they are taken as fully dependent: the sooner one decides at each distance.
 */
export function soonerOf(a: CrossingDistribution, b: CrossingDistribution): CrossingDistribution {
  return { ahead: a.ahead, probability: a.probability.map((p, i) => Math.max(p, b.probability[i] as number)) };
}

/**
 * The first crossing among a unit's cylinders that is of one class of repair. Cylinders of an engine wear together, so
 * their crossings are joined by a one-factor Gaussian copula (Li 2000) of correlation `sharedUncertainty`: with none,
 * the minimum of independent crossings would come far too early. What is in doubt about the class is in doubt for all of
 * them together, for it is judged from the same tests and siblings: a cylinder likelier of the class is of it wherever
 * a less likely one is (taken as independent, sixteen small doubts would add up to a repair). The whole stays below 1
 * where the class is in doubt: a window may then have no late end.
 */
export function firstCrossingOfClass(
  members: readonly WindowMember[],
  sharedUncertainty: number,
  ahead: Float64Array,
): CrossingDistribution {
  const load = Math.sqrt(sharedUncertainty);
  const own = Math.sqrt(1 - sharedUncertainty);
  const counted = members
    .filter((m) => m.classProbability > 0)
    .toSorted((a, b) => b.classProbability - a.classProbability);
  let highest = 0;
  const probability = ahead.map((_, i) => {
    const scores = counted.map((m) => {
      const p = m.distribution.probability[i] as number;
      return p <= 0 ? -Infinity : p >= 1 ? Infinity : normalQuantile(p);
    });
    let none = 0;
    for (const z of factorNodes) {
      let survives = 1;
      let without = 1 - (counted[0]?.classProbability ?? 0);
      for (const [k, member] of counted.entries()) {
        const score = scores[k] as number;
        const crossed = Number.isFinite(score) ? normalCdf((score - load * z) / own) : Number(score > 0);
        survives *= 1 - crossed;
        without += (member.classProbability - (counted[k + 1]?.classProbability ?? 0)) * survives;
      }
      none += without;
    }
    highest = Math.max(highest, Math.min(1, 1 - none / factorNodes.length));
    return highest;
  });
  return { ahead, probability };
}
