/**
 * How a figure is taken: each round measures every side once, so that what slows the machine for a while slows all of
 * them; the medians over the rounds count.
 */

export function median(values: readonly number[]): number {
  const sorted = values.toSorted((a, b) => a - b);
  const middle = sorted.length / 2;
  return ((sorted[Math.ceil(middle) - 1] ?? Number.NaN) + (sorted[Math.floor(middle)] ?? Number.NaN)) / 2;
}

/** Runs the work and gives what it took, in seconds, and its value. */
export async function timed<T>(work: () => T | Promise<T>): Promise<{ seconds: number; value: T }> {
  const start = performance.now();
  const value = await work();
  return { seconds: (performance.now() - start) / 1000, value };
}

/** The median of each figure over the rounds. */
export function mediansOf<K extends string>(rounds: readonly Readonly<Record<K, number>>[]): Record<K, number> {
  const names = Object.keys(rounds[0] ?? {}) as K[];
  return Object.fromEntries(names.map((name) => [name, median(rounds.map((r) => r[name]))])) as Record<K, number>;
}
