import type { DecimalSign } from "./layout.ts";

/** Numbers as people write them: `1.250,5`, `1,250.5`, `148 600`, `1'250`. ASCII digits only; no exponents. */

/** What parts thousands whatever the decimal sign: blanks of four kinds and apostrophes. */
const neutral = /(?<=\d)[ \u00a0\u202f\u2009'’](?=\d{3}(?!\d))/g;

const grammar: Record<DecimalSign, RegExp> = {
  ".": /^([+-]?)(\d+|[1-9]\d{0,2}(?:,\d{3})+)?(?:\.(\d*))?$/,
  ",": /^([+-]?)(\d+|[1-9]\d{0,2}(?:\.\d{3})+)?(?:,(\d*))?$/,
};

/** The number with a decimal point and nothing that parts thousands; null: it is none by this decimal sign. */
function readBy(text: string, sign: DecimalSign): string | null {
  const parts = grammar[sign].exec(text);
  if (parts === null) return null;
  const [, plusMinus = "", whole, decimals = ""] = parts;
  if (whole === undefined && decimals === "") return null;
  const digits = whole?.replace(/[.,]/g, "") ?? "0";
  return `${plusMinus === "-" ? "-" : ""}${digits}${decimals === "" ? "" : `.${decimals}`}`;
}

/** Nobody writes a longer number. */
const longestNumber = 64;

export type NumberRead =
  | { readonly is: "number"; readonly text: string }
  /** `12,480` without knowing the decimal sign: both are meant as the contract writes them. */
  | { readonly is: "ambiguous"; readonly texts: readonly [string, string] }
  | { readonly is: "other" };

/** Reads a number by the decimal sign of its file; null: not known. */
export function readNumber(given: string, sign: DecimalSign | null): NumberRead {
  if (given.length > longestNumber) return { is: "other" };
  const text = given.trim().replace(neutral, "");
  if (text === "") return { is: "other" };
  if (sign !== null) {
    const read = readBy(text, sign);
    return read === null ? { is: "other" } : { is: "number", text: read };
  }
  const [point, comma] = [readBy(text, "."), readBy(text, ",")];
  const one = point ?? comma;
  if (one === null) return { is: "other" };
  if (point !== null && comma !== null && Number(point) !== Number(comma)) {
    return { is: "ambiguous", texts: [point, comma] };
  }
  return { is: "number", text: one };
}
