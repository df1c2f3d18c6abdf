import { type AbsKpa, absKpa, type GaugeKpa, gaugeKpa, type Mm2, mm2, type Percent, percent } from "../units.ts";

/**
 * The leak-down tester as compressible flow through two restrictors in series: the tester's own bore and the cylinder's
 * leak. At rest of the gauge, what flows in flows out (NACA Report 1135, 1953, isentropic flow; ISO 6358-1:2013 uses the
 * same model with an ellipse in place of the exact function):
 *
 *     A_orifice · p_supply · ψ(p_held / p_supply) = A_leak · p_held · ψ(p_air / p_held)      (absolute pressures)
 *     ψ(r) = √(2γ/(γ−1) · (r^(2/γ) − r^((γ+1)/γ))),  constant once r ≤ (2/(γ+1))^(γ/(γ−1)): choked
 *
 * with γ = 1.4, equal temperatures and equal discharge coefficients. So a leak area is an equivalent one: the bore of the
 * tester's make that would pass as much. It misleads where the leak's edge is very unlike the bore's (a long crack, an
 * oil-wet ring gap): then two testers agree to some ±30 %, which callers carry as an error.
 *
 * Everything is written in the pressure *drop* δ = 1 − r, through log1p and expm1, because near 0 % leakage r is all but
 * 1 and 1 − r would lose every digit.
 */

const gamma = 1.4;

/** Downstream over upstream pressure, absolute, at and below which the flow no longer rises: 0.528. */
export const criticalPressureRatio = (2 / (gamma + 1)) ** (gamma / (gamma - 1));
const criticalDrop = 1 - criticalPressureRatio;

/** 2γ/(γ−1); (γ−1)/γ is its inverse twice over. */
const flowScale = (2 * gamma) / (gamma - 1);
const temperatureExponent = (gamma - 1) / gamma;
const densityExponent = 2 / gamma;

/** Square of ψ at a drop short of choking. */
function flowSquared(drop: number): number {
  const logRatio = Math.log1p(-drop);
  return -flowScale * Math.exp(densityExponent * logRatio) * Math.expm1(temperatureExponent * logRatio);
}

const chokedFlowSquared = flowSquared(criticalDrop);

/** ψ at choking, √γ · (2/(γ+1))^((γ+1)/(2(γ−1))): the most that a restrictor passes. */
export const chokedFlow = Math.sqrt(chokedFlowSquared);

/** ψ as a function of the drop 1 − r, from 0 (no drop, no flow) to 1 (into a vacuum). */
export const flowFunction = (drop: number): number =>
  drop >= criticalDrop ? chokedFlow : Math.sqrt(flowSquared(drop));

/** A tester in use: bore and supply, in the air of the place. */
export interface TesterInUse {
  readonly orificeMm: number;
  readonly orificeAreaMm2: Mm2;
  readonly supplyKpa: GaugeKpa;
  readonly supplyAbsKpa: AbsKpa;
  readonly ambientAbsKpa: AbsKpa;
}

/** Throws a RangeError unless bore, supply and ambient pressure are above 0 and finite. */
export function testerInUse(tester: {
  readonly orificeMm: number;
  readonly supplyKpa: number;
  readonly ambientAbsKpa: AbsKpa;
}): TesterInUse {
  const { orificeMm, supplyKpa, ambientAbsKpa } = tester;
  for (const [name, value] of Object.entries({ orificeMm, supplyKpa, ambientAbsKpa })) {
    if (!(value > 0 && value < Number.POSITIVE_INFINITY)) throw new RangeError(`${name} ${value} is not above 0`);
  }
  return {
    orificeMm,
    orificeAreaMm2: mm2((Math.PI / 4) * orificeMm * orificeMm),
    supplyKpa: gaugeKpa(supplyKpa),
    supplyAbsKpa: absKpa(supplyKpa + ambientAbsKpa),
    ambientAbsKpa,
  };
}

/**
 * Equivalent leak area, mm2, of a cylinder that shows `leakagePercent` (0 to 100, share of the gauge supply that it does
 * not hold) on a tester. Closed form; 0 % gives 0, 100 % gives Infinity. Throws a RangeError outside 0 to 100.
 */
export function leakAreaMm2(tester: TesterInUse, leakagePercent: number): Mm2 {
  if (!(leakagePercent >= 0 && leakagePercent <= 100))
    throw new RangeError(`leakage ${leakagePercent} % is not 0 to 100`);
  const lostKpa = (tester.supplyKpa * leakagePercent) / 100;
  const heldKpa = (tester.supplyKpa * (100 - leakagePercent)) / 100;
  const heldAbsKpa = tester.ambientAbsKpa + heldKpa;
  const flowIn = tester.supplyAbsKpa * flowFunction(lostKpa / tester.supplyAbsKpa);
  const flowOut = heldAbsKpa * flowFunction(heldKpa / heldAbsKpa);
  return mm2((tester.orificeAreaMm2 * flowIn) / flowOut);
}

