import { z } from "zod";
import { evidenceIds } from "./evidence-ids.ts";
import { longestName } from "./longest-name.ts";
import { causes } from "./words.ts";

/** Engine models and their file (contract, section 4). Pressures are gauge, in kPa; leakage in %. */

// The same bounds as the columns of the CSV files have: beyond them lies a slip, and nothing reckoned with it holds.
const pressureKpa = z.number().positive().max(10_000);
const percent = z.number().min(0).max(100);

const compressionSchema = z
  .object({
    newKpa: pressureKpa,
    minimumKpa: pressureKpa,
    spreadPercent: percent.optional(),
    spreadKpa: pressureKpa.optional(),
    spreadRule: z.enum(["of-highest", "of-mean", "absolute"]).default("of-highest"),
    referenceRpm: z.number().positive().max(3_000).optional(),
  })
  .refine((c) => c.minimumKpa < c.newKpa, { message: "minimumKpa must lie below newKpa", path: ["minimumKpa"] })
  .refine((c) => c.spreadRule !== "absolute" || c.spreadKpa !== undefined, {
    message: "spreadRule absolute needs spreadKpa",
    path: ["spreadKpa"],
  });

const limitsSchema = z.object({
  // Leakage is told as a share of it, and no engine leaks nothing.
  watchPercent: percent.gt(0),
  planPercent: percent,
  limitPercent: percent,
});

const ascending = (l: { watchPercent: number; planPercent: number; limitPercent: number }) =>
  l.watchPercent <= l.planPercent && l.planPercent <= l.limitPercent;
const ascendingMessage = "watchPercent, planPercent and limitPercent must ascend";

const leakDownSchema = limitsSchema
  .extend({
    orificeMm: z.number().positive().max(25).default(1.016),
    supplyKpa: pressureKpa.default(550),
    valves: limitsSchema.refine(ascending, { message: ascendingMessage }).optional(),
  })
  .refine(ascending, { message: ascendingMessage });

const dieselWords = /diesel|\bderv\b|\bgas ?oil\b/;
const petrolWords = /\b(petrol|gasoline|avgas|mogas|unleaded)\b/;

/** "Diesel oil" → `diesel`, "Unleaded 95" → `petrol`, anything else as written, lower-case: readers compare exactly. */
function fuelOf(text: string): string {
  const fuel = text.toLowerCase();
  if (dieselWords.test(fuel)) return "diesel";
  return petrolWords.test(fuel) ? "petrol" : fuel;
}

const money = z.number().min(0).max(1_000_000_000_000);
const workSchema = z.object({
  labourHours: z.number().min(0).max(20_000),
  parts: money,
  /** Calendar days off the road. */
  downtimeDays: z.number().min(0).max(4_000),
  /** Work outside: skimming, boring, grinding. Absent: none, or within `parts`. */
  machining: money.optional(),
  /** Working days in a bay; absent: as the days off the road have. */
  bayDays: z.number().min(0).max(4_000).optional(),
  /** Working days until parts can be had; absent: as the fleet's settings say. */
  leadDays: z.number().min(0).max(1_000).optional(),
});
const repairSchema = workSchema.extend({ unplannedFactor: z.number().min(1).max(100).default(1) });

/** P(finding | cause alone): neither impossible nor certain, or one sight would settle everything for ever. */
export const likelihoodRange = { least: 0.001, most: 0.999 } as const;
const likelihoodSchema = z.number().min(likelihoodRange.least).max(likelihoodRange.most);

/** What a model's own likelihoods put in the place of the evidence table's (lib/cause/evidence.ts). */
const ownEvidenceSchema = z.object({
  /** By cause; a cause that is left out keeps the table's. */
  likelihoods: z
    .partialRecord(z.enum(causes), likelihoodSchema)
    .refine((of) => Object.keys(of).length > 0, { message: "must name a cause" }),
  /** Why this engine differs, for whoever reads it later. */
  reason: z.string().trim().min(1).max(1000),
});

const sumOf = (shares: Readonly<Partial<Record<string, number>>>): number =>
  Object.values(shares).reduce<number>((sum, share) => sum + (share ?? 0), 0);
