import { z } from "zod";
import { depotSetupSchema } from "./depot.ts";
import { checkedSettingsSchema } from "./settings.ts";

/**
 * What people told the app beside the facts, as `borecast export` writes it and a new database takes it back: each a JSON
 * file of its own. Lists, and no objects by name, since a depot may have any name.
 */

const schemaVersion = z.literal(1);

const writtenNote = z.object({
  unit: z.string().min(1),
  text: z.string().min(1),
  date: z.iso.date(),
  by: z.string(),
  at: z.iso.datetime(),
  withdrawnAt: z.iso.datetime().nullable(),
  withdrawnBy: z.string().nullable(),
});
export type WrittenNote = z.infer<typeof writtenNote>;

const writtenLayout = z.object({
  name: z.string().min(1),
  /** The header that it is recognised by. */
  header: z.string(),
  layout: z.unknown(),
  by: z.string(),
  at: z.iso.datetime(),
});
export type WrittenLayout = z.infer<typeof writtenLayout>;

/** The files by their names, and what each holds. */
export const writtenHouse = {
  "settings.json": z.object({ schemaVersion, settings: checkedSettingsSchema }),
  "depot-calendars.json": z.object({
    schemaVersion,
    depots: z.array(depotSetupSchema.extend({ depot: z.string().min(1) })),
  }),
  "notes.json": z.object({ schemaVersion, notes: z.array(writtenNote) }),
  "layouts.json": z.object({ schemaVersion, layouts: z.array(writtenLayout) }),
} as const;
export type HouseFile = keyof typeof writtenHouse;
