import type { CylinderAssessment, MeasureAssessment, UnitAssessment } from "../schema/assessment.ts";
import { bands, type Cause } from "../schema/words.ts";

/** The place of a unit that wants attention first: the cylinders that share its band and their leading cause. */
export interface WeakestPlace {
  /** Of them the one nearest to its limit. */
  readonly lead: CylinderAssessment;
  readonly cylinders: readonly CylinderAssessment[];
  /** The measure that decided, of the leading one. */
  readonly measure: MeasureAssessment;
  /** Leading cause; null where nothing stands out. */
  readonly cause: Cause | null;
}

const urgency = (c: { band: CylinderAssessment["band"] }): number => (c.band === null ? -1 : bands.indexOf(c.band));

/** The minimum compression as a share of that of a new engine, roughly: makers' manuals have about 0.7 to 0.9. */
const minimumShareOfNew = 0.75;

/**
 * How near a measure is to its limit: its chance of crossing within a year, then how much of the way from new to the
 * limit its level has gone, so that leakage (which begins near 0) and compression (which never falls to 0) compare.
 */
function nearness(m: MeasureAssessment): number {
  const within = m.crossing?.probabilityWithinYear ?? 0;
  if (m.level === null || m.limit === null || m.limit === 0) return within;
  const gone =
    m.unit === "%" ? m.level / m.limit : (m.limit / Math.max(m.level, 1) - minimumShareOfNew) / (1 - minimumShareOfNew);
  return within + 0.5 * gone;
}

const judged = (c: CylinderAssessment): MeasureAssessment[] => c.measures.filter((m) => m.band !== null);

/** The measure that gave a cylinder its band; of two with the same band, the one nearer to its limit. */
export function decidingMeasure(c: CylinderAssessment): MeasureAssessment | null {
  return judged(c).toSorted((a, b) => urgency(b) - urgency(a) || nearness(b) - nearness(a))[0] ?? null;
}

/** Of the cylinders in the unit's band, the one nearest to its limit leads; those with its leading cause join it. */
export function weakestPlace(unit: Pick<UnitAssessment, "cylinders" | "band">): WeakestPlace | null {
  const measured = unit.cylinders
    .flatMap((cylinder) => {
      const measure = decidingMeasure(cylinder);
      return measure === null ? [] : [{ cylinder, measure }];
    })
    .toSorted((a, b) => urgency(b.cylinder) - urgency(a.cylinder) || nearness(b.measure) - nearness(a.measure));
  const lead = measured[0];
  if (lead === undefined) return null;
  const leadingCause = ({ causes }: CylinderAssessment) => causes[0]?.cause ?? null;
  const cause = leadingCause(lead.cylinder);
  // A gasket fails between cylinders: both sides belong to one place, also where only one is past its limit.
  const isOfPlace = (cylinder: CylinderAssessment) =>
    cylinder.band === lead.cylinder.band || (cause === "head-gasket" && urgency(cylinder) >= bands.indexOf("watch"));
  const together = measured
    .filter(({ cylinder }) => isOfPlace(cylinder) && leadingCause(cylinder) === cause)
    .map(({ cylinder }) => cylinder)
    .toSorted((a, b) => a.cylinder - b.cylinder);
  return { lead: lead.cylinder, cylinders: together, measure: lead.measure, cause };
}
