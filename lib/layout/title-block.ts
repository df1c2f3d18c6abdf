import type { Measure, ValueUnit } from "../schema/words.ts";
import type { Layout } from "./layout.ts";
import { type Meaning, meaningsOfWords } from "./synonyms.ts";
import { isOfSomethingElse, type Statement, statementsOf, type TitleBlock } from "./title-statements.ts";
import { measureIn, wordsOf } from "./trade-words.ts";
import { valueUnitOf } from "./unit-words.ts";

/** What a title block says of all readings below it: which test they are of, and in which unit. */

/** Words of titles that say nothing of their own. */
const titleWords: ReadonlySet<string> = new Set(
  `test tests testing tested check checks checked result results sheet report log record records round reading readings
  value values measured measurements pressure pressures of the all in for are is at cylinder cylinders engine engines fleet
  workshop summary table list data form card annual yearly monthly weekly quarterly spring summer autumn winter page part
  and january february march april may june july august september october november december`.split(/\s+/),
);
const titleMeasureIn = (text: string): TitleMeasure | null => {
  const measure = measureIn(text);
  return measure === "compression-dry" && !/\b(?:dry|oil)\b/i.test(text) ? "compression" : measure;
};
/** A measure and nothing else. */
const measurePhrase =
  /^(?:(?:dry|wet) )?(?:compressions?|comp|compr)(?: (?:dry|wet|with oil|without oil|no oil))?$|^(?:dry|wet)$|^leak ?(?:downs?|age|s)?$|^(?:ld|ldt|clt|differential)$/;

/** What a text says: for certain where it has no other words, else as a mention that nothing is built on. */
interface Said<T> {
  readonly sure: readonly T[];
  readonly mentioned: readonly T[];
}
/** A compression of which nothing more is said: the dry one, unless another part of the title says wet. */
type TitleMeasure = Measure | "compression";
interface TextSaid {
  readonly measure: Said<TitleMeasure>;
  readonly unit: Said<ValueUnit>;
}
const list = <T>(found: T | null): readonly T[] => (found === null ? [] : [found]);

function phraseSays(phrase: string): TextSaid {
  const tokens = phrase
    .replace(/per\s?cent/gi, "%")
    .split(/[\s:=]+/)
    .filter((token) => token !== "");
  // A figure with its unit (`0-40 bar`, `30 %`) is a quantity and not the unit of the readings.
  const isUnit = tokens.map((token, i) => valueUnitOf(token) !== null && !/\d$/.test(tokens[i - 1] ?? ""));
  const units = [...new Set(tokens.filter((_, i) => isUnit[i] === true).map(valueUnitOf))].filter((u) => u !== null);
  const others = tokens.filter((token) => valueUnitOf(token) === null).join(" ");
  const rest = wordsOf(others.replace(/leak[\s-]*down/gi, "leakdown"))
    .split(" ")
    .filter((word) => word !== "" && !titleWords.has(word) && !/^\d+$/.test(word))
    .join(" ");
  const isMeasure = measurePhrase.test(rest);
  const isClear = (rest === "" || isMeasure) && units.length < 2;
  const measure = list(titleMeasureIn(isMeasure ? rest : others));
  return {
    measure: isMeasure ? { sure: measure, mentioned: [] } : { sure: [], mentioned: measure },
    unit: isClear ? { sure: units, mentioned: [] } : { sure: [], mentioned: units },
  };
}

const joined = <T>(said: readonly Said<T>[]): Said<T> => ({
  sure: said.flatMap(({ sure }) => sure),
  mentioned: said.flatMap(({ mentioned }) => mentioned),
});
const joinedTexts = (said: readonly TextSaid[]): TextSaid => ({
  measure: joined(said.map(({ measure }) => measure)),
  unit: joined(said.map(({ unit }) => unit)),
});
const textSays = (text: string): TextSaid => joinedTexts(text.split(/[;,|()[\]–—]|\s-\s/).map(phraseSays));
const unsure = <T>({ sure, mentioned }: Said<T>): Said<T> => ({ sure: [], mentioned: [...sure, ...mentioned] });
const nothing: TextSaid = { measure: { sure: [], mentioned: [] }, unit: { sure: [], mentioned: [] } };

const testLabels: ReadonlySet<string> = new Set(["test", "test type", "type of test", "kind of test", "test kind"]);
const means = (words: string, ...wanted: readonly Meaning[]) =>
  meaningsOfWords(words).some((meaning) => wanted.includes(meaning));

