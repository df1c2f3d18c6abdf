import { z } from "zod";

/**
 * How one viewer wants figures written. Data, and the sentences that are kept, stay as they are (kPa, each unit's own
 * meter unit, ISO dates); these only decide how they are printed. What a kept choice does not say, or says wrongly, has
 * its default.
 */

export const pressureChoices = ["kPa", "bar", "psi"] as const;
/** `as-recorded`: each unit's own. Hours stay hours. */
export const distanceChoices = ["as-recorded", "km", "mi"] as const;
/** Rates over distance are told for so many km or miles; those over hours for 1,000 h. */
export const rateChoices = [10_000, 1_000] as const;
export const dateChoices = [
  "d-mon-yyyy",
  "mon-d-yyyy",
  "yyyy-mm-dd",
  "dd.mm.yyyy",
  "dd/mm/yyyy",
  "mm/dd/yyyy",
] as const;
/** Thousands and decimals parted by comma and point, thin space and point, point and comma, thin space and comma. */
export const numberChoices = ["comma-point", "space-point", "point-comma", "space-comma"] as const;

export const preferencesSchema = z.object({
  pressure: z.enum(pressureChoices).catch("kPa"),
  distance: z.enum(distanceChoices).catch("as-recorded"),
  ratePer: z.union([z.literal(10_000), z.literal(1_000)]).catch(10_000),
  dates: z.enum(dateChoices).catch("d-mon-yyyy"),
  numbers: z.enum(numberChoices).catch("comma-point"),
});
export type Preferences = z.infer<typeof preferencesSchema>;

/** Those of a viewer who never chose. */
export const plainPreferences: Preferences = preferencesSchema.parse({});

/** Preferences as one word of text, and back; what cannot be read counts as never chosen. */
export const preferencesText = (preferences: Preferences): string =>
  [preferences.pressure, preferences.distance, preferences.ratePer, preferences.dates, preferences.numbers].join("_");

export function readPreferences(text: string | undefined): Preferences {
  const [pressure, distance, ratePer, dates, numbers] = (text ?? "").split("_");
  return preferencesSchema.parse({ pressure, distance, ratePer: Number(ratePer), dates, numbers });
}
