import { headingKey } from "./header-key.ts";
import { meaningsOfWords } from "./synonyms.ts";
import { wordsOf } from "./trade-words.ts";

/** Records above the header. */
export type TitleBlock = readonly (readonly string[])[];

/** Something that a title block says: a label with its value, or a text that stands by itself. */
export interface Statement {
  /** As written, without its sign; empty: a text by itself. */
  readonly label: string;
  /** The text, or what stands after the label in the same cell or the next one; empty: nothing does. */
  readonly value: string;
  /** Place of its first cell in the record. */
  readonly index: number;
  /** A colon or an equals sign parts them, so the label is none of its value by chance. */
  readonly signed: boolean;
  /** Of a text by itself: what stands left of it in the same row; empty: nothing. */
  readonly after: string;
}

/** Words about the readings of other things than this file's: what is said of these is said of no reading. */
const ofSomethingElse =
  /gauge|tester|instrument|tool|limit|\bmin|\bmax|spec|supply|regulat|\bnew\b|orifice|restrictor|baro/i;
export const isOfSomethingElse = (text: string): boolean => ofSomethingElse.test(text);

const isLabelWord = (words: string): boolean =>
  meaningsOfWords(words).some((meaning) => meaning !== "ignored") || isOfSomethingElse(words);

/** A longer cell of a title says nothing that is looked for, and neither does one further to the right. */
const longestCell = 500;
const mostCells = 60;
const sign = /[:=]/;

/** Whether a text has a further `label:` in it, so that nothing tells where the value before it ends. */
const holdsLabel = (text: string): boolean =>
  text
    .split(sign)
    .slice(0, -1)
    .some((before) => {
      const words = wordsOf(before).split(" ");
      return [1, 2, 3].some((count) => isLabelWord(words.slice(-count).join(" ")));
    });

/**
 * What one row of a title block says. `own`: labels that count beside those of the trade, as `wordsOf` gives them. A
 * label that is merged over several cells is one, and another label is no value.
 */
export function statementsOf(record: readonly string[], own: ReadonlySet<string> = new Set()): readonly Statement[] {
  const isLabel = (words: string) => own.has(words) || isLabelWord(words);
  const cells = record
    .slice(0, mostCells)
    .map((cell, index) => ({ text: cell.length > longestCell ? "" : cell.trim(), index }))
    .filter(({ text }) => text !== "")
    .filter(({ text }, i, all) => i === 0 || headingKey(text) === "" || all[i - 1]?.text !== text);
  const found: Statement[] = [];
  const labelAt = (text: string): string | null => {
    const at = text.search(sign);
    const label = at === -1 ? text : text.slice(0, at).trim();
    return label !== "" && (at !== -1 || isLabel(wordsOf(text))) ? label : null;
  };
  for (let i = 0; i < cells.length; i++) {
    const { text, index } = cells[i] as (typeof cells)[number];
    const label = labelAt(text);
    if (label === null) {
      found.push({ label: "", value: text, index, signed: false, after: cells[i - 1]?.text ?? "" });
      continue;
    }
    const signed = label !== text;
    const rest = signed ? text.slice(text.search(sign) + 1).trim() : "";
    const next = cells[i + 1]?.text;
    const isNext = rest === "" && next !== undefined && labelAt(next) === null;
    const value = isNext ? next : holdsLabel(rest) ? "" : rest;
    found.push({ label, value, index, signed, after: "" });
    if (isNext) i += 1;
  }
  return found;
}

/**
 * What stands after a label: in the same cell (`Unit: V-12`, `Unit V-12`), else in the next one; null: nothing, or the
 * title says it twice and not the same.
 */
export function valueAfter(title: TitleBlock, label: string): string | null {
  const words = wordsOf(label);
  const own = new Set([words]);
  const values = new Set<string>();
  for (const { label: found, value, signed } of title.flatMap((record) => statementsOf(record, own))) {
    const text = signed || found !== "" ? (wordsOf(found) === words ? value : "") : afterWords(value, words);
    if (text !== "") values.add(text);
  }
  const [value] = values;
  return value !== undefined && values.size === 1 ? value : null;
}

/** What follows a label in a text without any sign between; empty: the text is of something else. */
function afterWords(text: string, label: string): string {
  const words = text.split(/\s+/);
  for (let count = 1; count < words.length; count++) {
    if (wordsOf(words.slice(0, count).join(" ")) !== label) continue;
    const longer = wordsOf(words.slice(0, count + 1).join(" "));
    // `Unit of measure psi` is not of the unit `of measure psi`.
    return isLabelWord(longer) || /^of\b/i.test(words[count] as string) ? "" : words.slice(count).join(" ");
  }
  return "";
}
