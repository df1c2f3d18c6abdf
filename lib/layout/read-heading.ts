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

/** Letters that may be amiss in a word of that length; short words are too near to others. */
const lettersAmiss = (word: string): number => (word.length < 4 ? 0 : word.length < 8 ? 1 : 2);

/** The word of the vocabulary that this one is a slip of; itself where it is known or like none, or like several. */
function corrected(word: string): string {
  if (/\d|%/.test(word) || vocabulary.has(word)) return word;
  const most = lettersAmiss(word);
  let best: { readonly word: string; readonly amiss: number } | null = null;
  let tied = false;
  for (const known of vocabulary) {
    if (Math.abs(known.length - word.length) > most || known.length < 3) continue;
    const amiss = editDistance(word, known);
    if (amiss > most || (best !== null && amiss > best.amiss)) continue;
    tied = best !== null && amiss === best.amiss;
    best = { word: known, amiss };
  }
  return best === null || tied ? word : best.word;
}

/** The unit that a heading carries in brackets, after `in` or a comma, or as its last or first word; and the rest. */
function splitHeadingUnit(heading: string): { readonly rest: string; readonly unit: string } {
  const bracketed = /^(.*?)[([{]\s*([^)\]}]+?)\s*[)\]}](.*)$/s.exec(heading);
  if (bracketed !== null && isUnit(bracketed[2] as string)) {
    return { rest: `${bracketed[1]} ${bracketed[3]}`, unit: bracketed[2] as string };
  }
  const trailing = /^(.+?)(?:[\s,/_-]+in)?[\s,/_:-]+([^\s,:]+)$/is.exec(heading.trim());
  if (trailing !== null) {
    const unit = trailing[2] as string;
    // `Cyl C` or `Engine h` are no units; a unit of a reading is.
    if (valueUnitOf(unit) !== null || (meterUnitOf(unit) !== null && unit.length > 1))
      return { rest: trailing[1] as string, unit };
    if (isUnit(unit) && unit.length > 2) return { rest: trailing[1] as string, unit };
  }
  const percent = /^(.*?)%(.*)$/s.exec(heading);
  if (percent !== null) return { rest: `${percent[1]} ${percent[2]}`, unit: "%" };
  return { rest: heading, unit: "" };
}

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
  const telling = words.filter((word) => !emptyWords.has(word) && !senseWords.has(word));
  // Only a leak-down test tells what was lost or held.
  if (telling.length === 0) return words.some((word) => senseWords.has(word)) ? "leak-down" : null;
  const measure = measureIn(telling.join(" "));
  if (measure === null) return null;
  return telling.every((word) => measureParts.has(word)) ? measure : null;
}
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

/** What a heading says: which field or reading, of which cylinder and measure, in which unit. */
export function readHeading(heading: string): Heading {
  if (heading.length > longestHeading) return nothing;
  // `Engine hours` and `Cranking rpm` are known whole; the unit at their end is no unit of something else.
  const isKnown = meaningsOfWords(wordsOf(heading)).length > 0;
  const { rest, unit } = isKnown ? { rest: heading, unit: "" } : splitHeadingUnit(heading);
  const tokens = tokensOf(rest);
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
