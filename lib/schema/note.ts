import { z } from "zod";
import type { IsoDate } from "./facts.ts";

const mostCharacters = 2_000;

/** A note about a unit as a form sends it. `today`: the fleet's date; no note is about a later day. */
export const noteSchema = (today: IsoDate) =>
  z.object({
    text: z
      .string()
      .trim()
      // Browsers send each line's end as two characters, and count it as one.
      .transform((text) => text.replace(/\r\n/g, "\n"))
      .pipe(
        z
          .string()
          .min(1, "Write what was seen or agreed.")
          .max(mostCharacters, `A note may have up to ${mostCharacters.toLocaleString("en-GB")} characters.`),
      ),
    date: z.iso
      .date({ error: "Give the day as year, month and day.", abort: true })
      .refine((date) => date <= today, "The day lies in the future."),
  });

/** A note that is to be kept. */
export type NoteGiven = z.infer<ReturnType<typeof noteSchema>>;
