/**
 * How likely a variable of Fisher's F distribution, the ratio of two independent mean squares of normal errors, is at least
 * `f` (0 or above): the regularised incomplete beta function, by its continued fraction. Source: NIST Digital Library of
 * Mathematical Functions, 8.17.22 and 8.17(iii); degrees of freedom are whole numbers of 1 or more.
 */
export function fTail(f: number, ofNumerator: number, ofDenominator: number): number {
  if (f <= 0) return 1;
  if (f === Number.POSITIVE_INFINITY) return 0;
  const [a, b] = [ofDenominator / 2, ofNumerator / 2];
  const x = ofDenominator / (ofDenominator + ofNumerator * f);
  // The fraction converges quickly below the mean alone; above it the other side is reckoned.
  return x < (a + 1) / (a + b + 2) ? incompleteBeta(x, a, b) : 1 - incompleteBeta(1 - x, b, a);
}

function incompleteBeta(x: number, a: number, b: number): number {
  const front = Math.exp(
    a * Math.log(x) + b * Math.log1p(-x) + logGammaOfHalves(a + b) - logGammaOfHalves(a) - logGammaOfHalves(b),
  );
  // Evaluated from the left by the recurrence of numerators and denominators (DLMF 3.10.5), kept near 1 by their ratio.
  let [p0, p1, q0, q1] = [1, 1, 0, 1];
  let value = 1;
  for (let k = 1; k < 500; k++) {
    const m = Math.floor(k / 2);
    const d =
      k % 2 === 0
        ? (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m))
        : (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    const [p, q] = [p1 + d * p0, q1 + d * q0];
    [p0, q0, p1, q1] = [p1 / q, q1 / q, p / q, 1];
    if (Math.abs(p1 - value) <= 1e-14 * Math.abs(p1)) break;
    value = p1;
  }
  return front / (a * p1);
}

/** ln Γ of a multiple of one half, by its recurrence from Γ(1) and Γ(1/2). */
function logGammaOfHalves(z: number): number {
  let sum = z % 1 === 0 ? 0 : 0.5 * Math.log(Math.PI);
  for (let at = z % 1 === 0 ? 1 : 0.5; at < z; at++) sum += Math.log(at);
  return sum;
}