/** A label and its value are judged together: only what is said of the readings themselves counts. */
function statementSays({ label, value, after }: Statement): TextSaid {
  if (isOfSomethingElse(label) || (label === "" && isOfSomethingElse(value))) return nothing;
  if (label === "") {
    const said = textSays(value);
    // A unit beside a text that nobody knows (`Display | psi`) may be of that.
    const isBeside = after !== "" && phraseSays(after).measure.sure.length === 0 && !means(wordsOf(after), "value");
    return isBeside ? { ...said, unit: unsure(said.unit) } : said;
  }
  const words = wordsOf(label);
  const said = textSays(value);
  if (testLabels.has(words)) return { ...said, measure: { sure: list(titleMeasureIn(value)), mentioned: [] } };
  const isUnitAlone = valueUnitOf(value) !== null;
  if (means(words, "value_unit", "value") && isUnitAlone)
    return { ...nothing, unit: { sure: list(valueUnitOf(value)), mentioned: [] } };
  const ofLabel = textSays(label);
  if (ofLabel.measure.sure.length > 0 || ofLabel.unit.sure.length > 0 || means(words, "test", "value"))
    return joinedTexts([ofLabel, said]);
  // What fills another field (the depot's name, remarks) says nothing of the readings; what nobody knows, nothing for sure.
  if (meaningsOfWords(words).length > 0) return nothing;
  return { measure: unsure(said.measure), unit: unsure(said.unit) };
}

/** What a title block says of one thing: for certain, and what is likely where only mentions tell. */
export interface TitleSaid<T> {
  readonly sure: T | null;
  readonly likely: T | null;
}

function settle<T>({ sure, mentioned }: Said<T>): TitleSaid<T> {
  const [one, ...others] = new Set([...sure, ...mentioned]);
  const only = one !== undefined && others.length === 0 ? one : null;
  return { sure: sure.length > 0 ? only : null, likely: only };
}

function settleMeasure({ sure, mentioned }: Said<TitleMeasure>): TitleSaid<Measure> {
  const isMore = sure.some((measure) => measure === "compression-dry" || measure === "compression-wet");
  const told = isMore ? sure.filter((measure) => measure !== "compression") : sure;
  const named = (measure: TitleMeasure): Measure => (measure === "compression" ? "compression-dry" : measure);
  return settle({ sure: told.map(named), mentioned: mentioned.map(named) });
}

/**
 * The measure and the unit that the title block names. Two of them, or one that is but mentioned, are none for certain; and
 * so is what a row that stands by itself `below` the headings names.
 */
export function titleSays(
  title: TitleBlock,
  below: TitleBlock = [],
): {
  readonly measure: TitleSaid<Measure>;
  readonly unit: TitleSaid<ValueUnit>;
} {
  const saidIn = (records: TitleBlock) =>
    joinedTexts(records.flatMap((record) => statementsOf(record)).map(statementSays));
  const lower = saidIn(below);
  const { measure, unit } = joinedTexts([saidIn(title), { measure: unsure(lower.measure), unit: unsure(lower.unit) }]);
  return { measure: settleMeasure(measure), unit: settle(unit) };
}

/** What the title block says against what the layout holds of every such file; null: nothing. */
export function titleAgainst(
  layout: Layout,
  title: TitleBlock,
): { readonly said: string; readonly held: string } | null {
  const { measure, unit } = titleSays(title);
  const { test, value_unit } = layout.constants;
  if (measure.sure !== null && test !== undefined && test !== measure.sure) return { said: measure.sure, held: test };
  return unit.sure !== null && value_unit !== undefined && value_unit !== unit.sure
    ? { said: unit.sure, held: value_unit }
    : null;
}

/** Whether a record begins another title block: it has one of the labels by which the layout reads one. */
export function beginsTitle(record: readonly string[], layout: Layout, isRemark: (index: number) => boolean): boolean {
  if (layout.title.length === 0) return false;
  const labels = new Set(layout.title.map(({ label }) => wordsOf(label)));
  const first = record.findIndex((cell) => cell.trim() !== "");
  return statementsOf(record, labels).some(
    ({ label, value, index, signed }) =>
      labels.has(wordsOf(label)) && (index === first || ((signed || value !== "") && !isRemark(index))),
  );
}
