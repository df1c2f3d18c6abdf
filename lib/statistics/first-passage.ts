import { normalCdf, scaledUpperTail } from "./normal.ts";

/**
 * Probability that a Wiener process, 0 at the start, has reached `distance` by time `t`, when its drift is itself
 * uncertain: drift ~ N(`drift`, `driftSd`²), one draw for the whole path, and variance `wanderVariance` a unit of time.
 *
 * Here time is the meter and the process is badness, so `t` is use ahead, `drift` badness a unit of the meter and
 * `wanderVariance` badness squared a unit. With `driftSd` 0 it is the inverse Gaussian distribution; with
 * `wanderVariance` 0 the path is a straight line of unknown slope. The total may stay below 1 for ever: a drift that
 * points away may never reach the limit. A `distance` of 0 or less counts as reached; `t` of 0 or less as not begun.
 *
 * Arguments are positional, not named, and nothing is allocated: a fleet asks for this tens of millions of times.
 * Never NaN for finite arguments with `driftSd` and `wanderVariance` not negative; rises with `t`.
 *
 * F(t) = Φ((μt−w)/s) + exp(2μw/σ² + 2τ²w²/σ⁴)·Φ(−b), s² = σ²t + τ²t², b = (2τ²wt + σ²(μt+w))/(σ²s).
 * The exponent overflows for small σ, but exponent − b²/2 = −(μt−w)²/(2s²) exactly, so for b ≥ 0 the second term is
 * the scaled tail of b times exp(−(μt−w)²/(2s²)); for b < 0 the exponent is negative and the plain form is safe.
 *
 * Sources: Chhikara & Folks, The Inverse Gaussian Distribution (1989), for a known drift; Peng & Tseng, IEEE Trans.
 * Reliability 58 (2009), and Si et al., Mech. Syst. Signal Process. 35 (2013), for a normal one.
 */
export function wienerFirstPassageCdf(
  t: number,
  distance: number,
  drift: number,
  driftSd: number,
  wanderVariance: number,
): number {
  if (distance <= 0) return 1;
  if (t <= 0) return 0;
  const driftVariance = driftSd * driftSd;
  const sd = Math.sqrt(t * (wanderVariance + driftVariance * t));
  const gap = drift * t - distance;
  if (sd === 0) return gap >= 0 ? 1 : 0;
  const z = gap / sd;
  const direct = normalCdf(z);
  if (wanderVariance === 0) return direct;
  const b = ((2 * driftVariance * distance * t) / wanderVariance + drift * t + distance) / sd;
  const returned =
    b >= 0
      ? scaledUpperTail(b) * Math.exp(-0.5 * z * z)
      : Math.exp((2 * distance * (drift + (driftVariance * distance) / wanderVariance)) / wanderVariance) *
        normalCdf(-b);
  return Math.min(1, direct + returned);
}
