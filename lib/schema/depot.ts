import { z } from "zod";

/** A depot's calendar, as people give it: when work there counts more, and when none is done. */

const week = z.number().int().min(1, "Weeks count from 1.").max(53, "A year has no more than 53 weeks.");
const common = {
  /** `peak`: its units are needed most; `closed`: its workshop does no work. */
  kind: z.enum(["peak", "closed"]),
  remarks: z.string().trim().max(200, "Up to 200 characters.").nullable(),
};

export const depotPeriodSchema = z.discriminatedUnion("repeat", [
  /** The same ISO weeks every year, both counted in; 46 to 8 runs over the year's end. */
  z.object({ ...common, repeat: z.literal("yearly"), firstWeek: week, lastWeek: week }),
  /** Once, both days counted in. */
  z
    .object({ ...common, repeat: z.literal("once"), firstDate: z.iso.date(), lastDate: z.iso.date() })
    .refine((p) => p.firstDate <= p.lastDate, { message: "The last day lies before the first.", path: ["lastDate"] }),
]);
export type DepotPeriod = z.infer<typeof depotPeriodSchema>;
export type DepotPeriodKind = DepotPeriod["kind"];

/** What a depot has to work with; null: not told. */
const depotCapacitySchema = z.object({
  bays: z.number().int().min(0).max(500).nullable(),
  technicians: z.number().int().min(0).max(5_000).nullable(),
  /** Hours of work on engines that a technician gives a day, beside breaks, travel and other duties. */
  productiveHoursPerDay: z.number().positive().max(24).nullable(),
  /** Days of the week on which its workshop works. */
  daysPerWeek: z.number().int().min(1).max(7).nullable().default(null),
  /** People who can build bottom ends; they are among the technicians. */
  builders: z.number().int().min(0).max(5_000).nullable().default(null),
  /** A technician's hour, in whole units of the fleet's currency. */
  labourRate: z.number().min(0).max(1_000_000_000).nullable().default(null),
});

/** Why the people who build bottom ends are not taken; null: they are. */
export function buildersProblem(builders: number | null, technicians: number | null): string | null {
  if (builders === null || technicians === null || builders <= technicians) return null;
  return `People who build bottom ends are among the technicians: write at most ${technicians}, as many as there are technicians, or add technicians.`;
}

/** All that people tell of a depot by hand, as it is saved at once. */
export const depotSetupSchema = depotCapacitySchema.extend({
  periods: z.array(depotPeriodSchema),
  /** No longer used: listed apart. What was tested there, and what stands there, stays. */
  retired: z.boolean(),
});
export type DepotSetup = z.infer<typeof depotSetupSchema>;

/** Of a depot that nobody told anything of. */
export const blankDepotSetup: DepotSetup = {
  bays: null,
  technicians: null,
  productiveHoursPerDay: null,
  daysPerWeek: null,
  builders: null,
  labourRate: null,
  periods: [],
  retired: false,
};