/** What is left for the causes that a model leaves out, at the least; and how far all of them may miss 1, as rounded shares do. */
const sharesRange = { left: 0.01, slack: 0.01 } as const;

/** What a model's own shares put in the place of the evidence table's (lib/cause/evidence.ts). */
const ownSharesSchema = z.object({
  /** By cause, before anything is seen; the others share what is left in proportion to the table's. */
  shares: z
    .partialRecord(z.enum(causes), likelihoodSchema)
    .refine((of) => Object.keys(of).length > 0, { message: "must name a cause" })
    .refine(
      (of) =>
        Object.keys(of).length < causes.length
          ? sumOf(of) <= 1 - sharesRange.left + 1e-9
          : Math.abs(sumOf(of) - 1) <= sharesRange.slack + 1e-9,
      { message: "must come to at most 0.99 together, or to 1 where every cause is named" },
    ),
  /** Why this engine differs, for whoever reads it later. */
  reason: z.string().trim().min(1).max(1000),
});

export const engineModelSchema = z
  .object({
    id: z
      .string()
      .trim()
      .min(1)
      .max(longestName)
      .regex(/^\P{Cc}*$/u, "must not hold control characters")
      // Its page has its id for an address, and these lead elsewhere.
      .refine((id) => !["new", ".", ".."].includes(id), "must be another word than new, . or .."),
    name: z.string().trim().min(1).max(longestName).optional(),
    /** `petrol`, `diesel` or another fuel, lower-case; absent: not known. */
    fuel: z.string().trim().min(1).transform(fuelOf).optional(),
    cylinders: z.number().int().min(1).max(16),
    neighbours: z.array(z.tuple([z.number().int().min(1), z.number().int().min(1)])).default([]),
    /** How the cylinders stand, for drawing; rows of cylinder numbers, front of engine first. */
    layout: z.enum(["in-line", "v", "opposed"]).default("in-line"),
    /** What cools it: an air-cooled engine has no coolant to leak into. Absent: not known, taken as liquid. */
    cooling: z.enum(["liquid", "air"]).optional(),
    /** Aircraft carry their own caution: approved data and a licensed engineer decide. */
    aircraft: z.boolean().default(false),
    /** No new unit gets it; units that have it are assessed as before. Absent where it is not. */
    retired: z.boolean().optional(),
    /** The maker allows a wet test although it is a diesel. Absent: not allowed there. */
    wetTest: z.boolean().optional(),
    compression: compressionSchema.optional(),
    leakDown: leakDownSchema.optional(),
    repairs: z
      .object({
        topEnd: repairSchema.optional(),
        bottomEnd: repairSchema.optional(),
        /** Both in one go; absent: made of the two. */
        both: workSchema.optional(),
        /** Another engine put in, its price or its building as `parts`; absent: not done. */
        exchange: workSchema.optional(),
      })
      .optional(),
    /** Findings that this engine shows more or less often than the evidence table says, by the row's id. */
    evidence: z.partialRecord(z.enum(evidenceIds), ownEvidenceSchema).optional(),
    /** How often each cause is at work in this engine before anything is seen, where that differs from the table. */
    causeShares: ownSharesSchema.optional(),
    testInterval: z
      .object({
        meter: z.number().positive().max(10_000_000).optional(),
        days: z.number().positive().max(36_500).optional(),
      })
      .optional(),
  })
  .refine((m) => m.compression !== undefined || m.leakDown !== undefined, {
    message: "a model needs compression (newKpa, minimumKpa) or leakDown (watchPercent, planPercent, limitPercent)",
  })
  .refine((m) => m.neighbours.every(([a, b]) => a !== b && a <= m.cylinders && b <= m.cylinders), {
    message: "neighbours must be pairs of two different cylinders of the engine",
    path: ["neighbours"],
  });

export type EngineModel = z.infer<typeof engineModelSchema>;
export type LeakDownLimits = z.infer<typeof limitsSchema>;

export const engineModelFileSchema = z
  .object({ schemaVersion: z.literal(1), engineModels: z.array(engineModelSchema).min(1) })
  .refine((f) => new Set(f.engineModels.map((m) => m.id)).size === f.engineModels.length, {
    message: "two engine models carry the same id",
    path: ["engineModels"],
  });
