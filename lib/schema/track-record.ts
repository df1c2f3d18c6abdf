import { z } from "zod";
import { bands, judgedMeasures, meterUnits } from "./words.ts";

/**
 * How forecasts of the past turned out: what `borecast backtest --json` prints and the page Track record shows. Levels
 * are readings (kPa at sea level, % on the model's usual tester); distances are in the unit's meter unit.
 */

/** Counts up whenever what is kept of a record changes its form or its reckoning; an older one is then made anew. */
export const trackFormat = 4;

/** Fewer outcomes tell nothing of a share: they are shown as counts. */
export const fewestOutcomes = 20;

/** Levels of the quantiles that a forecast is judged by: the ends of the 90, 80 and 50 % ranges, and the middle. */
export const toldLevels = [0.05, 0.1, 0.25, 0.5, 0.75, 0.9, 0.95] as const;

export const ranges = [50, 80, 90] as const;
export type Range = (typeof ranges)[number];

/** Who foretells: Borecast and what it is held against. */
export const forecasters = ["borecast", "straight-line", "last-time", "fixed-interval"] as const;
export type Forecaster = (typeof forecasters)[number];

export const missReasons = [
  "limit-changed",
  "instrument-off",
  "set-up",
  "wrong-cause",
  "repaired-early",
  "repair-not-recorded",
  "use-changed",
  "scatter",
  "fault-began",
  "within-scatter",
  "rate-changed",
] as const;
export type MissReason = (typeof missReasons)[number];

const isoDate = z.iso.date();
const share = z.number().min(0).max(1);
const count = z.number().int().min(0);

/** A range against what came: `held` of `of`; the share is null under 20 outcomes, and so is its 95 % interval. */
const heldSchema = z.object({
  held: count,
  of: count,
  share: share.nullable(),
  low: share.nullable(),
  high: share.nullable(),
});
export type Held = z.infer<typeof heldSchema>;

const perRange = <T extends z.ZodType>(of: T) => z.object({ "50": of, "80": of, "90": of });

/** One forecaster's score on readings that came later. */
const levelScoreSchema = z.object({
  /** Tests that came: the readings of one err together and count as one outcome. */
  outcomes: count,
  readings: count,
  /** null: tells no range. */
  coverage: perRange(heldSchema).nullable(),
  /** Median distance of the likely level from the reading, in the measure's unit; null under 20 outcomes. */
  medianError: z.number().nullable(),
  /** Mean pinball loss over the seven quantiles, in the measure's unit; null under 20 outcomes. */
  pinball: z.number().nullable(),
});
export type LevelScore = z.infer<typeof levelScoreSchema>;

const byForecaster = <T extends z.ZodType>(of: T) =>
  z.object({ borecast: of, "straight-line": of, "last-time": of, "fixed-interval": of });

const levelGroupSchema = z.object({
  /** Engine model, tester, depot or span; null: not named. */
  key: z.string().nullable(),
  name: z.string(),
  scores: byForecaster(levelScoreSchema.nullable()),
});
export type LevelGroup = z.infer<typeof levelGroupSchema>;

/** One forecaster's score on when limits were met. */
const limitScoreSchema = z.object({
  /** Forecasts that were judged, and those of them after which the limit was met. */
  forecasts: count,
  met: count,
  /** Cylinders, each measure by itself, that met a limit: the outcomes. */
  outcomes: count,
  /**
   * By range: held, missed, and open where tests or a repair ended before it was decided. `share` weighs in the open ones
   * (Kaplan and Meier); null under 20 outcomes, or not followed far enough.
   */
  ranges: perRange(z.object({ held: count, missed: count, open: count, share: share.nullable() })).nullable(),
  /**
   * Median error of the likely distance as a share of the distance that came, of limits met within what was followed, each
   * weighted for those that were not followed so far; null under 20 outcomes.
   */
  medianError: z.number().nullable(),
  /** Mean pinball loss of the distance as a share of the distance that was followed; null under 20 outcomes. */
  pinball: z.number().nullable(),
});
export type LimitScore = z.infer<typeof limitScoreSchema>;

const limitGroupSchema = z.object({
  key: z.string().nullable(),
  name: z.string(),
  scores: byForecaster(limitScoreSchema),
});
export type LimitGroup = z.infer<typeof limitGroupSchema>;

