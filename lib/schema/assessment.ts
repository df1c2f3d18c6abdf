import { z } from "zod";
import { bands, causes, crossingStatuses, measures, meterUnits } from "./words.ts";

/**
 * The assessment of a fleet as JSON (contract, section 6): what `borecast assess --json` prints and what the store
 * keeps for each unit. The contract's fields come first in each object; those marked "added" are ours.
 */

const isoDate = z.iso.date();
const probability = z.number().min(0).max(1);
const bandSchema = z.enum(bands);

const ascending = (q: { p10: number | string | null; p50: number | string | null; p90: number | string | null }) => {
  const known = [q.p10, q.p50, q.p90].filter((v) => v !== null);
  const noGap = (q.p50 !== null || q.p90 === null) && (q.p10 !== null || q.p50 === null);
  return noGap && known.every((v, i) => i === 0 || (known[i - 1] as typeof v) <= v);
};
const ordered = { message: "quantiles must ascend, and none may follow one that is beyond the horizon" };

const meterQuantilesSchema = z
  .object({ p10: z.number().nullable(), p50: z.number().nullable(), p90: z.number().nullable() })
  .refine(ascending, ordered);
const dateQuantilesSchema = z
  .object({ p10: isoDate.nullable(), p50: isoDate.nullable(), p90: isoDate.nullable() })
  .refine(ascending, ordered);

/** When a limit is first met: on the unit's own meter, and by date. */
export const crossingSchema = z.object({
  status: z.enum(crossingStatuses),
  meter: meterQuantilesSchema,
  date: dateQuantilesSchema,
  probabilityWithinYear: probability.nullable(),
});
export type Crossing = z.infer<typeof crossingSchema>;

export const measureAssessmentSchema = z.object({
  measure: z.enum(measures),
  unit: z.enum(["kPa", "%"]),
  tests: z.number().int().min(0),
  latest: z.number().nullable(),
  level: z.number().nullable(),
  limit: z.number().nullable(),
  band: bandSchema.nullable(),
  rate: z.object({ perThousand: z.number(), p10: z.number(), p90: z.number() }).nullable(),
  crossing: crossingSchema.nullable(),
  /** Added: why this band, in words; empty for a measure that is not judged. */
  reason: z.string(),
  /**
   * Added: what was read at the last test, where neither it nor the level had met the limit then, and the level is past it now by
   * the wear expected since. null or absent: not so.
   */
  crossedAfter: z.object({ date: isoDate, level: z.number() }).nullable().optional(),
});
export type MeasureAssessment = z.infer<typeof measureAssessmentSchema>;

export const causeShareSchema = z.object({
  cause: z.enum(causes),
  probability,
  because: z.array(z.string()),
  /** Added: what speaks against it, in words. */
  against: z.array(z.string()),
});
export type CauseShare = z.infer<typeof causeShareSchema>;

const sumsToOne = (c: { topEnd: number; bottomEnd: number; testSetUp: number }) =>
  Math.abs(c.topEnd + c.bottomEnd + c.testSetUp - 1) < 1e-6;

export const cylinderAssessmentSchema = z
  .object({
    cylinder: z.number().int().min(1),
    /** null: never tested. */
    band: bandSchema.nullable(),
    measures: z.array(measureAssessmentSchema),
    causes: z.array(causeShareSchema),
    topEnd: probability,
    bottomEnd: probability,
    testSetUp: probability,
    /** Added: why this band, in words. */
    reason: z.string(),
    /** Added: the likeliest two causes that act at once, and that just these two do; null or absent: hardly any two. */
    together: z
      .object({ causes: z.array(z.enum(causes)).length(2), probability })
      .nullable()
      .optional(),
  })
  .refine(sumsToOne, { message: "topEnd, bottomEnd and testSetUp must add up to 1" });
export type CylinderAssessment = z.infer<typeof cylinderAssessmentSchema>;

export const unitAssessmentSchema = z.object({
  unit: z.string(),
  engineModel: z.string(),
  /** null: never tested. */
  band: bandSchema.nullable(),
  meter: z.object({ value: z.number(), unit: z.enum(meterUnits), perDay: z.number() }),
  lastTestDate: isoDate.nullable(),
  cylinders: z.array(cylinderAssessmentSchema),
  repairs: z.object({ topEnd: crossingSchema, bottomEnd: crossingSchema }),
  warnings: z.array(z.string()),
  /** Added: the engine now fitted, where its serial number is known. */
  engineSerial: z.string().nullable(),
  /** Added: why this band, in words. */
  reason: z.string(),
  /** Added: what a person has to settle (a repair nobody recorded, a swap, a tester, a test in doubt), in words. */
  questions: z.array(z.string()),
  /** Added: last readings that are not relied on and wait for a repeat; `cylinder` is null for a whole test. */
  inDoubt: z.array(
    z.object({ measure: z.enum(measures), cylinder: z.number().int().min(1).nullable(), words: z.string() }),
  ),
  /**
   * Added: the class of repair that is likely first, and the chance that the other is due within so many months of it.
   * null or absent: one of them, or no first repair within the horizon or before the planned disposal, is foreseen.
   */
  bothTogether: z
    .object({ first: z.enum(["topEnd", "bottomEnd"]), months: z.number().int().min(1), probability })
    .nullable()
    .optional(),
  /**
   * Added: the class of repair that the unit as a whole is as likely to need within the planning lead time as a cylinder at
   * `plan`, though none of its cylinders is by itself. null or absent: not so.
   */
  asAWhole: z
    .object({ repair: z.enum(["topEnd", "bottomEnd"]), months: z.number().int().min(1), probability })
    .nullable()
    .optional(),
  /** Added: planned disposal still to come; true for a class of repair whose likely date lies after it. null or absent: none. */
  soldBefore: z.object({ date: isoDate, topEnd: z.boolean(), bottomEnd: z.boolean() }).nullable().optional(),
  /** Added: fingerprints of the pools that the forecast leaned on. */
  pools: z.array(z.string()),
});
export type UnitAssessment = z.infer<typeof unitAssessmentSchema>;

export const assessmentSchema = z.object({
  schemaVersion: z.literal(1),
  asOf: isoDate,
  units: z.array(unitAssessmentSchema),
});
export type Assessment = z.infer<typeof assessmentSchema>;
