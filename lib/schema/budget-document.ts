import { z } from "zod";
import { planScopes } from "./workshop.ts";

/** The budget as JSON: what `borecast budget --json` prints. Amounts are whole minor units of the currency. */

const isoDate = z.iso.date();
const amount = z.number().int();

const rangeSchema = z.object({
  /** Mean of all draws; the parts of a whole add up to it. */
  expected: amount,
  /** Not exceeded with a probability of 50, 80 and 95 %, of the simulated total. */
  p50: amount,
  p80: amount,
  p95: amount,
  /** P80 less P50. */
  contingency: amount,
});

const spanSchema = rangeSchema.extend({
  name: z.string(),
  /** Months that lie in the budget: the first, and how many. */
  firstMonth: z.string(),
  months: z.number().int(),
});

const spentSchema = z.object({
  labour: amount,
  parts: amount,
  machining: amount,
  damage: amount,
  downtime: amount,
});

export const budgetDocumentSchema = z.object({
  schemaVersion: z.literal(1),
  asOf: isoDate,
  currency: z.string(),
  seed: z.number().int(),
  draws: z.number().int(),
  months: z.array(spanSchema),
  quarters: z.array(spanSchema),
  fiscalYears: z.array(
    spanSchema.extend({
      planned: spentSchema,
      unplanned: spentSchema,
      byDepot: z.array(rangeSchema.extend({ depot: z.string() })),
      byScope: z.array(rangeSchema.extend({ scope: z.enum(planScopes) })),
      byEngineModel: z.array(rangeSchema.extend({ engineModel: z.string() })),
      /** Units too seldom tested to be planned, by what their models foresee; part of the whole. */
      untested: rangeSchema,
      /** What the year comes to by the end of each of its months in the budget, simulated as a whole. */
      cumulative: z.array(z.object({ month: z.string(), expected: amount, p50: amount, p80: amount })),
      /** Expected, those with money in it, the most first. */
      units: z.array(
        z.object({
          unit: z.string(),
          depot: z.string(),
          engineModel: z.string(),
          /** Too seldom tested: by what its model foresees. */
          untested: z.boolean(),
          expected: amount,
          unplanned: amount,
          byScope: z.record(z.enum(planScopes), amount),
          /** What of it comes after failures; absent: drawn by a version that did not tell it. */
          unplannedByScope: z.record(z.enum(planScopes), amount).optional(),
          spent: spentSchema,
        }),
      ),
    }),
  ),
});
export type BudgetDocument = z.infer<typeof budgetDocumentSchema>;
