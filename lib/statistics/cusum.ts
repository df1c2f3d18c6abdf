/**
 * One step of the one-sided tabular CUSUM: evidence is summed up that values lie above their target by more than an
 * allowance, never below 0. Source: NIST/SEMATECH e-Handbook, 6.3.2.3.
 *
 * @param addition the value less target and allowance
 */
export const cusumStep = (sum: number, addition: number): number => Math.max(0, sum + addition);

/** The distribution of what one value on target adds to the sum, the allowance taken off: P(addition ≤ y). */
export type Additions = (y: number) => number;

const states = 40;

/**
 * Mean number of values on target until a one-sided CUSUM that began at 0 passes `limit`: the average run length, by the
 * Markov chain of D. Brook and D. A. Evans, An approach to the probability distribution of CUSUM run length, Biometrika 59
 * (1972) 539–549, with 40 states.
 */
export function cusumRunLength(additions: Additions, limit: number): number {
  const width = (2 * limit) / (2 * states - 1);
  // Of the chain's transitions only the difference of the states matters, but for those that end at 0.
  const reach = Array.from({ length: 2 * states }, (_, i) => additions((i - states + 0.5) * width));
  const at = (steps: number) => reach[steps + states] as number;
  const system = Array.from({ length: states }, (_, from) =>
    Array.from({ length: states + 1 }, (_, to) => {
      if (to === states) return 1;
      const p = to === 0 ? at(-from) : at(to - from) - at(to - from - 1);
      return (from === to ? 1 : 0) - p;
    }),
  );
  return firstUnknown(system);
}

/** The first unknown of a diagonally dominant linear system, by elimination from the last row up. */
function firstUnknown(system: number[][]): number {
  for (let k = states - 1; k > 0; k--) {
    const pivot = system[k] as number[];
    for (let i = 0; i < k; i++) {
      const row = system[i] as number[];
      const factor = (row[k] as number) / (pivot[k] as number);
      for (let j = 0; j < k; j++) row[j] = (row[j] as number) - factor * (pivot[j] as number);
      row[states] = (row[states] as number) - factor * (pivot[states] as number);
    }
  }
  const [first] = system as [number[]];
  return (first[states] as number) / (first[0] as number);
}

const mostLimit = 20;

/** The limit of a CUSUM whose average run length on target is `runLength`; by halving, exact to 0.001. */
export function cusumLimit(additions: Additions, runLength: number): number {
  let [low, high] = [0.001, mostLimit];
  while (high - low > 0.001) {
    const limit = (low + high) / 2;
    if (cusumRunLength(additions, limit) < runLength) low = limit;
    else high = limit;
  }
  return high;
}
