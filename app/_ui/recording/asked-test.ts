import { z } from "zod";
import { measures } from "../../../lib/schema/words.ts";

/** The test of a unit that an address names after its `?`, as `testAddress` writes it. */
export const askedTestSchema = z.object({
  date: z.iso.date(),
  test: z.enum(measures),
  attempt: z.coerce.number().int().min(1),
  instrument: z
    .string()
    .default("")
    .transform((name) => (name === "" ? null : name)),
});
