import { z } from "zod";
import { blankDepotSetup, depotPeriodSchema } from "./depot.ts";

/**
 * What a plan and a budget need to know beside the fleet's facts: prices, what a day off the road costs, what each workshop
 * has. Money is in whole units of the currency, with decimals; it is reckoned with in its minor units.
 */

const money = z.number().min(0).max(1_000_000_000_000);
const percentAYear = z.number().min(-50).max(200);

/** What it costs that a unit of a class stands still, runs on past its limit, or fails there. */
const unitClassCostsSchema = z.strictObject({
  /** A day out of service: hire of another, or work that is not done. */
  dayOff: money.default(150),
  /** In peak weeks a day out of service costs so many times as much. */
  peakFactor: z.number().min(1).max(100).default(2),
  /** Fuel, oil and starting trouble of a week past the limit. */
  runningOnPerWeek: money.default(40),
  /** Chance of a failure in a week past the limit. Judgement. */
  failurePercentPerWeek: z.number().min(0).max(100).default(3),
  /** What a failure breaks or calls for beside the dearer repair: recovery, hire. */
  failureExtra: money.default(0),
});
export type UnitClassCosts = z.infer<typeof unitClassCostsSchema>;

/** 5.5 to 6.5 productive hours a day, and one or two people who can build bottom ends, are common practice, no source. */
const depotWorkshopSchema = z.strictObject({
  bays: z.number().int().min(0).max(500).default(1),
  technicians: z.number().int().min(0).max(5_000).default(2),
  productiveHoursPerDay: z.number().positive().max(24).default(6),
  daysPerWeek: z.number().int().min(1).max(7).default(5),
  /** People who can build bottom ends; they are among the technicians. */
  builders: z.number().int().min(0).max(5_000).default(1),
  /** A technician's hour; null: the fleet's. */
  labourRate: money.nullable().default(null),
  periods: z.array(depotPeriodSchema).default(blankDepotSetup.periods),
});
export type DepotWorkshop = z.infer<typeof depotWorkshopSchema>;

const sparesSchema = z.strictObject({
  count: z.number().int().min(0).max(10_000),
  /** Weeks until an engine that came out has been built and can go in again. */
  turnaroundWeeks: z.number().int().min(1).max(520).default(12),
});

const groupSchema = z.strictObject({
  name: z.string().trim().min(1).max(200),
  units: z.array(z.string()).min(2),
  /** How many of them may be out in one week. */
  mostOut: z.number().int().min(1),
});

const otherWorkSchema = z.strictObject({
  unit: z.string(),
  /** Any day of the week in which the unit is in the workshop anyway. */
  date: z.iso.date(),
  days: z.number().positive().max(365),
  what: z.string().max(200).default(""),
});

const takenSchema = z.strictObject({
  depot: z.string(),
  date: z.iso.date(),
  bayDays: z.number().min(0).max(10_000).default(0),
  hours: z.number().min(0).max(100_000).default(0),
  what: z.string().max(200).default(""),
});

export const planScopes = ["top-end", "bottom-end", "both", "exchange"] as const;

const pinSchema = z.strictObject({ unit: z.string(), scope: z.enum(planScopes), date: z.iso.date() });

const currencySchema = z.string().regex(/^[A-Z]{3}$/, "must be a code of ISO 4217, such as EUR; XXX for none");

export const workshopSchema = z.strictObject({
  schemaVersion: z.literal(1).default(1),
  /** ISO 4217; XXX: none is named. */
  currency: currencySchema.default("XXX"),
  /** Day at whose prices all amounts stand; null: the day of the plan. */
  priceDate: z.iso.date().nullable().default(null),
  /** Growth of prices in % a year; 2 to 6 is common practice, no source. */
  labourGrowthPercent: percentAYear.default(3),
  partsGrowthPercent: percentAYear.default(4),
  /** A technician's hour. */
  labourRate: money.default(60),
  /** Weeks in which work may be planned to begin. */
  planWeeks: z.number().int().min(26).max(104).default(52),
  /** By how many weeks later plans, which know more, are taken to miss the right week of a repair. Judgement. */
  missWeeks: z.number().int().min(0).max(260).default(8),
  /** Working days until parts can be had, where the engine model tells none. Common practice, no source. */
  leadDays: z
    .strictObject({
      topEnd: z.number().min(0).max(1000).default(10),
      bottomEnd: z.number().min(0).max(1000).default(20),
      exchange: z.number().min(0).max(1000).default(30),
    })
    .prefault({}),
  /** A second class of repair within so many months of the first is made together with it. 12 to 18 is common practice. */
  togetherMonths: z.number().int().min(1).max(60).default(18),
  /**
   * Share of a top end's labour that a bottom end done at the same time adds; it contains most of a top end. 10 to 30 % is
   * common practice, no source.
   */
  togetherLabourShare: z.number().min(0).max(1).default(0.2),
  /** First month of the fiscal year, and how many months a budget has. */
  fiscalYearStartMonth: z.number().int().min(1).max(12).default(1),
  budgetMonths: z.number().int().min(12).max(60).default(36),
  /**
   * How far a repair's hours, its parts, and the growth of prices may lie from what is told, in %; and the share of a forecast's
   * uncertainty that engines of a model have in common. Judgement.
   */
  spreads: z
    .strictObject({
      hoursPercent: z.number().min(0).max(200).default(20),
      partsPercent: z.number().min(0).max(200).default(20),
      growthPercent: z.number().min(0).max(50).default(1.5),
      ofModelPercent: z.number().min(0).max(100).default(10),
    })
    .prefault({}),
  anyClass: unitClassCostsSchema.prefault({}),
  unitClasses: z.record(z.string(), unitClassCostsSchema).default({}),
  anyDepot: depotWorkshopSchema.prefault({}),
  depots: z.record(z.string(), depotWorkshopSchema).default({}),
  spares: z.record(z.string(), sparesSchema).default({}),
  groups: z.array(groupSchema).default([]),
  otherWork: z.array(otherWorkSchema).default([]),
  taken: z.array(takenSchema).default([]),
  pins: z.array(pinSchema).default([]),
});
export type Workshop = z.infer<typeof workshopSchema>;
