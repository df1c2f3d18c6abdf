import type { NumberRange } from "../schema/cells.ts";
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

const within = (value: number, { above, atLeast, atMost, whole }: NumberRange) =>
  (above === undefined || value > above) &&
  (atLeast === undefined || value >= atLeast) &&
  (atMost === undefined || value <= atMost) &&
  (whole !== true || Number.isInteger(value));

/** What a column's numbers are, so that a reading of a cell which cannot be meant is left out. */
export interface NumberColumn {
  readonly texts: readonly string[];
  readonly range: NumberRange;
}

/** The decimal signs by which a cell can be meant; both where it makes no difference. */
function signsOf(text: string, range: NumberRange): readonly DecimalSign[] {
  const read = readNumber(text, null);
  if (read.is === "other") return [".", ","];
  if (read.is === "ambiguous") {
    const [point, comma] = read.texts;
    const signs = ([".", ","] as const).filter((sign) => within(Number(sign === "." ? point : comma), range));
    return signs.length === 0 ? [".", ","] : signs;
  }
  if (!/[.,]/.test(text)) return [".", ","];
  return ([".", ","] as const).filter((sign) => readNumber(text, sign).is === "number");
}

/** So much smaller than the others of its column a number is not. */
const farBelow = 50;

/**
 * The sign that the numbers around an ambiguous one speak for: `1,250` among 980 and 1015 is 1250, for 1.25 lies nowhere
 * near them. Needs at least 3 numbers without any sign, all of 100 and above.
 */
function signByNeighbours({ texts }: NumberColumn): DecimalSign | null {
  const plain = texts
    .map((text) => text.trim())
    .filter((text) => /^\d+$/.test(text))
    .map(Number);
  const least = Math.min(...plain);
  if (plain.length < 3 || least < 100) return null;
  const signed = texts.map((text) => readNumber(text, null)).filter((read) => read.is === "ambiguous");
  const thousands = signed.every(
    ({ texts: [point, comma] }) => Math.min(Number(point), Number(comma)) * farBelow < least,
  );
  if (signed.length === 0 || !thousands) return null;
  return signed.every(({ texts: [point, comma] }) => Number(point) > Number(comma))
    ? "."
    : signed.every(({ texts: [point, comma] }) => Number(point) < Number(comma))
      ? ","
      : null;
}

export type SignFound =
  | { readonly is: "found"; readonly sign: DecimalSign; readonly by: string }
  /** No number of the file has a sign that could be misread. */
  | { readonly is: "no-matter" }
  | { readonly is: "ambiguous"; readonly example: string }
  | { readonly is: "contradictory"; readonly examples: readonly [string, string] };

/**
 * The decimal sign of a file from all of its numbers: people write one kind of number in one file. `by` is the cell that
 * tells. A file whose cells tell both is contradictory, and nothing is taken.
 */
export function findDecimalSign(columns: readonly NumberColumn[]): SignFound {
  const telling = new Map<DecimalSign, string>();
  let open: string | null = null;
  for (const { texts, range } of columns) {
    for (const text of texts) {
      const signs = signsOf(text, range);
      const only = signs.length === 1 ? signs[0] : undefined;
      if (only !== undefined && !telling.has(only)) telling.set(only, text.trim());
      else if (signs.length === 2 && readNumber(text, null).is === "ambiguous") open ??= text.trim();
    }
  }
  const [point, comma] = [telling.get("."), telling.get(",")];
  if (point !== undefined && comma !== undefined) return { is: "contradictory", examples: [point, comma] };
  if (point !== undefined) return { is: "found", sign: ".", by: point };
  if (comma !== undefined) return { is: "found", sign: ",", by: comma };
  if (open === null) return { is: "no-matter" };
  const byNeighbours = new Set(columns.map(signByNeighbours).filter((sign) => sign !== null));
  const [sign] = byNeighbours;
  return sign !== undefined && byNeighbours.size === 1
    ? { is: "found", sign, by: open }
    : { is: "ambiguous", example: open };
}
