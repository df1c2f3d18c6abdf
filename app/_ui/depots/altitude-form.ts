import { z } from "zod";
import { altitudeRangeM } from "../../../lib/sealing/atmosphere.ts";
import { numberWords } from "../../../lib/wording.ts";
import { type DecimalSign, figureOf, figureProblem } from "../figures.ts";

/** What a person asks for: an altitude as it was typed, and the version that the person saw. */
export const askedAltitudeSchema = z.object({
  depot: z.string().min(1).max(400),
  altitude: z.string().max(400),
  seen: z.string().nullable(),
});
export type AskedAltitude = z.infer<typeof askedAltitudeSchema>;

const { lowest, highest } = altitudeRangeM;

/** The altitude in metres, or why it is not taken. `sign`: the viewer's decimal sign. */
export function readAltitude(text: string, sign: DecimalSign = "."): number | string {
  const altitudeM = figureOf(text, sign);
  if (altitudeM === null) return "Give the altitude in metres. To make it unknown again, undo the import that told it.";
  if (altitudeM >= lowest && altitudeM <= highest) return altitudeM;
  return figureProblem(text, sign) ?? `Metres above the sea, from ${numberWords(lowest)} to ${numberWords(highest)}.`;
}
