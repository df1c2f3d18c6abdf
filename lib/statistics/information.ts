/**
 * Information of discrete distributions, in bits. Source: Shannon, Bell System Technical Journal 27 (1948); Cover & Thomas,
 * Elements of Information Theory, 2nd ed. (2006), sections 2.1 to 2.4.
 */

/** Entropy of probabilities that sum to 1, bits. */
export function entropy(probabilities: readonly number[]): number {
  return probabilities.reduce((sum, p) => (p > 0 ? sum - p * Math.log2(p) : sum), 0);
}

/**
 * How many bits a result is expected to tell of a question: the mutual information of the two, never below 0.
 * @param priors probability of each answer to the question; sums to 1
 * @param results for each result that may come, its probability under each answer; under every answer they sum to 1
 */
export function mutualInformation(priors: readonly number[], results: readonly (readonly number[])[]): number {
  let bits = 0;
  for (const given of results) {
    const whole = priors.reduce((sum, prior, i) => sum + prior * (given[i] ?? 0), 0);
    if (whole <= 0) continue;
    priors.forEach((prior, i) => {
      const p = given[i] ?? 0;
      if (prior > 0 && p > 0) bits += prior * p * Math.log2(p / whole);
    });
  }
  return Math.max(0, bits);
}