/** "Met within so many days": told probability against what came. */
const withinSchema = z.object({
  days: count,
  /**
   * Forecasts that are at least so old and of which is known what came, those after which the limit was met within the days,
   * and cylinders that they are of.
   */
  forecasts: count,
  met: count,
  cylinders: count,
  /**
   * Mean squared distance of the told probability from what came, weighted for what was not followed so long; null under 20
   * cylinders, or where nobody was followed so long.
   */
  brier: byForecaster(z.number().nullable()),
  /** Of telling everybody the share that came: what knows nothing but that. */
  brierOfShare: z.number().nullable(),
});
export type Within = z.infer<typeof withinSchema>;

const withinGroupSchema = z.object({ key: z.string().nullable(), name: z.string(), within: withinSchema });
export type WithinGroup = z.infer<typeof withinGroupSchema>;

/** A point of a reliability diagram. Of limits the observed share weighs in what was not followed to the end. */
const reliabilityPointSchema = z.object({
  predicted: share,
  observed: share.nullable(),
  low: share.nullable(),
  high: share.nullable(),
  came: count,
  of: count,
});
export type ReliabilityPoint = z.infer<typeof reliabilityPointSchema>;

/** How wide ranges of a model should be, by its own past. */
export const rangeCalibrationSchema = z.object({
  engineModel: z.string(),
  measure: z.enum(judgedMeasures),
  meterUnit: z.enum(meterUnits),
  outcomes: count,
  readings: count,
  /** The observed 80 % quantile of the standardised errors over that of a normal variable; null under 20 outcomes. */
  raw: z.number().nullable(),
  /** What ranges are to be multiplied by: `raw` drawn towards 1, the more the fewer the outcomes; 1 under 20. */
  factor: z.number(),
  /** Share of readings in the 80 % range as told, and with the factor learnt on other engines; null under 20 outcomes. */
  before: share.nullable(),
  after: share.nullable(),
});
export type RangeCalibration = z.infer<typeof rangeCalibrationSchema>;

const caseSchema = z.object({
  unit: z.string(),
  engine: z.string(),
  engineModel: z.string(),
  meterUnit: z.enum(meterUnits),
  measure: z.enum(judgedMeasures),
  cylinder: count,
  /** As-of date of the forecast: that of its last test. */
  made: isoDate,
  /** Instrument and depot of that test. */
  tester: z.string().nullable(),
  depot: z.string().nullable(),
});

const quantilesSchema = z.array(z.number().nullable()).length(toldLevels.length);
const reasonSchema = z.object({ code: z.enum(missReasons), words: z.string() });

/** One forecast of a reading, and the reading. Quantiles ascend in the unit of the reading. */
export const levelCaseSchema = caseSchema.extend({
  came: isoDate,
  days: count,
  distance: z.number(),
  reading: z.number(),
  told: byForecaster(quantilesSchema.nullable()),
  /** Standardised: that a normal variable lies below it is as likely as was told of the reading; worse is higher. */
  z: z.number(),
  /** Of a reading beyond the 90 % range. */
  reason: reasonSchema.nullable(),
  /** The cylinder was repaired next, before any limit was met: all that can be seen of this forecast is the level. */
  repairedNext: z.boolean(),
});
export type LevelCase = z.infer<typeof levelCaseSchema>;

/** One forecast of when a limit is met, and how far it could be followed. */
export const limitCaseSchema = caseSchema.extend({
  limit: z.number(),
  band: z.enum(bands).nullable(),
  /** Distance to the last test of the same baseline, and its date. */
  followed: z.number(),
  until: isoDate,
  endedBy: z.enum(["last-test", "repair", "step"]),
  /** Distance and date at which the limit was met; null: not met while it was followed. */
  met: z.number().nullable(),
  metOn: isoDate.nullable(),
  /** Distances; null: beyond what is foreseen. */
  told: byForecaster(quantilesSchema),
  /** Told chance to meet it within 182, 365 and 730 days. */
  within: byForecaster(z.array(share).length(3)),
  reason: reasonSchema.nullable(),
});
export type LimitCase = z.infer<typeof limitCaseSchema>;

