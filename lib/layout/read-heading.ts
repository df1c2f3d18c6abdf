import { editDistance } from "../edit-distance.ts";
import { mostCylinders } from "../schema/rows.ts";
import type { Measure, MeterUnit, ValueUnit } from "../schema/words.ts";
import {
  cylinderWords,
  emptyWords,
  heldWords,
  lostWords,
  type Meaning,
  meaningsOfWords,
  measureParts,
  vocabulary,
} from "./synonyms.ts";
import { measureIn, wordsOf } from "./trade-words.ts";
import { isUnit, meterUnitOf, valueUnitOf } from "./unit-words.ts";

/** What a heading says by itself. */
export interface Heading {
  /** What the column may be, the likeliest first; what stands in it tells which. Empty: nobody knows. */
  readonly meanings: readonly Meaning[];
  readonly cylinder: number | null;
  /** Of a reading. */
  readonly measure: Measure | null;
  readonly valueUnit: ValueUnit | null;
  readonly meterUnit: MeterUnit | null;
  /** A unit that the contract does not read for such a column, as written. */
  readonly foreignUnit: string | null;
  /** `loss`, `drop`: what went; `held`, `retained`: what stayed. With the other unit than usual, it must be asked which is meant. */
  readonly sense: "lost" | "held" | null;
  /** The heading as it was understood, where letters had to be put right. */
  readonly corrected: string | null;
}

const wordNumbers = ["one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"];
const ordinals = ["1st", "2nd", "3rd", "4th", "5th", "6th", "7th", "8th", "9th", "10th", "11th", "12th"];

/** Letters apart from figures (`cyl1`, `LD3`), signs away, `1st` and `one` as figures. */
function tokensOf(text: string): readonly string[] {
  const first = wordsOf(text.replace(/leak[\s-]*down/gi, "leakdown")).replace(
    /\b(?:1st|first) (?=stroke|puff|pulse)/g,
    "first ",
  );
  return first
    .replace(/(\p{L})(?=\d)/gu, "$1 ")
    .split(" ")
    .filter((word) => word !== "")
    .map((word) => {
      const ordinal = ordinals.indexOf(word);
      const spelled = wordNumbers.indexOf(word);
      return ordinal >= 0 ? String(ordinal + 1) : spelled >= 0 ? String(spelled + 1) : word;
    });
}

/** No word of the trade is longer, whatever is amiss with it. */
const longestWord = 24;
/** Letters that may be amiss in a word of that length; short words are too near to others. */
const lettersAmiss = (word: string): number => (word.length < 4 ? 0 : word.length < 8 ? 1 : 2);

/** Which letters of the alphabet a word has, as bits: one letter amiss alters two of them at most. */
const lettersOf = (word: string): number => {
  let bits = 0;
  for (let i = 0; i < word.length; i++) bits |= 1 << (word.charCodeAt(i) % 32);
  return bits;
};
function bitsIn(bits: number): number {
  let count = 0;
  for (let left = bits; left !== 0; left &= left - 1) count += 1;
  return count;
}
const correctable = [...vocabulary]
  .filter((word) => word.length >= 3)
  .map((word) => ({ word, letters: lettersOf(word) }));

/** The word of the vocabulary that this one is a slip of; itself where it is known or like none, or like several. */
function corrected(word: string): string {
  const most = lettersAmiss(word);
  if (most === 0 || word.length > longestWord || /\d|%/.test(word) || vocabulary.has(word)) return word;
  const letters = lettersOf(word);
  let best: { readonly word: string; readonly amiss: number } | null = null;
  let tied = false;
  for (const known of correctable) {
    if (bitsIn(known.letters ^ letters) > 2 * most) continue;
    const amiss = editDistance(word, known.word, most);
    if (amiss > most || (best !== null && amiss > best.amiss)) continue;
    tied = best !== null && amiss === best.amiss;
    best = { word: known.word, amiss };
  }
  return best === null || tied ? word : best.word;
}

