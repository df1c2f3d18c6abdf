import type { IsoDate } from "../schema/facts.ts";
import { dateWords, monthWords, numberWords } from "../wording.ts";
import type { Preferences } from "./preferences.ts";

/** Dates and numbers in the viewer's format. */

const thinSpace = "\u202f";

const separators = {
  "comma-point": [",", "."],
  "space-point": [thinSpace, "."],
  "point-comma": [".", ","],
  "space-comma": [thinSpace, ","],
} as const satisfies Record<Preferences["numbers"], readonly [thousands: string, decimal: string]>;

/** A number as the canonical wording writes it ("1,010.5"), with the viewer's separators. */
export function separated(canonical: string, format: Preferences["numbers"]): string {
  const [thousands, decimal] = separators[format];
  return canonical.replace(/[,.]/g, (sign) => (sign === "," ? thousands : decimal));
}

export const writtenNumber = (value: number, digits: number, format: Preferences["numbers"]): string =>
  separated(numberWords(value, digits), format);

export function writtenDate(date: IsoDate, format: Preferences["dates"]): string {
  const [year = "", month = "", day = ""] = date.split("-");
  switch (format) {
    case "d-mon-yyyy":
      return dateWords(date);
    case "mon-d-yyyy":
      return `${monthWords(date).slice(0, 3)} ${Number(day)}, ${year}`;
    case "yyyy-mm-dd":
      return date;
    case "dd.mm.yyyy":
      return `${day}.${month}.${year}`;
    case "dd/mm/yyyy":
      return `${day}/${month}/${year}`;
    case "mm/dd/yyyy":
      return `${month}/${day}/${year}`;
  }
}

/** A month has its name in every format but one that begins with the year. */
export const writtenMonth = (date: IsoDate, format: Preferences["dates"]): string =>
  format === "yyyy-mm-dd" ? date.slice(0, 7) : monthWords(date);
