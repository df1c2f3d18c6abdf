import { uniformFloat64 } from "pure-rand/distribution/uniformFloat64";
import { xoroshiro128plus } from "pure-rand/generator/xoroshiro128plus";
import { fingerprintOf } from "../fingerprint.ts";
import { normalQuantile } from "../statistics/normal.ts";

/**
 * Random numbers by name: each name has a stream of its own, which does not hang on what else is drawn. So the same unit meets
 * the same fate in two budgets that differ in something else, and their difference is not noise (common random numbers).
 */
function generatorOf(seed: number, name: string) {
  const print = fingerprintOf(`${seed} ${name}`);
  const random = xoroshiro128plus(Number.parseInt(print.slice(0, 8), 16) ^ Number.parseInt(print.slice(8), 16));
  // The first numbers of seeds that are near each other are alike.
  for (let i = 0; i < 16; i++) uniformFloat64(random);
  return random;
}

/**
 * A uniform number for each draw, an even count of them: one in each of half as many strata, in random order (Latin hypercube
 * sampling: McKay, Beckman and Conover 1979), and after each its mirror image (antithetic variates: Hammersley and Morton 1956).
 * Sums over many streams then scatter less about what they tend to than sums of independent draws would.
 */
export function strata(seed: number, name: string, draws: number): Float64Array {
  if (draws % 2 !== 0) throw new Error(`an even count of draws is needed, not ${draws}`);
  const random = generatorOf(seed, name);
  const half = draws / 2;
  const order = Uint32Array.from({ length: half }, (_, i) => i);
  for (let i = half - 1; i > 0; i--) {
    const j = Math.floor(uniformFloat64(random) * (i + 1));
    const kept = order[i] as number;
    order[i] = order[j] as number;
    order[j] = kept;
  }
  const values = new Float64Array(draws);
  for (let i = 0; i < half; i++) {
    const value = ((order[i] as number) + uniformFloat64(random)) / half;
    values[2 * i] = value;
    values[2 * i + 1] = 1 - value;
  }
  return values;
}

/** The same, standard normal; the outermost kept finite. */
export const normalStrata = (seed: number, name: string, draws: number): Float64Array =>
  strata(seed, name, draws).map((p) => normalQuantile(Math.min(1 - 1e-12, Math.max(1e-12, p))));
