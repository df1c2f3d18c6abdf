/**
 * The standard normal distribution. Written here rather than taken from a package because the projection asks for it
 * tens of millions of times: no allocation, no argument checks, one `exp` a call.
 */

const sqrtHalf = Math.SQRT1_2;
const oneOverSqrtPi = 1 / Math.sqrt(Math.PI);

/** erf for |y| ≤ 0.46875 (Cody 1969). */
function erfNearZero(y: number): number {
  const s = y * y;
  const numerator =
    (((0.18577770618460315 * s + 3.1611237438705655) * s + 113.86415415105016) * s + 377.485237685302) * s +
    3209.3775891384694;
  const denominator =
    (((s + 23.601290952344122) * s + 244.02463793444417) * s + 1282.6165260773723) * s + 2844.236833439171;
  return (y * numerator) / denominator;
}

/**
 * exp(y²)·erfc(y), the scaled complementary error function, for y ≥ 0.46875; 0 at infinity. Relative error below 1e-15
 * apart from rounding. It neither under- nor overflows, which is what tails and first-passage probabilities need.
 * Source: W. J. Cody, Rational Chebyshev approximations for the error function, Math. Comp. 23 (1969) 631–637.
 */
function scaledErfc(y: number): number {
  if (y <= 4) {
    const numerator =
      (((((((2.1531153547440383e-8 * y + 0.5641884969886701) * y + 8.883149794388377) * y + 66.11919063714163) * y +
        298.6351381974001) *
        y +
        881.952221241769) *
        y +
        1712.0476126340707) *
        y +
        2051.0783778260716) *
        y +
      1230.3393547979972;
    const denominator =
      (((((((y + 15.744926110709835) * y + 117.6939508913125) * y + 537.1811018620099) * y + 1621.3895745666903) * y +
        3290.7992357334597) *
        y +
        4362.619090143247) *
        y +
        3439.3676741437216) *
        y +
      1230.3393548037495;
    return numerator / denominator;
  }
  const s = 1 / (y * y);
  const numerator =
    ((((0.016315387137302097 * s + 0.30532663496123236) * s + 0.36034489994980445) * s + 0.12578172611122926) * s +
      0.016083785148742275) *
      s +
    0.0006587491615298378;
  const denominator =
    ((((s + 2.568520192289822) * s + 1.8729528499234673) * s + 0.5279051029514285) * s + 0.06051834131244132) * s +
    0.0023352049762686918;
  return (oneOverSqrtPi - (s * numerator) / denominator) / y;
}

/**
 * Upper tail over its own exponential: (1 − Φ(z))·exp(z²/2), for any z ≥ 0 (Mills' ratio over √2π). Falls from 0.5 at
 * z = 0 to 0 at infinity; never under- or overflows.
 */
export function scaledUpperTail(z: number): number {
  const y = z * sqrtHalf;
  return y < 0.46875 ? (0.5 - 0.5 * erfNearZero(y)) * Math.exp(y * y) : 0.5 * scaledErfc(y);
}

/**
 * Probability that a standard normal variable is at most `z`. Relative error below 1e-13 down to z = −20 and
 * 3e-13 down to z = −37, where it leaves the normal range of doubles; NaN for NaN. Source of the approximation: Cody 1969.
 */
export function normalCdf(z: number): number {
  const y = Math.abs(z) * sqrtHalf;
  if (y < 0.46875) return 0.5 + 0.5 * erfNearZero(z * sqrtHalf);
  const tail = z * z > 1500 ? 0 : 0.5 * scaledErfc(y) * Math.exp(-0.5 * z * z);
  return z < 0 ? tail : 1 - tail;
}

/** Density of the standard normal distribution; 0 at ±∞. */
export const normalDensity = (z: number): number => Math.exp(-0.5 * z * z) / Math.sqrt(2 * Math.PI);

/**
 * `n` values of equal probability that stand for the standard normal distribution: the medians of as many strata,
 * stretched so that their mean square is 1. Ascending and symmetric; `n` at least 2.
 */
export function normalNodes(n: number): number[] {
  const medians = Array.from({ length: n }, (_, i) => normalQuantile((i + 0.5) / n));
  const meanSquare = medians.reduce((sum, z) => sum + z * z, 0) / n;
  return medians.map((z) => z / Math.sqrt(meanSquare));
}

/**
 * The `z` with Φ(z) = `probability`; −∞ at 0, ∞ at 1. Throws a RangeError outside 0 to 1 or for NaN. Relative error
 * about 1e-15. Source: M. J. Wichura, Algorithm AS 241, Applied Statistics 37 (1988) 477–484 (PPND16).
 */
export function normalQuantile(probability: number): number {
  if (!(probability >= 0 && probability <= 1)) throw new RangeError(`not a probability: ${probability}`);
  const q = probability - 0.5;
  if (Math.abs(q) <= 0.425) return q * centralRatio(0.180625 - q * q);
  const tail = q < 0 ? probability : 1 - probability;
  if (tail === 0) return q < 0 ? -Infinity : Infinity;
  const r = Math.sqrt(-Math.log(tail));
  const z = r <= 5 ? nearTailRatio(r - 1.6) : farTailRatio(r - 5);
  return q < 0 ? -z : z;
}

function centralRatio(r: number): number {
  return (
    (((((((2509.0809287301227 * r + 33430.57558358813) * r + 67265.7709270087) * r + 45921.95393154987) * r +
      13731.69376550946) *
      r +
      1971.5909503065513) *
      r +
      133.14166789178438) *
      r +
      3.3871328727963665) /
    (((((((5226.495278852854 * r + 28729.085735721943) * r + 39307.89580009271) * r + 21213.794301586597) * r +
      5394.196021424751) *
      r +
      687.1870074920579) *
      r +
      42.31333070160091) *
      r +
      1)
  );
}

function nearTailRatio(r: number): number {
  return (
    (((((((0.0007745450142783414 * r + 0.022723844989269184) * r + 0.2417807251774506) * r + 1.2704582524523684) * r +
      3.6478483247632045) *
      r +
      5.769497221460691) *
      r +
      4.630337846156546) *
      r +
      1.4234371107496835) /
    (((((((1.0507500716444169e-9 * r + 0.0005475938084995345) * r + 0.015198666563616457) * r + 0.14810397642748008) *
      r +
      0.6897673349851) *
      r +
      1.6763848301838038) *
      r +
      2.053191626637759) *
      r +
      1)
  );
}

function farTailRatio(r: number): number {
  return (
    (((((((2.0103343992922881e-7 * r + 0.000027115555687434876) * r + 0.0012426609473880784) * r +
      0.026532189526576124) *
      r +
      0.29656057182850487) *
      r +
      1.7848265399172913) *
      r +
      5.463784911164114) *
      r +
      6.657904643501103) /
    (((((((2.0442631033899397e-15 * r + 1.421511758316446e-7) * r + 0.000018463183175100548) * r +
      0.0007868691311456133) *
      r +
      0.014875361290850615) *
      r +
      0.1369298809227358) *
      r +
      0.599832206555888) *
      r +
      1)
  );
}