/** The last word of a text, where it is a unit, and what stands before it; null: it is none. */
function unitAtEnd(text: string): { readonly rest: string; readonly unit: string } | null {
  let at = text.length;
  while (at > 0 && !/[\s,:]/.test(text[at - 1] as string)) at -= 1;
  // A word of itself may be parted by other signs: `Dry_psi`, `Dry/psi`.
  if (at === 0) at = text.slice(1).search(/[/_-][^/_-]/) + 2;
  const unit = text.slice(at);
  // `Cyl C` or `Engine h` are no units; a unit of a reading is.
  const isTold = valueUnitOf(unit) !== null || unit.length > (meterUnitOf(unit) !== null ? 1 : 2);
  return at > 1 && isTold && isUnit(unit) ? { rest: withoutIn(text.slice(0, at)), unit } : null;
}
/** What stands before a unit, without the signs and the `in` between. */
const withoutIn = (text: string) => {
  const words = withoutSigns(text);
  return /[\s,/_-]in$/i.test(words) ? withoutSigns(words.slice(0, -2)) : words;
};
function withoutSigns(text: string): string {
  let end = text.length;
  while (end > 0 && /[\s,/_:-]/.test(text[end - 1] as string)) end -= 1;
  return text.slice(0, end);
}

/** The unit that a heading carries in brackets, after `in` or a comma, or as its last or first word; and the rest. */
function splitHeadingUnit(heading: string): { readonly rest: string; readonly unit: string } {
  const opens = heading.search(/[([{]/);
  const closes = opens === -1 ? -1 : opens + 1 + heading.slice(opens + 1).search(/[)\]}]/);
  if (closes > opens) {
    const unit = heading.slice(opens + 1, closes).trim();
    if (isUnit(unit)) return { rest: `${heading.slice(0, opens)} ${heading.slice(closes + 1)}`, unit };
  }
  const atEnd = unitAtEnd(heading.trim());
  if (atEnd !== null) return atEnd;
  const percent = /^(.*?)%(.*)$/s.exec(heading);
  if (percent !== null) return { rest: `${percent[1]} ${percent[2]}`, unit: "%" };
  return unitAmidst(heading) ?? { rest: heading, unit: "" };
}

/** A unit of a reading between its other words (`Dry bar 1`, `Comp. psi cyl 3`); null: none, or several. */
function unitAmidst(heading: string): { readonly rest: string; readonly unit: string } | null {
  const words = heading.split(/\s+/);
  if (words.length > mostWords) return null;
  const [unit, other] = words.filter((word) => word.length > 1 && valueUnitOf(word) !== null);
  if (unit === undefined || other !== undefined || words.length < 2) return null;
  return { rest: words.filter((word) => word !== unit).join(" "), unit };
}

/** A remark in brackets (`Held (76/80)`, `Leak (see note)`) says nothing that the words before it leave open. */
const withoutRemark = (heading: string): string => heading.replace(/[([{][^)\]}]*[)\]}]/g, " ");

/** Fields that may stand for one cylinder. */
const ofCylinder: ReadonlySet<Meaning> = new Set(["value", "heard_at", "first_stroke", "order", "supply", "remarks"]);

interface Words {
  readonly meanings: readonly Meaning[];
  readonly cylinder: number | null;
  readonly measure: Measure | null;
}

/** What the words of a heading without its unit say; null: nobody knows. */
function understood(tokens: readonly string[]): Words | null {
  const numbers = tokens.filter((token) => /^\d+$/.test(token));
  const [figure] = numbers;
  const cylinder =
    figure !== undefined && numbers.length === 1 && Number(figure) >= 1 && Number(figure) <= mostCylinders
      ? Number(figure)
      : null;
  if (numbers.length > 0 && cylinder === null) return null;
  const others = tokens.filter((token) => token !== figure);
  if (cylinder === null) {
    const meanings = meaningsOfWords(others.join(" "));
    if (meanings.length > 0) return { meanings, cylinder, measure: null };
    const measure = measureOnly(others);
    if (measure !== null) return { meanings: ["value"], cylinder, measure };
    const plain = others.filter((word) => !cylinderWords.has(word));
    const ofMeasure = measureBeside(plain);
    return ofMeasure === null ? null : { ...ofMeasure, cylinder };
  }
  const plain = others.filter((word) => !cylinderWords.has(word));
  if (plain.length === 0) return { meanings: ["value"], cylinder, measure: null };
  const meanings = meaningsOfWords(plain.join(" ")).filter((meaning) => ofCylinder.has(meaning));
  if (meanings.length > 0) return { meanings, cylinder, measure: null };
  const measure = measureOnly(plain);
  return measure === null ? null : { meanings: ["value"], cylinder, measure };
}

