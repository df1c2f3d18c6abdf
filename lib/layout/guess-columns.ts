import { longestHeading } from "../schema/reading.ts";
import type { MeterUnit } from "../schema/words.ts";
import { contentFits, filled, meaningByContent, numbersBeginAgain } from "./column-content.ts";
import { withoutDoubtfulCylinders } from "./doubtful-cylinders.ts";
import type { FoundHeader } from "./find-header.ts";
import { otherDates } from "./heading-families.ts";
import type { LayoutColumn, LayoutField } from "./layout.ts";
import { withLetters } from "./lettered-columns.ts";
import { questionWords } from "./question-words.ts";
import { type Heading, readHeading } from "./read-heading.ts";
import type { Choice, ColumnGuess, Question, Sample, SuggestContext, Sureness } from "./suggestion.ts";
import { isBareNoun, isLikeNumber, type Meaning } from "./synonyms.ts";
import { type TitleField, titleFields } from "./title-fields.ts";
import { wordsOf } from "./trade-words.ts";

/** What each column of a foreign file is, by its heading and by what stands in it. */

/** A guess before the whole file is looked at, with what the heading says of it. */
export interface Guess extends ColumnGuess {
  readonly heading: Heading;
  readonly texts: readonly string[];
  /** Its heading says nothing of it; what stands below does. */
  readonly byContent: boolean;
}

