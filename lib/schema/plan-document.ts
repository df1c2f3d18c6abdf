import { z } from "zod";
import { planScopes } from "./workshop.ts";

/** The plan as JSON: what `borecast plan --json` prints. Amounts are whole minor units of the currency. */

const isoDate = z.iso.date();
const amount = z.number().int();

const costSchema = z.object({ work: amount, downtime: amount, early: amount, late: amount, total: amount });

const bookingSchema = z.object({
  unit: z.string(),
  depot: z.string(),
  scope: z.enum(planScopes),
  /** Monday of the week in which it begins, and the ISO week. */
  start: isoDate,
  week: z.string(),
  /** First Monday by which the bay is free of it; the unit may be off the road for longer, by `daysOff` from its start. */
  bayFreeFrom: isoDate,
  /** Last day on which parts that take their lead time can be ordered. */
  orderBy: isoDate,
  labourHours: z.number(),
  bayDays: z.number(),
  daysOff: z.number(),
  pinned: z.boolean(),
  cost: costSchema,
});

export const planDocumentSchema = z.object({
  schemaVersion: z.literal(1),
  asOf: isoDate,
  firstWeek: isoDate,
  weeks: z.number().int(),
  currency: z.string(),
  /** Expected cost of all units, those left until later too; no plan costs less than the bound. */
  cost: amount,
  bound: amount,
  firstComeCost: amount,
  /** With nothing booked but the pins. */
  nothingBookedCost: amount,
  provenWithin: z.number(),
  bookings: z.array(bookingSchema),
  notFitted: z.array(z.object({ unit: z.string(), scope: z.enum(planScopes), bestStart: isoDate, extraCost: amount })),
  /** Repairs that may fall due within the plan, where waiting for the next test costs less than booking. */
  waiting: z.array(
    z.object({ unit: z.string(), class: z.enum(["top-end", "bottom-end"]), chance: z.number().min(0).max(1) }),
  ),
  leftOut: z.array(z.object({ unit: z.string(), why: z.enum(["retired", "too-few-tests", "no-depot", "no-costs"]) })),
  load: z.array(
    z.object({
      depot: z.string(),
      start: isoDate,
      bayDays: z.object({ used: z.number(), has: z.number() }),
      hours: z.object({ used: z.number(), has: z.number() }),
    }),
  ),
});
export type PlanDocument = z.infer<typeof planDocumentSchema>;

/** Whether one unit can wait: `borecast plan --wait UNIT --json`. */
export const waitDocumentSchema = z.object({
  schemaVersion: z.literal(1),
  asOf: isoDate,
  unit: z.string(),
  currency: z.string(),
  weeks: z.array(
    z.object({
      start: isoDate,
      week: z.string(),
      scope: z.enum(planScopes),
      cost: costSchema,
      /** More than in the cheapest week of this repair. */
      extra: amount,
      pastLimit: z.number().min(0).max(1),
      failed: z.number().min(0).max(1),
      /** Why its days off the road cost more: it is off while its workshop is closed, or in a peak. */
      dearBy: z.array(z.enum(["closed", "peak"])),
    }),
  ),
});
export type WaitDocument = z.infer<typeof waitDocumentSchema>;
