/**
 * Share of cases that ended at or before `at`, where some could not be followed to their end: the product-limit estimate
 * of Kaplan and Meier, J. Am. Stat. Assoc. 53 (1958). It holds where how long a case is followed says nothing of when it
 * would have ended. null: nobody was followed so far.
 *
 * @param cases each with how far it was followed, and whether it ended there
 */
export function shareEndedBy(
  cases: readonly { readonly at: number; readonly ended: boolean }[],
  at: number,
): number | null {
  const sorted = cases.toSorted((a, b) => a.at - b.at || Number(b.ended) - Number(a.ended));
  let left = 1;
  let atRisk = sorted.length;
  for (const one of sorted) {
    if (one.at > at) return 1 - left;
    if (one.ended) left *= 1 - 1 / atRisk;
    atRisk -= 1;
    if (left <= 0) return 1;
  }
  return sorted.at(-1)?.at === at ? 1 - left : null;
}

/**
 * What each case counts for where it is known whether it ended within `span`: 1 over the chance to have been followed until
 * then, so that those that ended early, which are known sooner, do not count for more than their share; 0: not known.
 * Inverse probability of censoring weights, as E. Graf, C. Schmoor, W. Sauerbrei & M. Schumacher, Stat. Med. 18 (1999) use
 * them for the Brier score; the chance is the product-limit estimate of being followed, ends before stops on one day. They
 * add up to the number of cases if any was followed to the end of the span (or all that were left ended before), and the
 * weighted share that ended is then the product-limit estimate. Holds where how long a case is followed says nothing of
 * when it would have ended.
 *
 * @param cases each with how far it was followed, and whether it ended there
 */
export function censoringWeights(
  cases: readonly { readonly at: number; readonly ended: boolean }[],
  span: number,
): readonly number[] {
  const order = cases.map((one, i) => ({ ...one, i }));
  order.sort((a, b) => a.at - b.at || Number(b.ended) - Number(a.ended));
  const weights = new Array<number>(cases.length).fill(0);
  let followed = 1;
  for (const [rank, { at, ended, i }] of order.entries()) {
    if (ended || at >= span) weights[i] = 1 / followed;
    else followed *= 1 - 1 / (cases.length - rank);
  }
  return weights;
}
