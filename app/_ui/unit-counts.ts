import type { CsvCell } from "../../lib/outtake/csv.ts";
import { type Band, bands } from "../../lib/schema/words.ts";

/** Columns of a file that count the units of a thing: all of them, and those in each band. */
export const unitCountColumns = <T>(
  unitsOf: (thing: T) => ReadonlyMap<Band | null, number>,
): Readonly<Record<string, (thing: T) => CsvCell>> => ({
  units: (thing) => [...unitsOf(thing).values()].reduce((sum, count) => sum + count, 0),
  ...Object.fromEntries(
    [...bands]
      .reverse()
      .map((band) => [`units_${band.replaceAll("-", "_")}`, (thing: T) => unitsOf(thing).get(band) ?? 0]),
  ),
  units_not_judged: (thing) => unitsOf(thing).get(null) ?? 0,
});
