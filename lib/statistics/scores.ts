/**
 * Proper scores of forecasts against what came: smaller is better, and the truth's own distribution scores best. Source:
 * Gneiting & Raftery, J. Am. Stat. Assoc. 102 (2007).
 */

/** Loss of a told quantile of level `tau` (0 to 1) where `came` is what came, in the unit of both. */
export function pinballLoss(told: number, came: number, tau: number): number {
  return came >= told ? tau * (came - told) : (1 - tau) * (told - came);
}

/** Squared distance of a told probability from what came, 1 or 0. Mean over cases: the Brier score. */
export function brierLoss(told: number, came: boolean): number {
  return (told - (came ? 1 : 0)) ** 2;
}

/**
 * 95 % interval of a share of which `held` of `cases` were seen, by Wilson's score method, which also tells something of
 * few cases and of shares near 0 and 1. Throws a RangeError without a case. Source: Wilson, J. Am. Stat. Assoc. 22 (1927).
 */
export function wilsonInterval(held: number, cases: number): readonly [low: number, high: number] {
  if (cases < 1) throw new RangeError("no case to take a share of");
  const z = 1.959963984540054;
  const share = held / cases;
  const middle = share + z ** 2 / (2 * cases);
  const half = z * Math.sqrt((share * (1 - share)) / cases + z ** 2 / (4 * cases ** 2));
  const scale = 1 + z ** 2 / cases;
  return [(middle - half) / scale, (middle + half) / scale];
}
