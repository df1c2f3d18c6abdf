import fc from "fast-check";
import { hostileTexts } from "./mutations.ts";

/** Slips that leave XML well-formed, so that they reach what is behind its parser. */

export interface XmlSlip {
  readonly is:
    | "attribute-left-out"
    | "attribute-other"
    | "element-left-out"
    | "element-twice"
    | "elements-swapped"
    | "text-other";
  /** Which of all that it may be, as a share of their number. */
  readonly at: number;
  readonly put: string;
}

/** A text with a slip; `from` and `to` are where it lay in the text as it was. */
export interface Slipped {
  readonly text: string;
  readonly from: number;
  readonly to: number;
}

const attribute = /\s[\w:]+="[^"]*"/g;
/** Elements that hold no others. */
const element = /<([\w:]+)(?:\s[^<>]*)?(?:\/>|>[^<>]*<\/\1>)/g;
const elementText = /(?<=<(?:v|f|t)(?:\s[^<>]*)?>)[^<>]*(?=<)/g;

const escaped = (text: string) => text.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll('"', "&quot;");
/** XML has no way to write these. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for.
const unwritable = /[\u0000-\u0008\u000b\u000c\u000e-\u001f]/;
const figures = [
  "0",
  "1",
  "2",
  "5",
  "9",
  "10",
  "14",
  "22",
  "46",
  "49",
  "201",
  "0x10",
  "1e3",
  "-1",
  "7.5",
  "B2:H9",
  "A1",
  "H3",
];
const words = [
  "n",
  "s",
  "b",
  "str",
  "e",
  "d",
  "inlineStr",
  "visible",
  "hidden",
  "true",
  "External",
  "0.0%",
  "yyyy",
  '0" psi"',
];

export const xmlSlips: fc.Arbitrary<XmlSlip> = fc.record({
  is: fc.constantFrom<XmlSlip["is"][]>(
    "attribute-left-out",
    "attribute-other",
    "attribute-other",
    "element-left-out",
    "element-twice",
    "elements-swapped",
    "text-other",
  ),
  at: fc.integer({ min: 0, max: 999_999 }).map((millionths) => millionths / 1_000_000),
  put: fc.constantFrom(...figures, ...words, ...hostileTexts.filter((text) => !unwritable.test(text))),
});

/** The text with the slip; as it was where it has nothing of the kind. */
export function slipped(text: string, { is, at, put }: XmlSlip): Slipped {
  const looked = is.startsWith("attribute") ? attribute : is === "text-other" ? elementText : element;
  const found = [...text.matchAll(looked)];
  const place = Math.floor(at * found.length);
  const [it, next] = [found[place], found[place + 1]];
  if (it === undefined) return { text, from: 0, to: 0 };
  const [from, whole] = [it.index, it[0]];
  const instead = (by: string, to = from + whole.length) => ({
    text: text.slice(0, from) + by + text.slice(to),
    from,
    to,
  });
  switch (is) {
    case "attribute-left-out":
    case "element-left-out":
      return instead("");
    case "attribute-other":
      return instead(`${whole.slice(0, whole.indexOf('"'))}"${escaped(put)}"`);
    case "text-other":
      return instead(escaped(put));
    case "element-twice":
      return instead(whole + whole);
    case "elements-swapped": {
      if (next === undefined) return instead(whole);
      return instead(next[0] + text.slice(from + whole.length, next.index) + whole, next.index + next[0].length);
    }
  }
}
