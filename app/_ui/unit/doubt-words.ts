/**
 * Why a reading counts less, led by whether it counts at all; a reason that already says so stands alone.
 * `weight` is 0 (not used) to 1.
 */
export function doubtWords(weight: number, reason: string | null): string {
  const counts = weight === 0 ? "not used" : "counts less";
  if (reason === null) return counts;
  return /\b(used|counts)\b/.test(reason) ? reason : `${counts}: ${reason}`;
}
