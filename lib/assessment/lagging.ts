import type { UnitAssessment } from "../schema/assessment.ts";
import { median } from "../statistics/quantile.ts";
import { numberWords, percentWords } from "../wording.ts";
import { weakestPlace } from "./weakest.ts";

/** Near the limit: of the way to it. Judgement. */
const nearShare = 0.6;
/** A fault's rate: within so many days it grows by this share of the limit; wear of rings takes years to. Judgement. */
const [faultDays, faultShare] = [90, 0.15];
/** Below its siblings by less, compression has hardly moved: it loses 13 % where a leak-down test shows 30. */
const hardlyMovedPercent = 10;

/** A fault that leakage shows and compression does not show yet. */
export interface Lagging {
  /** For the finding: "Compression lags, only 7 % below the others: inspect before the next trip away." */
  readonly words: string;
  /** The step that comes first. */
  readonly step: { readonly title: string; readonly detail: string };
}

/**
 * Where a cylinder's leakage is near its limit and grows at the rate of a fault while its compression hardly moved: whoever
 * trusts the compression lets the unit go out once too often. By the last readings of compression, for its level carried
 * forward is what the leakage makes of it. null: not so, or compression was not measured, or is not judged.
 */
export function laggingOf(assessment: UnitAssessment): Lagging | null {
  const place = weakestPlace(assessment);
  if (place === null || (assessment.band !== "plan" && assessment.band !== "past-limit")) return null;
  const { lead, measure } = place;
  const { level, limit, rate, latest } = measure;
  if (measure.measure !== "leak-down" || level === null || limit === null || rate === null || latest === null)
    return null;
  const grows = (rate.perThousand / 1000) * assessment.meter.perDay * faultDays;
  if (level < nearShare * limit || rate.p10 <= 0 || grows < faultShare * limit) return null;

  const compressionOf = ({ measures }: (typeof assessment.cylinders)[number]) =>
    measures.find((of) => of.measure === "compression-dry" && of.band !== null);
  const own = compressionOf(lead);
  const others = assessment.cylinders.flatMap((of) => {
    const kpa = of.cylinder === lead.cylinder ? null : compressionOf(of)?.latest;
    return kpa == null ? [] : [kpa];
  });
  if (own?.latest == null || own.band === "past-limit" || others.length === 0) return null;
  const below = 100 * (1 - own.latest / median(others));
  if (below >= hardlyMovedPercent) return null;
  const far = below >= 1 ? `only ${percentWords(below)} below the others` : "as high as the others’";
  const trip = assessment.meter.unit === "h" ? "before the next long run" : "before the next trip away";
  return {
    words: `Compression lags, ${far}: inspect ${trip}.`,
    step: {
      title: `Inspect ${trip}`,
      detail: `Cylinder ${lead.cylinder} leaked ${numberWords(latest)} % when last tested, and the leak grows at the rate of a fault. Its compression, ${far}, shows such a fault late: go by the leakage.`,
    },
  };
}
