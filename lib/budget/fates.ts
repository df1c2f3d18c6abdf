import type { Need } from "../plan/types.ts";
import type { RepairClass } from "../schema/kept-plan.ts";
import { normalCdf } from "../statistics/normal.ts";
import { normalStrata, strata } from "./streams.ts";
import type { BudgetUnit } from "./types.ts";

/** Not within the forecast. */
export const never = Number.POSITIVE_INFINITY;

/** When the limit of one class of repair is met, and when the unit would fail of it, in weeks; by draw. */
export interface Fates {
  readonly of: RepairClass;
  readonly crosses: Float64Array;
  readonly fails: Float64Array;
}

/**
 * What befalls a unit's needs in each draw. Whether a class of repair is needed at all is in doubt for the two classes together:
 * where one is, the other rather is not, for a cylinder's growth is of the one class or of the other. When it is needed hangs on
 * a factor that the engines of a model share (one-factor Gaussian copula; Li 2000). A failure comes with the same chance in each
 * week past the limit.
 * @param shared the model's factor, standard normal; `load`: its share of the variance; `first`: the week in which the budget
 * begins, at which a limit that is met by the first Monday counts as met
 */
export function fatesOf(
  { unit, needs, runningOn }: BudgetUnit,
  {
    seed,
    shared,
    load,
    first,
  }: { readonly seed: number; readonly shared: Float64Array; readonly load: number; readonly first: number },
): readonly Fates[] {
  const draws = shared.length;
  const none = new Float64Array(draws).fill(never);
  if (needs.every(({ crossed }) => crossed.at(-1) === 0))
    return needs.map(({ of }) => ({ of, crosses: none, fails: none }));
  const doubt = strata(seed, `${unit} doubt`, draws);
  const common = Math.sqrt(load);
  const own = Math.sqrt(1 - load);
  const staysWhole = Math.log1p(-Math.min(1 - 1e-12, runningOn.failurePerWeek));
  return needs.map((need, place): Fates => {
    const last = need.crossed.at(-1) as number;
    if (last === 0) return { of: need.of, crosses: none, fails: none };
    const times = normalStrata(seed, `${unit} ${need.of} crossing`, draws);
    const failures = strata(seed, `${unit} ${need.of} failure`, draws);
    const crosses = new Float64Array(draws).fill(never);
    const fails = new Float64Array(draws).fill(never);
    for (let draw = 0; draw < draws; draw++) {
      const u = doubt[draw] as number;
      if ((place === 0 ? u : 1 - u) >= last) continue;
      const z = common * (shared[draw] as number) + own * (times[draw] as number);
      const week = weekOf(need, normalCdf(z) * last, first);
      crosses[draw] = week;
      if (staysWhole < 0) fails[draw] = week + Math.log1p(-(failures[draw] as number)) / staysWhole;
    }
    return { of: need.of, crosses, fails };
  });
}

/** The week by which a limit is met with a probability; straight between weeks. */
function weekOf({ crossed }: Need, probability: number, first: number): number {
  if (probability <= (crossed[0] as number)) return first;
  let low = 0;
  let high = crossed.length - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if ((crossed[middle] as number) < probability) low = middle;
    else high = middle;
  }
  const [a, b] = [crossed[low] as number, crossed[high] as number];
  return b <= a ? high : low + (probability - a) / (b - a);
}
