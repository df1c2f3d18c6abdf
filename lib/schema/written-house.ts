import { z } from "zod";
import { depotSetupSchema } from "./depot.ts";
import { longestPhotoName } from "./photo.ts";
import { mostCylinders } from "./rows.ts";
import { checkedSettingsSchema } from "./settings.ts";
import { repairScopes } from "./words.ts";
import { workshopSchema } from "./workshop.ts";

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

/** A photo of a repair that stands, as it was given; its bytes lie in a file of their own. */
const writtenPhoto = z.object({
  /** Within the folder, named by us alone: the SHA-256 of its bytes and what they are. */
  file: z.string().regex(/^photos\/[0-9a-f]{64}\.(jpg|png|webp)$/, "must name a file as an export does"),
  unit: z.string().min(1),
  date: z.iso.date(),
  scope: z.enum(repairScopes),
  cylinders: z.union([z.literal("all"), z.array(z.number().int().min(1).max(mostCylinders)).min(1).readonly()]),
  name: z.string().trim().min(1).max(longestPhotoName),
  by: z.string(),
  at: z.iso.datetime(),
});
export type WrittenPhoto = z.infer<typeof writtenPhoto>;

/** The files by their names, and what each holds. */
export const writtenHouse = {
  "settings.json": z.object({ schemaVersion, settings: checkedSettingsSchema }),
  "depot-calendars.json": z.object({
    schemaVersion,
    depots: z.array(depotSetupSchema.extend({ depot: z.string().min(1) })),
  }),
  "workshop.json": workshopSchema,
  "notes.json": z.object({ schemaVersion, notes: z.array(writtenNote) }),
  "photos.json": z.object({ schemaVersion, photos: z.array(writtenPhoto) }),
  "layouts.json": z.object({ schemaVersion, layouts: z.array(writtenLayout) }),
} as const;
export type HouseFile = keyof typeof writtenHouse;
