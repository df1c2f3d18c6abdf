import { z } from "zod";
import { sameName } from "../../../db/searching.ts";
import { longestName } from "../../../lib/schema/longest-name.ts";
import type { FieldProblems } from "../asking/field-problems.ts";
import type { DecimalSign } from "../figures.ts";
import { readAltitude } from "./altitude-form.ts";

/** A depot that a person wants to add: its name, and its altitude as it was typed (empty: not known). */
export const newDepotSchema = z.object({ depot: z.string().max(2 * longestName), altitude: z.string().max(400) });
export type NewDepot = z.infer<typeof newDepotSchema>;

/** Reads the form beside the depots that are known. Each field that is not taken has its reason. */
export function readNewDepot(
  given: NewDepot,
  known: readonly string[],
  sign: DecimalSign = ".",
):
  | { readonly ok: true; readonly depot: string; readonly altitudeM: number | null }
  | { readonly ok: false; readonly problems: FieldProblems } {
  const depot = given.depot.trim();
  const altitudeM = given.altitude.trim() === "" ? null : readAltitude(given.altitude, sign);
  const twin = known.find((name) => sameName(name, depot));
  const problems: Record<string, string> = {};
  if (depot === "") problems["depot"] = "Give the name by which files and people call it.";
  else if (depot.length > longestName) problems["depot"] = `At most ${longestName} letters.`;
  else if (/[\p{Cc}\p{Cf}]/u.test(depot) || !/[\p{L}\p{N}]/u.test(depot)) {
    problems["depot"] = "Letters or figures that can be seen, in one line.";
  } else if (twin !== undefined) problems["depot"] = `There is a depot ${twin} already.`;
  if (typeof altitudeM === "string") problems["altitude"] = altitudeM;
  if (Object.keys(problems).length > 0 || typeof altitudeM === "string") return { ok: false, problems };
  return { ok: true, depot, altitudeM };
}
