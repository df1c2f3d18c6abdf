import { normalCdf, normalNodes, normalQuantile } from "../statistics/normal.ts";
import type { WindowMember } from "./repair-window.ts";
import type { UseForecast } from "./types.ts";
import { distanceWithin } from "./use-ahead.ts";

/** Values of the cylinders' common factor, as repair-window.ts has them. */
const factorNodes = normalNodes(11);
/** Of the uncertain use a day. */
const useNodes = normalNodes(5);

/** P(crossed at each point of the grid) for the first crossing of each class, given the factor and the doubt about classes. */
interface Joint {
  readonly weight: number;
  readonly first: Float64Array;
  readonly other: Float64Array;
}

/**
 * The windows of two classes of repair together: for every value of what they share, each window by itself. They share the
 * factor that the cylinders wear by (the one-factor Gaussian copula of repair-window.ts) and the doubt about the class: a
 * cylinder's growth is of the one class or of the other, never of both, and a cylinder likelier of a class is of it
 * wherever a less likely one is. Given these, what is left of the cylinders is independent.
 */
function jointOf(
  first: readonly WindowMember[],
  other: readonly WindowMember[],
  sharedUncertainty: number,
  points: number,
): Joint[] {
  const load = Math.sqrt(sharedUncertainty);
  const own = Math.sqrt(1 - sharedUncertainty);
  const scored = (members: readonly WindowMember[]) =>
    members.map(({ distribution, classProbability }) => ({
      classProbability,
      scores: distribution.probability.map((p) => (p <= 0 ? -Infinity : p >= 1 ? Infinity : normalQuantile(p))),
    }));
  const [ofFirst, ofOther] = [scored(first), scored(other)];
  const edges = [
    ...new Set([0, 1, ...ofFirst.map((m) => m.classProbability), ...ofOther.map((m) => 1 - m.classProbability)]),
  ].toSorted((a, b) => a - b);
  const joint: Joint[] = [];
  for (const z of factorNodes) {
    const survival = ({ scores }: { readonly scores: Float64Array }) =>
      scores.map((score) => 1 - (Number.isFinite(score) ? normalCdf((score - load * z) / own) : Number(score > 0)));
    const firstSurvives = ofFirst.map((m) => ({ ...m, survival: survival(m) }));
    const otherSurvives = ofOther.map((m) => ({ ...m, survival: survival(m) }));
    for (let k = 1; k < edges.length; k++) {
      const [low, high] = [edges[k - 1] as number, edges[k] as number];
      // Shares that add up to 1 but for rounding leave slivers of no doubt between them.
      if (high - low < 1e-9) continue;
      const doubt = (low + high) / 2;
      const crossed = (members: typeof firstSurvives) => {
        const probability = new Float64Array(points);
        for (let i = 0; i < points; i++) {
          let none = 1;
          for (const { survival } of members) none *= survival[i] as number;
          probability[i] = 1 - none;
        }
        return probability;
      };
      joint.push({
        weight: (high - low) / factorNodes.length,
        first: crossed(firstSurvives.filter((m) => doubt < m.classProbability)),
        other: crossed(otherSurvives.filter((m) => 1 - doubt < m.classProbability)),
      });
    }
  }
  return joint;
}

/**
 * The chance that the other class of repair has fallen due within some days after the first one, given that the first falls
 * due within `endDays`. By the joint distribution above, so what makes the one come early makes the other come early.
 * It leaves out what the first repair itself does to the other (tight valves may bring ring wear to light): no figures
 * are known of that.
 *
 * @param first members of the class whose likely date comes first, `other` those of the other class; all on the grid `ahead`
 * @param endDays neither counts later than that (horizon, or the unit's disposal)
 * @param firstIsDue the first is due now: what might make it come later is known not to hold
 * @returns null where the first does not fall due within the days at all
 */
export function followsWithin(
  { first, other }: { readonly first: readonly WindowMember[]; readonly other: readonly WindowMember[] },
  sharedUncertainty: number,
  ahead: Float64Array,
  use: UseForecast,
  {
    spanDays,
    endDays,
    firstIsDue,
  }: { readonly spanDays: number; readonly endDays: number; readonly firstIsDue: boolean },
): number | null {
  const joint = jointOf(first, other, sharedUncertainty, ahead.length);
  let due = 0;
  let both = 0;
  for (const z of useNodes) {
    const factor = Math.exp(use.logSd * z);
    const end = factor * distanceWithin(use, endDays);
    // A span of the calendar is so much use; of a season, what a whole span has on average from now on.
    const span = factor * distanceWithin(use, spanDays);
    for (const { weight, first: f, other: o } of joint) {
      for (let i = 0; i < (firstIsDue ? 1 : ahead.length); i++) {
        const at = i === 0 ? 0 : ((ahead[i] as number) + (ahead[i - 1] as number)) / 2;
        if (at > end) break;
        const mass = weight * ((f[i] as number) - (i === 0 ? 0 : (f[i - 1] as number)));
        if (mass <= 0) continue;
        due += mass;
        both += mass * straightBetween(ahead, o, Math.min(end, at + span));
      }
    }
  }
  return due < 1e-9 ? null : Math.min(1, both / due);
}

function straightBetween(ahead: Float64Array, values: Float64Array, x: number): number {
  let above = 0;
  while (above < ahead.length && (ahead[above] as number) < x) above++;
  if (above === ahead.length) return values[above - 1] as number;
  if (above === 0) return values[0] as number;
  const [a, b] = [ahead[above - 1] as number, ahead[above] as number];
  const t = (x - a) / (b - a);
  return (values[above - 1] as number) * (1 - t) + (values[above] as number) * t;
}
