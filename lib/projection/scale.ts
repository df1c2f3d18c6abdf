import type { EngineModel } from "../schema/engine-model.ts";
import type { JudgedMeasure } from "../schema/words.ts";
import { seaLevelAbsKpa } from "../sealing/atmosphere.ts";
import { leakAreaMm2, leakagePercent, testerInUse } from "../sealing/orifice.ts";
import { mm2 } from "../units.ts";

/**
 * The scale that wear is modelled on. A leak grows as an area, and what a tester shows of it rises about as its square
 * while it is small: wear that is straight as an area bends upward in per cent. So leak-down is modelled as leak area on
 * the model's usual tester, in units of what one point of leakage opens at 10 %; compression as minus kPa, as it is.
 */
export interface WearScale {
  /** From badness (%, minus kPa) to the scale; rises. */
  readonly of: (badness: number) => number;
  /** The inverse of `of`. */
  readonly back: (level: number) => number;
  /** Change on the scale for a unit of badness, at a badness: carries an error over (delta method). */
  readonly slope: (badness: number) => number;
}

export const plainScale: WearScale = { of: (v) => v, back: (v) => v, slope: () => 1 };

/**
 * Below this the area is a square root whose slope has no end, and above the other it has none itself: beyond both the
 * scale goes straight on, so that a reading of 0 % or of 100 % stays a finite one.
 */
const straightBelow = 4;
const straightAbove = 80;
const unitPercent = 10;

/** A model's scale for a measure. */
export function wearScaleOf(model: EngineModel, measure: JudgedMeasure): WearScale {
  if (measure !== "leak-down") return plainScale;
  return leakScale(model.leakDown?.orificeMm, model.leakDown?.supplyKpa);
}

const kept = new Map<string, WearScale>();

function leakScale(orificeMm = 1.016, supplyKpa = 550): WearScale {
  const key = `${orificeMm} ${supplyKpa}`;
  const known = kept.get(key);
  if (known !== undefined) return known;
  const tester = testerInUse({ orificeMm, supplyKpa, ambientAbsKpa: seaLevelAbsKpa });
  const area = (percent: number): number => leakAreaMm2(tester, percent);
  const steep = (percent: number) => (area(percent + 1e-3) - area(percent - 1e-3)) / 2e-3;
  const unit = steep(unitPercent);
  const low = { area: area(straightBelow), slope: steep(straightBelow) };
  const high = { area: area(straightAbove), slope: steep(straightAbove) };
  // Asked for with every reading: whole per cents, and straight between them.
  const slopes = Array.from({ length: straightAbove - straightBelow + 1 }, (_, i) => steep(straightBelow + i) / unit);
  const scale: WearScale = {
    of: (percent) =>
      (percent < straightBelow
        ? low.area + (percent - straightBelow) * low.slope
        : percent > straightAbove
          ? high.area + (percent - straightAbove) * high.slope
          : area(percent)) / unit,
    back: (level) => {
      const mm = level * unit;
      if (mm < low.area) return straightBelow + (mm - low.area) / low.slope;
      if (mm > high.area) return straightAbove + (mm - high.area) / high.slope;
      return leakagePercent(tester, mm2(mm));
    },
    slope: (percent) => {
      const at = Math.min(straightAbove, Math.max(straightBelow, percent)) - straightBelow;
      const low = Math.min(slopes.length - 2, Math.floor(at));
      const before = slopes[low] as number;
      return before + (at - low) * ((slopes[low + 1] as number) - before);
    },
  };
  kept.set(key, scale);
  return scale;
}