/** The measure where the words name one and nothing else. */
function measureOnly(words: readonly string[]): Measure | null {
  const isHeld = words.some((word) => heldWords.has(word));
  // `Held / supply`: both stand in the cell.
  const telling = words.filter(
    (word) => !emptyWords.has(word) && !senseWords.has(word) && !(isHeld && supplyWords.has(word)),
  );
  // Only a leak-down test tells what was lost or held.
  if (telling.length === 0) return words.some((word) => senseWords.has(word)) ? "leak-down" : null;
  const measure = measureIn(telling.join(" "));
  if (measure === null) return null;
  return telling.every((word) => measureParts.has(word)) ? measure : null;
}
const supplyWords: ReadonlySet<string> = new Set(["supply", "supplied", "applied", "input", "regulated"]);
const senseWords: ReadonlySet<string> = new Set([...lostWords, ...heldWords]);

/** A field of one measure's tests: `dry gauge`, `leakdown remarks`, as two-row headers make them. */
function measureBeside(words: readonly string[]): Omit<Words, "cylinder"> | null {
  for (let cut = 1; cut < words.length; cut++) {
    const measure = measureOnly(words.slice(0, cut));
    const meanings = meaningsOfWords(words.slice(cut).join(" "));
    if (measure !== null && meanings.length > 0) return { meanings, measure };
  }
  return null;
}

/** A longer text is no heading; what is, is not looked at word by word. */
const longestHeading = 100;
const mostWords = 12;

const nothing: Heading = {
  meanings: [],
  cylinder: null,
  measure: null,
  valueUnit: null,
  meterUnit: null,
  foreignUnit: null,
  sense: null,
  corrected: null,
};

/** Headings that were read: a file is looked through row by row for its header, and the like stands in every one. */
const read = new Map<string, Heading>();
const mostRead = 5_000;

/** What a heading says: which field or reading, of which cylinder and measure, in which unit. */
export function readHeading(heading: string): Heading {
  if (heading.length > longestHeading) return nothing;
  const known = read.get(heading);
  if (known !== undefined) return known;
  if (read.size >= mostRead) read.clear();
  const found = headingOf(heading);
  read.set(heading, found);
  return found;
}

/** The heading as it stands, or, where nobody knows that, without what stands in brackets. */
function headingOf(heading: string): Heading {
  const whole = wholeHeading(heading);
  if (whole.meanings.length > 0 || whole.foreignUnit !== null) return whole;
  const shorter = withoutRemark(heading).trim();
  return shorter === "" || shorter === heading.trim() ? whole : wholeHeading(shorter);
}

function wholeHeading(heading: string): Heading {
  // `Engine hours` and `Cranking rpm` are known whole; the unit at their end is no unit of something else.
  const isKnown = meaningsOfWords(wordsOf(heading)).length > 0;
  const { rest, unit } = isKnown ? { rest: heading, unit: "" } : splitHeadingUnit(heading);
  const tokens = tokensOf(rest);
  if (tokens.length > mostWords) return nothing;
  const mended = tokens.map(corrected);
  const as = understood(tokens);
  const found = as ?? understood(mended);
  const valueUnit = unit === "" ? null : valueUnitOf(unit);
  const meterUnit =
    meterUnitOf(unit) ??
    tokens
      .map((token) => (token.length > 1 || tokens.length === 1 ? meterUnitOf(token) : null))
      .find((u) => u !== null) ??
    null;
  const onlyUnit = tokens.length === 0 || valueUnitOf(rest) !== null;
  const isLost = mended.some((word) => lostWords.has(word));
  const isHeld = mended.some((word) => heldWords.has(word));
  return {
    meanings: found?.meanings ?? (onlyUnit && (valueUnit !== null || valueUnitOf(rest) !== null) ? ["value"] : []),
    cylinder: found?.cylinder ?? null,
    measure: found?.measure ?? null,
    valueUnit: valueUnit ?? (onlyUnit ? valueUnitOf(rest) : null),
    meterUnit,
    foreignUnit: unit !== "" && valueUnit === null && meterUnitOf(unit) === null ? unit : null,
    sense: isLost === isHeld ? null : isLost ? "lost" : "held",
    corrected: as === null && found !== null ? mended.join(" ") : null,
  };
}
