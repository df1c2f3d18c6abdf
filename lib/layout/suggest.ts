import type { HeadingsChoice } from "../schema/reading.ts";
import { meterUnits as allMeterUnits, type MeterUnit } from "../schema/words.ts";
import { filled } from "./column-content.ts";
import { isContractHeader } from "./contract-columns.ts";
import { type FoundHeader, findHeader, headerAt } from "./find-header.ts";
import { type Guess, guessColumns } from "./guess-columns.ts";
import {
  type DecimalSign,
  type FileField,
  type Layout,
  type LayoutColumn,
  type LayoutField,
  layoutSchema,
} from "./layout.ts";
import { questionWords } from "./question-words.ts";
import { evidenceOf } from "./sample.ts";
import { settleForms } from "./settle-forms.ts";
import { settleReadings } from "./settle-readings.ts";
import type { ColumnGuess, Question, Sample, SuggestContext, Suggestion } from "./suggestion.ts";
import { titleSays } from "./title-block.ts";
import { titleFields } from "./title-fields.ts";
import { isTotalWord } from "./trade-words.ts";
import { meterUnitOf, splitUnit, valueUnitIn, valueUnitOf } from "./unit-words.ts";

const isBlankRow = (record: readonly string[]) => record.every((cell) => cell.trim() === "");
const isAlone = (record: readonly string[]) => record.filter((cell) => cell.trim() !== "").length === 1;
/** Rows of totals and lone remarks say nothing of what their columns hold. */
function isReadingRow(record: readonly string[]): boolean {
  const cells = record.map((cell) => cell.trim()).filter((cell) => cell !== "");
  return cells.length > 1 && !isTotalWord(cells[0] as string);
}

/** The records below the header without those of further sheets that are none of their readings: titles and headings. */
function belowHeader(records: Sample["records"], { below, title }: FoundHeader): Sample["records"] {
  const heading = (records[below - 1] ?? []).map((cell) => cell.trim()).join("\n");
  const rows = records.slice(below);
  const isAgain = rows.map((row) => row.map((cell) => cell.trim()).join("\n") === heading);
  // A title as long as the first stands above the headings wherever they come again.
  const isTitle = (i: number) => isAgain.slice(i, i + 1 + title.length).includes(true);
  return title.length === 0 ? rows.filter((_, i) => isAgain[i] === false) : rows.filter((_, i) => !isTitle(i));
}

/** The unit of the meters: of the heading, the cells, the title, or that of the known units; null: nothing tells. */
function meterUnitOfFile(
  guesses: readonly Guess[],
  headings: ReadonlySet<MeterUnit>,
  title: readonly { readonly label: string; readonly field: LayoutField; readonly text: string }[],
  { units }: SuggestContext,
): { readonly unit: MeterUnit | null; readonly inCells: boolean } {
  const meterTexts = guesses
    .filter(({ is }) => is.is === "field" && is.field === "meter")
    .flatMap(({ texts }) => filled(texts));
  const inTitle = title.filter(({ field }) => field === "meter");
  const labelled = inTitle
    .flatMap(({ label }) => label.split(/[^\p{L}]+/u).map(meterUnitOf))
    .filter((unit) => unit !== null);
  const said = new Set([...headings, ...labelled]);
  const [only] = said;
  if (only !== undefined && said.size === 1) return { unit: only, inCells: false };
  const texts = [...meterTexts, ...inTitle.map(({ text }) => text)];
  if (texts.length > 0 && texts.every((text) => meterUnitOf(splitUnit(text).unit) !== null))
    return { unit: null, inCells: true };
  const unitTexts = [
    ...guesses.filter(({ is }) => is.is === "field" && is.field === "unit").flatMap(({ texts: own }) => filled(own)),
    ...title.filter(({ field }) => field === "unit").map(({ text }) => text),
  ];
  const known = new Set(unitTexts.map((unit) => units.get(unit) ?? null));
  const [one] = known;
  return { unit: said.size === 0 && known.size === 1 ? (one ?? null) : null, inCells: false };
}

const noHeader: Suggestion = {
  isContract: false,
  layout: null,
  columns: [],
  questions: [
    { code: "no-header", words: questionWords.noHeader, needed: true, columns: [], choices: [], likely: null },
  ],
};

/**
 * Suggests how a foreign file of test results is read, from its headings, its title block and what stands in its columns.
 * The layout can be applied as it is: what the file does not tell is left out of it and asked in `questions`, and rows that
 * hang on it are refused. A file with the contract's own columns needs none. `choice`: where a person says that its
 * headings stand.
 */
