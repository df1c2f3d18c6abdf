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
