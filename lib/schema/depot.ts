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
