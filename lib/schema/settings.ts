import { z } from "zod";

/** Settings of the fleet. Each has a default that a person may change. */
export const settingsSchema = z.object({
  /** Name shown in the page header; empty: none. */
  fleetName: z.string().max(80).default(""),
  /** IANA time zone in which "today" is told. */
  timeZone: z.string().default("UTC"),
  /** A fixed as-of date (the demo fleet carries one); null: today in the fleet's time zone. */
  asOf: z.iso.date().nullable().default(null),
  horizonYears: z.number().positive().max(30).default(5),
  /** Planning lead time: the span within which a crossing makes a unit one to plan or watch. */
  leadTimeMonths: z.number().int().positive().max(120).default(12),
  /** Span within which a second class of repair is done together with the first. 12 to 18 months is common practice, no source. */
  togetherMonths: z.number().int().min(1).max(60).default(18),
  planProbability: z.number().min(0).max(1).default(0.3),
  watchProbability: z.number().min(0).max(1).default(0.1),
  /** Test interval of engine models that state none: by the calendar, by distance, by hours; null: none. */
  testIntervalDays: z.number().int().positive().max(36_500).nullable().default(null),
  testIntervalKm: z.number().positive().max(10_000_000).nullable().default(null),
  testIntervalHours: z.number().positive().max(10_000_000).nullable().default(null),
  /** Largest file that may be uploaded, in megabytes (10^6 bytes). */
  uploadLimitMb: z.number().int().min(1).max(2000).default(200),
  /** A technician's hours to get one engine ready for its tests, and closed again. Common practice, no source. */
  testReadyHours: z.number().min(0).max(100).default(0.75),
  /** A technician's minutes for each cylinder and each kind of test. Common practice, no source. */
  testCylinderMinutes: z.number().min(0).max(600).default(10),
});
export type Settings = z.infer<typeof settingsSchema>;

/** The settings that a band and a forecast hang on. */
export const assessmentSettings = [
  "horizonYears",
  "leadTimeMonths",
  "togetherMonths",
  "planProbability",
  "watchProbability",
  "testIntervalDays",
  "testIntervalKm",
  "testIntervalHours",
] as const satisfies readonly (keyof Settings)[];
export type AssessmentSettings = Pick<Settings, (typeof assessmentSettings)[number]>;

/** What a person may write down: each value in its range, and those that hang together in their order. */
export const checkedSettingsSchema = settingsSchema.refine((s) => s.watchProbability <= s.planProbability, {
  message: "The chance for plan must be at least that for watch: a unit to plan is one to watch as well.",
  path: ["planProbability"],
});
