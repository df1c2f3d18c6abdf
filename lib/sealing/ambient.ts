import type { SetUp } from "../schema/facts.ts";
import { type AbsKpa, absKpa } from "../units.ts";
import { enteredDecimals, numberWords } from "../wording.ts";
import { altitudeRangeM, seaLevelAbsKpa, standardPressureKpa } from "./atmosphere.ts";

/** The air in which a test was made. */
export interface Ambient {
  readonly absKpa: AbsKpa;
  /** False: no altitude and no barometer is known, sea level was assumed. */
  readonly known: boolean;
  /** In words, after "referred from": "1,850 m", "a barometer of 84.5 kPa". */
  readonly place: string;
  /** What was told but cannot be, in words; null: nothing. */
  readonly doubt: string | null;
}

const seaLevel = { absKpa: seaLevelAbsKpa, known: true, place: "sea level", doubt: null } as const satisfies Ambient;
const unknownPlace = { ...seaLevel, known: false } as const satisfies Ambient;

/** Station pressures that occur where engines are worked on: deep mines to the highest roads. */
const barometerRangeKpa = { lowest: 40, highest: 115 } as const;

/** An altitude that a place on earth has. */
export const isAltitude = (altitudeM: number | null): altitudeM is number =>
  altitudeM !== null && altitudeM >= altitudeRangeM.lowest && altitudeM <= altitudeRangeM.highest;

/**
 * The ambient pressure of a test: by its barometer (station pressure, absolute, not reduced to sea level), else by its
 * altitude, else by the altitude of the depot of its row, else of the unit's usual depot, else by that at which the unit is
 * usually tested, else sea level, marked as not known. A barometer goes before an altitude where both are given: it was measured. A figure that no place on earth has
 * is passed over and said so.
 */
export function ambientOfTest(told: {
  readonly setUp: Pick<SetUp, "altitudeM" | "barometerKpa">;
  readonly depotAltitudeM: number | null;
  readonly usualDepotAltitudeM: number | null;
  /** null: the unit was not yet tested where the altitude is known. */
  readonly usualAltitudeM: number | null;
}): Ambient {
  const { altitudeM, barometerKpa } = told.setUp;
  let doubt: string | null = null;
  if (barometerKpa !== null) {
    if (barometerKpa >= barometerRangeKpa.lowest && barometerKpa <= barometerRangeKpa.highest) {
      return {
        absKpa: absKpa(barometerKpa),
        known: true,
        place: `a barometer of ${numberWords(barometerKpa, 1)} kPa`,
        doubt,
      };
    }
    doubt = `a barometer of ${numberWords(barometerKpa, enteredDecimals(barometerKpa))} kPa cannot be: passed over`;
  }
  if (altitudeM !== null && !isAltitude(altitudeM))
    doubt = `an altitude of ${numberWords(altitudeM, enteredDecimals(altitudeM))} m cannot be: passed over`;
  const toldM = [altitudeM, told.depotAltitudeM, told.usualDepotAltitudeM].find(isAltitude);
  const found = toldM ?? told.usualAltitudeM;
  if (found === null) return doubt === null ? unknownPlace : { ...unknownPlace, doubt };
  if (found === 0 && doubt === null) return seaLevel;
  const place = `${numberWords(found)} m${toldM === undefined ? " (the unit's usual altitude)" : ""}`;
  return { absKpa: standardPressureKpa(found), known: true, place, doubt };
}
