/**
 * What a leak of known area makes testers and gauges read, worked out apart from the app's own code, so that the app's
 * forecasts are not held against themselves. Lengths in mm, areas in mm², pressures absolute in kPa unless said otherwise.
 */

const gamma = 1.4;
const criticalRatio = (2 / (gamma + 1)) ** (gamma / (gamma - 1));
const seaLevelKpa = 101.325;

/** Flow of a perfect gas through an opening, in proportion (de Saint-Venant and Wantzel 1839). */
function flow(upstream: number, downstream: number): number {
  const ratio = Math.max(criticalRatio, Math.min(1, downstream / upstream));
  return upstream * Math.sqrt(ratio ** (2 / gamma) - ratio ** ((gamma + 1) / gamma));
}

export interface Tester {
  readonly boreMm: number;
  readonly supplyGaugeKpa: number;
}

/** Leakage, %, that a tester reads on a leak: the held pressure at which as much flows in as out, by halving. */
export function leakageOn(tester: Tester, areaMm2: number, airKpa = seaLevelKpa): number {
  const bore = (Math.PI / 4) * tester.boreMm ** 2;
  const supply = tester.supplyGaugeKpa + airKpa;
  let low = airKpa;
  let high = supply;
  for (let pass = 0; pass < 50; pass++) {
    const held = (low + high) / 2;
    if (bore * flow(supply, held) > areaMm2 * flow(held, airKpa)) low = held;
    else high = held;
  }
  return (100 * (supply - low)) / (supply - airKpa);
}

/** The area that reads so many per cent, by halving; mm². */
export function areaOfLeakage(tester: Tester, percent: number): number {
  let low = 0;
  let high = 50;
  for (let pass = 0; pass < 50; pass++) {
    const area = (low + high) / 2;
    if (leakageOn(tester, area) < percent) low = area;
    else high = area;
  }
  return (low + high) / 2;
}

export interface Cylinder {
  readonly litres: number;
  readonly compressionRatio: number;
  /** Exponent of the compression's polytrope. */
  readonly polytrope: number;
}

const steps = 120;
/** Gas constant of air, J/(kg K), and the air's temperature as it is cranked in, K. */
const gasConstant = 287.05;
const cylinderAirK = 320;

/**
 * Highest pressure over the air's at one compression stroke of a cranked cylinder that leaks, by steps of crank angle: the
 * charge follows its polytrope while it leaks through the area as through an opening. A gauge's valve keeps the highest.
 */
export function crankedPressureRatio(cylinder: Cylinder, areaMm2: number, rpm: number, airKpa = seaLevelKpa): number {
  const { litres, compressionRatio, polytrope } = cylinder;
  const swept = litres / 1000;
  const clearance = swept / (compressionRatio - 1);
  const volumeAt = (turn: number) => clearance + (swept * (1 + Math.cos(Math.PI * turn))) / 2;
  const secondsOfStep = 30 / rpm / steps;
  let pressure = airKpa;
  let mass = (airKpa * 1000 * volumeAt(0)) / (gasConstant * cylinderAirK);
  let highest = pressure;
  for (let step = 1; step <= steps; step++) {
    const before = volumeAt((step - 1) / steps);
    const volume = volumeAt(step / steps);
    const kelvin = (pressure * 1000 * before) / (gasConstant * mass);
    const scale = Math.sqrt((2 * gamma) / ((gamma - 1) * gasConstant * kelvin));
    const lost = Math.max(
      0,
      areaMm2 * 1e-6 * 1000 * flow(pressure, Math.min(pressure, airKpa)) * scale * secondsOfStep,
    );
    const kept = Math.max(0.02, 1 - lost / mass);
    pressure *= (before / volume) ** polytrope * kept ** polytrope;
    mass *= kept;
    highest = Math.max(highest, pressure);
  }
  return highest / airKpa;
}