/** What the worst forecasts were, the worst first; each later test once. */
const missSchema = z.object({
  unit: z.string(),
  engineModel: z.string(),
  meterUnit: z.enum(meterUnits),
  measure: z.enum(judgedMeasures),
  /** The one furthest off, and all that lay beyond their 90 % range in this test; ascending. */
  cylinder: count,
  cylinders: z.array(count),
  made: isoDate,
  came: isoDate,
  days: count,
  /** The told 80 % range, the likely level and the reading. */
  p10: z.number(),
  p50: z.number(),
  p90: z.number(),
  reading: z.number(),
  z: z.number(),
  reason: reasonSchema,
});
export type Miss = z.infer<typeof missSchema>;

/** Warnings against what was found. */
const warningsSchema = z.object({
  /** Cylinders, each measure by itself, that met a limit, and those of them told to plan or past the limit before. */
  met: count,
  warned: count,
  /** Median days from the first such telling that stood until the limit was met; null under 20 outcomes. */
  medianDays: z.number().nullable(),
  days: z.array(z.number()),
  /** Cylinders opened, or engines where nothing is told by cylinder, with a finding and a forecast before. */
  opened: count,
  openedFlagged: count,
  /** Of the flagged ones, found sound: false alarms. */
  flaggedSound: count,
  /** Opened and found at fault, but not flagged: misses. */
  faultUnflagged: count,
});
export type Warnings = z.infer<typeof warningsSchema>;

/** Forecasts as they were issued at the time, never made again. */
const issuedSchema = z.object({
  assessments: count,
  /** The first issue, and the last. */
  from: isoDate.nullable(),
  to: isoDate.nullable(),
  /** Forecasts of cylinders that a later test could judge. */
  forecasts: count,
  outcomes: count,
  /** Windows early to late, 80 %. */
  window: z.object({ held: count, missed: count, open: count, met: count }),
  /** Level and rate as issued against the next reading: median distance, by measure; null under 20 outcomes. */
  levels: z.array(
    z.object({
      measure: z.enum(judgedMeasures),
      outcomes: count,
      readings: count,
      medianError: z.number().nullable(),
    }),
  ),
  within: z.object({ forecasts: count, met: count, cylinders: count, brier: z.number().nullable() }),
});
export type IssuedRecord = z.infer<typeof issuedSchema>;

const fixedIntervalSchema = z.object({
  engineModel: z.string(),
  meterUnit: z.enum(meterUnits),
  /** Median use from baseline to repair; null: no life has ended, so the rule asks for nothing. */
  interval: z.number().nullable(),
  lives: count,
});
export type FixedInterval = z.infer<typeof fixedIntervalSchema>;

export const trackRecordSchema = z.object({
  schemaVersion: z.literal(1),
  asOf: isoDate,
  /** Units whose past was gone through, of all that there are: at most so many of a kind, or it would take too long. */
  units: z.object({ judged: count, known: count }),
  /** Forecasts made anew, one for each engine and past test date that was gone through. */
  forecasts: count,
  /** Dates at which the pools were fitted with what was known then. */
  poolDates: z.array(isoDate),
  /** Later readings that are doubted themselves, and so judge nothing. */
  doubtedReadings: count,
  levels: z.array(
    z.object({
      measure: z.enum(judgedMeasures),
      unit: z.enum(["kPa", "%"]),
      overall: byForecaster(levelScoreSchema.nullable()),
      byModel: z.array(levelGroupSchema),
      byTester: z.array(levelGroupSchema),
      byDepot: z.array(levelGroupSchema),
      byAhead: z.array(levelGroupSchema),
      reliability: z.array(reliabilityPointSchema),
      /** The last test before a repair that came before any limit was met, against the level foretold for it. */
      repairedEarly: heldSchema,
    }),
  ),
  limits: z.object({
    overall: byForecaster(limitScoreSchema),
    byModel: z.array(limitGroupSchema),
    byTester: z.array(limitGroupSchema),
    within: z.array(withinSchema),
    /** "Within a year" alone. */
    withinByModel: z.array(withinGroupSchema),
    withinByTester: z.array(withinGroupSchema),
    /** Of "within a year". */
    reliability: z.array(reliabilityPointSchema),
  }),
  warnings: warningsSchema,
  misses: z.array(missSchema),
  /** How many readings beyond the 90 % range have each reason. */
  reasons: z.array(z.object({ code: z.enum(missReasons), count })),
  calibration: z.array(rangeCalibrationSchema),
  fixedIntervals: z.array(fixedIntervalSchema),
  /** null: told without a database, which alone keeps what was issued. */
  issued: issuedSchema.nullable(),
});
export type TrackRecord = z.infer<typeof trackRecordSchema>;
