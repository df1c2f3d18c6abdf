/**
 * Probabilities of several tests made at once, adjusted so that one below 0.05, say, is told among true "no differences"
 * in at most 5 % of families, however the tests depend on each other: the smallest counts m times, the next m − 1 times,
 * and none less than one before it. In the order given. Source: Holm, Scand. J. Stat. 6 (1979) 65–70.
 */
export function holmAdjusted(probabilities: readonly number[]): number[] {
  const order = probabilities
    .map((_, i) => i)
    .sort((a, b) => (probabilities[a] as number) - (probabilities[b] as number));
  const adjusted = new Array<number>(probabilities.length).fill(1);
  let least = 0;
  for (const [rank, i] of order.entries()) {
    least = Math.max(least, Math.min(1, (probabilities.length - rank) * (probabilities[i] as number)));
    adjusted[i] = least;
  }
  return adjusted;
}
