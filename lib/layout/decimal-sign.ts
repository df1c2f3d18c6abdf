import type { NumberRange } from "../schema/cells.ts";
import { ownText } from "./date-order.ts";
import type { DecimalSign } from "./layout.ts";
import { readNumber } from "./numbers.ts";
import { splitUnit } from "./unit-words.ts";

/** The decimal sign of a column, from what all of its cells show. */

/** Cells such as `1,250`, which may be meant in two ways: what they would be by either. */
interface OpenNumbers {
  readonly sign: DecimalSign;
  /** The unit beside them, as written; empty: none. */
  readonly unit: string;
  readonly example: string;
  /** Least and most of them, should the sign be the decimal one, and should it part thousands. */
  decimal: readonly [number, number];
  whole: readonly [number, number];
}

/** What the cells of a column show of the decimal sign, in bounded memory however many there are. */
export interface NumberEvidence {
  /** For each sign a cell that is a number by that one alone. */
  readonly proofs: Map<DecimalSign, string>;
  /** Those signs that stand before three decimals in such a cell, as in `4180.125` and `0.125`. */
  readonly threeDecimals: Set<DecimalSign>;
  readonly open: Map<string, OpenNumbers>;
  /** Numbers without any sign: how many, and the least of them. */
  readonly plain: { count: number; least: number };
}

export const noNumbers = (): NumberEvidence => ({
  proofs: new Map(),
  threeDecimals: new Set(),
  open: new Map(),
  plain: { count: 0, least: Number.POSITIVE_INFINITY },
});

/** No figure with its unit is longer. */
const longestFigure = 64;
const signs = [".", ","] as const;
const widened = ([least, most]: readonly [number, number], value: number) =>
  [Math.min(least, value), Math.max(most, value)] as const;

/** Adds what a cell shows to the evidence of its column; of `76/80` both figures. */
export function addNumber(evidence: NumberEvidence, text: string): void {
  if (text.length > longestFigure) return;
  const { figure, unit } = splitUnit(text);
  for (const part of figure.split("/")) {
    const read = readNumber(part, null);
    if (read.is === "other") continue;
    if (read.is === "ambiguous") addOpen(evidence, part.trim(), { unit: unit.toLowerCase(), texts: read.texts });
    else if (/[.,]/.test(part)) {
      const fits = signs.filter((sign) => readNumber(part, sign).is === "number");
      const [only] = fits;
      if (only === undefined || fits.length !== 1) continue;
      if (!evidence.proofs.has(only)) evidence.proofs.set(only, ownText(part.trim()));
      if (/[.,]\d{3}$/.test(part.trim()) && part.trim().at(-4) === only) evidence.threeDecimals.add(only);
    } else addWhole(evidence, Number(read.text));
  }
}

/** Adds a number without any sign. */
export function addWhole(evidence: NumberEvidence, value: number): void {
  evidence.plain.count += 1;
  evidence.plain.least = Math.min(evidence.plain.least, value);
}

function addOpen(
  { open }: NumberEvidence,
  part: string,
  { unit, texts: [point, comma] }: { readonly unit: string; readonly texts: readonly [string, string] },
): void {
  const sign = part.includes(".") ? "." : ",";
  const [decimal, whole] = sign === "." ? [Number(point), Number(comma)] : [Number(comma), Number(point)];
  const key = `${sign} ${unit}`;
  const known = open.get(key);
  if (known !== undefined) {
    known.decimal = widened(known.decimal, decimal);
    known.whole = widened(known.whole, whole);
  } else if (open.size < mostUnits) {
    const example = ownText(part);
    open.set(key, { sign, unit: ownText(unit), example, decimal: [decimal, decimal], whole: [whole, whole] });
  }
}
/** Units beside the figures of one column; with more of them it is no column of figures. */
const mostUnits = 40;

/** What the figures of a column can be: those of another meaning cannot be meant. */
export type RangeOf = (unit: string) => NumberRange;

const within = (value: number, { above, atLeast, atMost, whole }: NumberRange) =>
  (above === undefined || value > above) &&
  (atLeast === undefined || value >= atLeast) &&
  (atMost === undefined || value <= atMost) &&
  (whole !== true || Number.isInteger(value));

/** So much smaller than the others of its column a number is not. */
const farBelow = 50;

/**
 * The sign that open cells are proof of, by what the column can hold or by the numbers around them: `1,250` among 980 and
 * 1015 is 1250, for 1.25 lies nowhere near. null: they are none.
 */
function signByMeaning({ sign, unit, decimal, whole }: OpenNumbers, { plain }: NumberEvidence, rangeOf: RangeOf) {
  const other = sign === "." ? "," : ".";
  const range = rangeOf(unit);
  const [asDecimal, asWhole] = [decimal, whole].map((ends) => ends.every((value) => within(value, range)));
  if (asDecimal !== asWhole) return asDecimal === true ? sign : other;
  const isFar = plain.count >= 3 && plain.least >= 100 && decimal[1] * farBelow < plain.least;
  return isFar ? other : null;
}

export type SignFound =
  /** `by` is the cell that tells; `isWritten`: by how it is written, and not by what it can mean in its column. */
  | { readonly is: "found"; readonly sign: DecimalSign; readonly by: string; readonly isWritten: boolean }
  /** No number of the column has a sign that could be misread. */
  | { readonly is: "no-matter" }
  /** `signs`: those that stand in the open cells. */
  | { readonly is: "ambiguous"; readonly example: string; readonly signs: readonly DecimalSign[] }
  | { readonly is: "contradictory"; readonly examples: readonly [string, string] };

/**
 * The decimal sign of a column from its own cells: people write one kind of number in one column, and what another column
 * can hold says nothing of this one. A column whose cells tell both is contradictory, and nothing is taken.
 */
export function findDecimalSign(evidence: NumberEvidence, rangeOf: RangeOf): SignFound {
  const proofs = new Map(evidence.proofs);
  const isWritten = proofs.size > 0;
  const unsettled: OpenNumbers[] = [];
  for (const open of evidence.open.values()) {
    const sign = signByMeaning(open, evidence, rangeOf);
    if (sign === null) unsettled.push(open);
    else if (!proofs.has(sign)) proofs.set(sign, open.example);
  }
  const [point, comma] = [proofs.get("."), proofs.get(",")];
  if (point !== undefined && comma !== undefined) return { is: "contradictory", examples: [point, comma] };
  const [found] = proofs;
  // That 9.85 has a decimal dot is no proof that the one in 4.180 does not part thousands.
  const stillOpen = unsettled.filter(
    ({ sign }) => found === undefined || (sign === found[0] && !evidence.threeDecimals.has(sign)),
  );
  const [first] = stillOpen;
  if (first !== undefined)
    return { is: "ambiguous", example: first.example, signs: [...new Set(stillOpen.map(({ sign }) => sign))] };
  return found === undefined ? { is: "no-matter" } : { is: "found", sign: found[0], by: found[1], isWritten };
}