export function suggestLayout(sample: Sample, context: SuggestContext, choice?: HeadingsChoice): Suggestion {
  const records = sample.records.filter((record) => !isBlankRow(record));
  if (choice === undefined && isContractHeader(records[0] ?? []))
    return { isContract: true, layout: null, columns: [], questions: [] };
  const header = choice === undefined ? findHeader(records) : headerAt(records, choice);
  if (header === null) return noHeader;
  const rows = belowHeader(records, header).filter(isReadingRow);
  const { guesses: first, questions: ofColumns, meterUnits } = guessColumns(header, rows, context);

  const inColumns = new Set(
    first.flatMap(({ is }) => (is.is === "field" && is.cylinder === null && is.measure === null ? [is.field] : [])),
  );
  const title = titleFields(header.title, (field) => inColumns.has(field), context);
  /** Fields that several columns tell; which of them counts is asked already. */
  const doubles = new Set(
    ofColumns.flatMap(({ choices }) =>
      choices.flatMap(({ becomes }) =>
        (becomes?.columns ?? []).flatMap(({ is }) => (is.is === "field" ? [is.field] : [])),
      ),
    ),
  );
  const isTold = (field: LayoutField) =>
    doubles.has(field) ||
    first.some(({ is }) => is.is === "field" && is.field === field) ||
    title.some((entry) => entry.field === field);
  const readings = settleReadings(first, titleSays(header.title, records.slice(header.below).filter(isAlone)), {
    test: isTold("test"),
    valueUnit: isTold("value_unit") || testTellsUnit(first),
    supply: isTold("supply"),
  });
  const { guesses } = readings;
  const constants: Partial<Record<FileField, string>> = { ...readings.constants };
  const meter = meterUnitOfFile(guesses, meterUnits, title, context);
  if (meter.unit !== null && !isTold("meter_unit")) constants.meter_unit = meter.unit;
  const formColumns = guesses.map(({ is, texts }, index) => ({
    is,
    index,
    evidence: evidenceOf(texts, sample.columns[index]),
  }));
  const unitOfFile = valueUnitOf(constants.value_unit ?? "");
  const forms = settleForms(formColumns, title, { today: context.today, unitOfFile });

  const asked: Question[] = [];
  const ask = (code: Question["code"], words: string, more: Partial<Question> = {}) =>
    asked.push({ code, words, needed: true, columns: [], choices: [], likely: null, ...more });
  if (!isTold("unit")) ask("unit", questionWords.unit);
  if (!isTold("test_date")) ask("test-date", questionWords.testDate);
  for (const [index, { header: spelled, is, byContent }] of guesses.entries()) {
    if (!byContent || is.is !== "field" || is.field !== "test_date") continue;
    const choice = { value: String(index), words: spelled, becomes: { columns: [{ index, is }], constants: {} } };
    const words = questionWords.dateByContent(spelled, index);
    ask("test-date", words, { columns: [index], choices: [choice], likely: choice.value });
  }
  if (!isTold("meter")) ask("meter", questionWords.meter);
  else if (meter.unit === null && !doubles.has("meter") && !meter.inCells && !isTold("meter_unit")) {
    const words = { h: "hours", km: "kilometres", mi: "miles" };
    ask("meter-unit", questionWords.meterUnit, {
      choices: allMeterUnits.map((unit) => ({ value: unit, words: words[unit] })),
    });
  }
  if (
    first.every(({ is }) => is.is !== "reading") &&
    ofColumns.every(({ needed, columns }) => !needed || columns.length === 0)
  )
    ask("readings", questionWords.readings);
  if (guesses.some(({ is }) => is.is === "reading" && is.cylinder === null) && !isTold("cylinder"))
    ask("cylinder", questionWords.cylinder);
  asked.push(...supplyUnitQuestions(guesses));

  const layout: Layout = layoutSchema.parse({
    layoutVersion: 1,
    headerRows: header.headerRows,
    columns: guesses.map(({ is }, i) => withSign(is, forms.ofColumns.get(i))),
    title: title.map(({ label, field }) => ({ label, field })),
    constants,
    dateOrder: forms.dateOrder,
    decimalSign: forms.decimalSign,
  });
  const columns = guesses.map(
    ({ header: spelled, is, sureness, why, examples }): ColumnGuess => ({
      header: spelled,
      is,
      sureness,
      why,
      examples,
    }),
  );
  const questions = [...asked, ...readings.questions, ...forms.questions, ...ofColumns];
  return {
    isContract: false,
    layout,
    columns,
    questions: questions.toSorted((a, b) => Number(b.needed) - Number(a.needed)),
  };
}

const withSign = (is: LayoutColumn, sign: DecimalSign | undefined): LayoutColumn =>
  is.is === "ignored" || sign === undefined ? is : { ...is, decimalSign: sign };

/** Whether each cell of the test's column names a unit too: `Dry psi`, `Leak %`. */
function testTellsUnit(guesses: readonly Guess[]): boolean {
  const tests = guesses
    .filter(({ is }) => is.is === "field" && is.field === "test")
    .flatMap(({ texts }) => filled(texts));
  return tests.length > 0 && tests.every((text) => valueUnitIn(text) !== null);
}

/** A supply without a unit beside leakages in %: kPa, psi and bar are all in use. */
function supplyUnitQuestions(guesses: readonly Guess[]): readonly Question[] {
  const inPercent = guesses.some(({ is }) => is.is === "reading" && is.unit === "%");
  return guesses.flatMap(({ is, header, texts }, i): Question[] => {
    const isSupply = is.is === "field" && is.field === "supply" && is.unit === null;
    const cells = filled(texts);
    if (!isSupply || !inPercent || cells.length === 0 || cells.every((text) => splitUnit(text).unit !== "")) return [];
    const choices = (["kPa", "bar", "psi", "kgf/cm2"] as const).map((unit) => ({ value: unit, words: unit }));
    return [
      {
        code: "supply-unit",
        needed: true,
        words: questionWords.supplyUnit(header),
        columns: [i],
        choices,
        likely: null,
      },
    ];
  });
}