/**
 * Leakage, %, that a tester shows on a leak of `areaMm2` (0 to Infinity): the inverse of `leakAreaMm2`, to 1e-9 of
 * itself or better over the whole range. Throws a RangeError for a negative area or NaN.
 *
 * With either restrictor choked the balance is a quadratic in a power of a pressure ratio, and is solved as such; so is
 * any reading at the usual supplies. Only below some 260 kPa of supply can both be unchoked: then it is Newton's method.
 */
export function leakagePercent(tester: TesterInUse, areaMm2: number): Percent {
  if (!(areaMm2 >= 0)) throw new RangeError(`leak area ${areaMm2} mm2 is negative or not a number`);
  if (areaMm2 === 0) return percent(0);
  if (areaMm2 === Number.POSITIVE_INFINITY) return percent(100);
  const { supplyKpa, supplyAbsKpa, ambientAbsKpa } = tester;
  const areaRatio = areaMm2 / tester.orificeAreaMm2;
  const isBoreChoked = (lostKpa: number) => lostKpa >= criticalDrop * supplyAbsKpa;
  const isLeakChoked = (heldKpa: number) => heldKpa >= criticalDrop * (ambientAbsKpa + heldKpa);

  const lostKpa = supplyAbsKpa * -Math.expm1(-logPressureRatio(areaRatio * chokedFlow));
  if (!isBoreChoked(lostKpa) && isLeakChoked(supplyKpa - lostKpa)) return percent(100 * (lostKpa / supplyKpa));

  const flowPerLeak = (chokedFlow * supplyAbsKpa) / (areaRatio * ambientAbsKpa);
  const heldKpa = ambientAbsKpa * Math.expm1(logPressureRatio(flowPerLeak));
  if (isBoreChoked(supplyKpa - heldKpa) && !isLeakChoked(heldKpa)) return percentNotHeld(heldKpa, supplyKpa);

  const heldChokedKpa = supplyAbsKpa / areaRatio - ambientAbsKpa;
  if (isBoreChoked(supplyKpa - heldChokedKpa) && isLeakChoked(heldChokedKpa)) {
    return percentNotHeld(heldChokedKpa, supplyKpa);
  }
  return unchokedLeakagePercent(tester, areaRatio);
}

const percentNotHeld = (heldKpa: number, supplyKpa: number) => percent(100 * ((supplyKpa - heldKpa) / supplyKpa));

/**
 * ln(1/r) where ψ(r)/r = k. With z = r^(−(γ−1)/γ), (ψ/r)² = 2γ/(γ−1) · (z² − z), so z − 1 solves y² + y = k²·(γ−1)/2γ;
 * the root is written so that a small k keeps its digits.
 */
function logPressureRatio(k: number): number {
  const q = (k * k) / flowScale;
  const y = (2 * q) / (1 + Math.sqrt(1 + 4 * q));
  return Math.log1p(y) / temperatureExponent;
}

/** d ln ψ² / dδ; 0 once choked. */
function flowLogSlope(drop: number): number {
  if (drop >= criticalDrop) return 0;
  const logRatio = Math.log1p(-drop);
  const cooling = -Math.expm1(temperatureExponent * logRatio);
  return (
    (temperatureExponent * Math.exp((temperatureExponent - 1) * logRatio)) / cooling - densityExponent / (1 - drop)
  );
}

/**
 * Newton's method on the odds of leakage, v = ln(L/(1−L)): ln A² is close to a straight line of slope 1 in v from 0 to
 * 100 %, so both ends keep their digits and few steps do. A bracket catches any step that would leave it.
 */
function unchokedLeakagePercent(tester: TesterInUse, areaRatio: number): Percent {
  const { supplyKpa, supplyAbsKpa, ambientAbsKpa } = tester;
  const target = 2 * Math.log(areaRatio);
  let low = -745;
  let high = 745;
  let odds = Math.min(Math.max(target, low), high);
  for (let step = 0; step < 200; step++) {
    const lost = 1 / (1 + Math.exp(-odds));
    const held = 1 / (1 + Math.exp(odds));
    const heldAbsKpa = ambientAbsKpa + supplyKpa * held;
    const boreDrop = (supplyKpa * lost) / supplyAbsKpa;
    const leakDrop = (supplyKpa * held) / heldAbsKpa;
    const excess =
      2 * Math.log((supplyAbsKpa * flowFunction(boreDrop)) / (heldAbsKpa * flowFunction(leakDrop))) - target;
    if (excess > 0) high = odds;
    else low = odds;
    const lostPerOdds = supplyKpa * lost * held;
    const slope =
      lostPerOdds *
      (flowLogSlope(boreDrop) / supplyAbsKpa +
        2 / heldAbsKpa +
        (flowLogSlope(leakDrop) * ambientAbsKpa) / (heldAbsKpa * heldAbsKpa));
    const newton = odds - excess / slope;
    const next = newton > low && newton < high ? newton : (low + high) / 2;
    if (Math.abs(next - odds) <= 1e-13 * (1 + Math.abs(odds))) return percent(100 / (1 + Math.exp(-next)));
    odds = next;
  }
  throw new Error(`leakage for an area ratio of ${areaRatio} did not converge`);
}
