import { type AbsKpa, absKpa } from "../units.ts";

/** Pressure of the standard atmosphere at sea level. */
export const seaLevelAbsKpa: AbsKpa = absKpa(101.325);

/** Altitudes for which `standardPressureKpa` holds: the lowest layer of the standard atmosphere, and a mine below it. */
export const altitudeRangeM = { lowest: -500, highest: 11_000 } as const;

const seaLevelK = 288.15;
const lapseKPerM = 0.0065;
const standardGravity = 9.80665;
/** Universal gas constant and mean molar mass of air as the 1976 standard fixes them; ISO 2533 rounds to 287.05287. */
const gasConstantAir = 8314.32 / 28.9644;
const exponent = standardGravity / (gasConstantAir * lapseKPerM);

/**
 * Absolute air pressure, kPa, of the standard atmosphere at an altitude in metres (ISO 2533:1975, the same below 11 km as
 * the US Standard Atmosphere 1976): p = p0 · (1 − L·h/T0)^(g/(R·L)).
 *
 * The altitude is taken as geopotential, as in the standard's own formula. A map shows the geometric altitude, which
 * differs by 0.5 m at 1,850 m and 1.4 m at 3,000 m: 0.02 % of pressure, far below what weather does (about ±2 %). So
 * a barometer beside the engine is worth more than an altitude.
 *
 * Throws a RangeError outside `altitudeRangeM`: callers check what a file says before they ask.
 */
export function standardPressureKpa(altitudeM: number): AbsKpa {
  if (!(altitudeM >= altitudeRangeM.lowest && altitudeM <= altitudeRangeM.highest)) {
    throw new RangeError(
      `altitude ${altitudeM} m lies outside ${altitudeRangeM.lowest} to ${altitudeRangeM.highest} m`,
    );
  }
  return absKpa(seaLevelAbsKpa * (1 - (lapseKPerM * altitudeM) / seaLevelK) ** exponent);
}

/**
 * The share of sea level's air pressure at an altitude, by the standard atmosphere: a compression reads lower by as much.
 * Throws as `standardPressureKpa` does.
 */
export const seaLevelShare = (altitudeM: number): number => standardPressureKpa(altitudeM) / seaLevelAbsKpa;