/** Headings of row numbers as well as of cylinders. */
const vague: ReadonlySet<Meaning> = new Set(["cylinder"]);
const vagueHeading = /^(?:no|nr|number|#)\.?$/i;

/** So many cells of a column that may as well name owners or kinds look like numbers of units where they are. */
const mostNumbers = 0.8;

/** The first meaning of the heading that the content bears out. */
function meaningOf(
  heading: Heading,
  header: string,
  texts: readonly string[],
  { models, units }: SuggestContext,
): Meaning | null {
  const bearsOut = (meaning: Meaning): boolean => {
    if (!contentFits(meaning, texts)) return false;
    // A row number counts up as cylinders do, but never begins again.
    if (vague.has(meaning) && vagueHeading.test(header.trim())) return numbersBeginAgain(texts);
    // `Vehicle` over van and lorry, or `Fleet` over North and South, is no number of a unit.
    if (meaning === "unit" && isBareNoun(wordsOf(header)))
      return (
        filled(texts).filter((text) => isLikeNumber(text) || units.has(text)).length >=
        mostNumbers * filled(texts).length
      );
    if (meaning === "engine_model") return filled(texts).every((text) => models.has(text));
    return true;
  };
  // `Units` over psi and bar are units of the readings, though a fleet number may be any text.
  const telling = meaningByContent(texts);
  return heading.meanings.find((meaning) => meaning === telling) ?? heading.meanings.find(bearsOut) ?? null;
}

/** What is lost with a column of one of these are readings. */
const rowsNeed: ReadonlySet<Meaning> = new Set([
  "value",
  "unit",
  "test_date",
  "meter",
  "cylinder",
  "value_unit",
  "supply",
]);

/** What a column without a known heading is by its content; null: it could be many things, or is told better elsewhere. */
function meaningBelow(header: string, texts: readonly string[], title: readonly TitleField[]): Meaning | null {
  const meaning = meaningByContent(texts);
  if (meaning !== "test_date") return meaning;
  const words = wordsOf(header);
  const isOther = words.split(" ").some((word) => otherDates.has(word)) || /\bin(?:to)? service\b/.test(words);
  return isOther || title.some(({ field }) => field === "test_date") ? null : meaning;
}

const examplesOf = (texts: readonly string[]) => [...new Set(filled(texts))].slice(0, 3);

/** The one column of a file that is a first guess; `questions` gets what it leaves open. */
function guessColumn(
  { header, index, texts }: { readonly header: string; readonly index: number; readonly texts: readonly string[] },
  { context, title }: { readonly context: SuggestContext; readonly title: readonly TitleField[] },
  questions: Question[],
): Guess {
  const heading = readHeading(header);
  const ask = (question: Pick<Question, "code" | "words" | "needed"> & Partial<Question>) =>
    questions.push({ columns: [index], choices: [], likely: null, ...question });
  const as = (is: LayoutColumn, sureness: Sureness, why: string, byContent = false): Guess => ({
    header,
    is,
    sureness,
    why,
    examples: examplesOf(texts),
    heading,
    texts,
    byContent,
  });
  const ignored = (sureness: Sureness, why: string) => as({ header, is: "ignored" }, sureness, why);
  const isEmpty = filled(texts).length === 0;
  if (isEmpty && header.trim() === "") return ignored("sure", "The column is empty.");

  const byHeading = meaningOf(heading, header, texts, context);
  const byContent = byHeading === null && !isEmpty ? meaningBelow(header, texts, title) : null;
  const meaning = byHeading ?? byContent;
  if (meaning === null) {
    if (isEmpty) return ignored("unknown", "The column is empty, and its heading is not known.");
    if (heading.meanings.includes("engine_model")) {
      ask({ code: "engine-model", needed: false, words: questionWords.engineModel(header) });
    } else {
      const needed = heading.meanings.some((known) => rowsNeed.has(known));
      ask({ code: "column", needed, words: questionWords.column(header, index) });
    }
    return ignored(
      "unknown",
      heading.meanings.length === 0
        ? "Nothing is known of this heading."
        : "What stands in the column does not fit its heading.",
    );
  }
  const sureness: Sureness = byHeading === null || heading.corrected !== null ? "likely" : "sure";
  const why =
    byHeading === null
      ? "By what stands in the column."
      : heading.corrected === null
        ? "By its heading."
        : `By its heading, read as "${heading.corrected}".`;
  if (meaning === "ignored") return ignored(sureness, "By its heading it holds nothing that is taken over.");
  const { valueUnit: unit } = heading;
  // Where the content makes it something else, the heading may have been put right to what it does not say.
  const isMisread = byHeading === null && heading.corrected !== null;
  const { cylinder, measure } = isMisread ? { cylinder: null, measure: null } : heading;
  if (heading.foreignUnit !== null && !ownUnits[meaning]?.test(heading.foreignUnit)) {
    ask({
      code: "foreign-unit",
      needed: meaning === "value",
      words: questionWords.foreignUnit(header, heading.foreignUnit),
    });
    return ignored("unknown", `The unit "${heading.foreignUnit}" is not read here.`);
  }
  if (meaning === "value") {
    return as({ header, is: "reading", measure, cylinder, unit }, sureness, why);
  }
  return as(
    {
      header,
      is: "field",
      field: meaning,
      cylinder,
      measure,
      unit: meaning === "supply" || meaning === "first_stroke" ? unit : null,
      carriedDown: false,
    },
    sureness,
    why,
    byHeading === null,
  );
}

/** Units that a heading may name beside the field that is read in them. */
const ownUnits: Partial<Record<Meaning, RegExp>> = {
  orifice_mm: /^mm$/i,
  cranking_rpm: /^(?:rpm|1\/min)$/i,
  altitude_m: /^m$/i,
  barometer_kpa: /^kpa$/i,
};

function sameMeaning(columns: readonly { readonly index: number; readonly guess: Guess }[], needed: boolean): Question {
  const choices = columns.map(({ index, guess }): Choice => {
    const { header, is, heading } = guess;
    const isMeter = is.is === "field" && is.field === "meter" && heading.meterUnit !== null;
    const constants = isMeter ? { meter_unit: heading.meterUnit as MeterUnit } : {};
    return { value: String(index), words: header, becomes: { columns: [{ index, is }], constants } };
  });
  const words = questionWords.sameMeaning(columns.map(({ guess }) => guess.header));
  return {
    code: "same-meaning",
    needed,
    words,
    columns: columns.map(({ index }) => index),
    choices: needed ? choices : [],
    likely: null,
  };
}

/** Of two columns that tell the same, the one whose heading says so; where both do, neither, and it is asked. */
function withoutDoubles(guesses: readonly Guess[], questions: Question[]): readonly Guess[] {
  const same = new Map<string, number[]>();
  for (const [i, { is }] of guesses.entries()) {
    if (is.is === "ignored") continue;
    const key = JSON.stringify([is.is === "field" ? is.field : null, is.cylinder, is.measure]);
    same.set(key, [...(same.get(key) ?? []), i]);
  }
  const dropped = new Map<number, string>();
  for (const columns of same.values()) {
    if (columns.length < 2) continue;
    const sure = columns.filter((i) => guesses[i]?.sureness === "sure");
    const empty = columns.filter((i) => filled(guesses[i]?.texts ?? []).length === 0);
    const kept =
      sure.length === 1 ? sure : empty.length === columns.length - 1 ? columns.filter((i) => !empty.includes(i)) : [];
    for (const i of columns) if (!kept.includes(i)) dropped.set(i, "Another column tells the same.");
    if (empty.length === columns.length - 1 && kept.length === 1) continue;
    questions.push(
      sameMeaning(
        columns.map((index) => ({ index, guess: guesses[index] as Guess })),
        kept.length === 0,
      ),
    );
  }
  return guesses.map((guess, i) => {
    const why = dropped.get(i);
    return why === undefined
      ? guess
      : { ...guess, is: { header: guess.header, is: "ignored" }, sureness: "unknown", why };
  });
}

/** Fields that one row of a group may tell for those below it. */
const groupFields: ReadonlySet<LayoutField> = new Set([
  "unit",
  "engine_model",
  "test_date",
  "meter",
  "meter_unit",
  "test",
  "depot",
  "engine_serial",
  "tested_by",
  "instrument",
  "attempt",
]);

/** Columns of merged cells: filled in the first row of a group of cylinders and blank in those below. */
function carriedDown(guesses: readonly Guess[], rows: Sample["records"]): readonly Guess[] {
  const at = guesses.findIndex(({ is }) => is.is === "field" && is.field === "cylinder");
  if (at === -1) return guesses;
  const follows = rows.map((row, i) => i > 0 && Number(row[at]) > Number(rows[i - 1]?.[at]));
  const isMerged = (column: number) => {
    const blank = rows.map((row) => (row[column] ?? "").trim() === "");
    return (
      blank.some((is, i) => is && follows[i] === true) &&
      blank.every(
        (is, i) =>
          !is || follows[i] === true || Number.isNaN(Number(rows[i]?.[at])) || (rows[i]?.[at] ?? "").trim() === "",
      )
    );
  };
  const unitColumn = guesses.findIndex(
    ({ is }) => is.is === "field" && (is.field === "unit" || is.field === "test_date"),
  );
  if (unitColumn === -1 || !isMerged(unitColumn)) return guesses;
  return guesses.map((guess, i) =>
    guess.is.is === "field" && groupFields.has(guess.is.field) && isMerged(i)
      ? { ...guess, is: { ...guess.is, carriedDown: true } }
      : guess,
  );
}

/** First guesses for all columns below a header, each by itself; what none of them tells is asked later. */
export function guessColumns(
  { headings, title }: FoundHeader,
  rows: Sample["records"],
  context: SuggestContext,
): {
  readonly guesses: readonly Guess[];
  readonly questions: readonly Question[];
  readonly meterUnits: ReadonlySet<MeterUnit>;
} {
  const questions: Question[] = [];
  const labelled = titleFields(title, () => false, context);
  const width = headings.length;
  const first = Array.from({ length: width }, (_, index) => {
    const texts = rows.map((row) => row[index] ?? "");
    const header = (headings[index] ?? "").slice(0, longestHeading);
    return guessColumn({ header, index, texts }, { context, title: labelled }, questions);
  });
  const guesses = carriedDown(
    withoutDoubles(withoutDoubtfulCylinders(withLetters(first, headings, questions), questions), questions),
    rows,
  );
  const meters = guesses.filter(({ is }) => is.is === "field" && is.field === "meter");
  const meterUnits = new Set(meters.map(({ heading }) => heading.meterUnit).filter((unit) => unit !== null));
  return { guesses, questions, meterUnits };
}
