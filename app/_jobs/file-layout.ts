import { isDeepStrictEqual } from "node:util";
import type { Store } from "../../db/store.ts";
import { kindByHeader } from "../../lib/intake/header.ts";
import { isBlankRecord } from "../../lib/intake/record-faults.ts";
import { delimiterNamed, delimiterOf, firstLines, recordReader } from "../../lib/intake/records.ts";
import { textBlocks, UnreadableFile } from "../../lib/intake/text-blocks.ts";
import { contractSuggestion } from "../../lib/layout/contract-columns.ts";
import { keptAgainstFile } from "../../lib/layout/kept-against-file.ts";
import type { Layout } from "../../lib/layout/layout.ts";
import { questionWords } from "../../lib/layout/question-words.ts";
import { sampleCollector } from "../../lib/layout/sample.ts";
import { suggestLayout } from "../../lib/layout/suggest.ts";
import type { ColumnGuess, Question, Sample, SuggestContext } from "../../lib/layout/suggestion.ts";
import type { HeadingsChoice } from "../../lib/schema/reading.ts";
import type { ImportSource } from "./import-source.ts";
import { layoutsOfFile } from "./kept-layouts.ts";
import type { Look } from "./look-through.ts";
import { readableText } from "./readable-text.ts";

/** How the columns of a foreign file are read, and what is known of them; kept with the file of an import. */
export interface FileLayout {
  /** null: not before somebody says more. */
  readonly layout: Layout | null;
  /** `chosen` by a person for this file, `kept` from an earlier one, `suggested` by its headings and cells; `contract`: it was read by the contract's columns, but has cells that only a layout reads. */
  readonly by: "chosen" | "kept" | "suggested" | "contract";
  /** Under which the layout is kept; null: it is not. */
  readonly name: string | null;
  /** What the file itself tells, to begin with where somebody wants it otherwise; null: it has no header that anyone knows. */
  readonly suggested: Layout | null;
  /** Its first rows, cells cut short: among them a person chooses the headings. */
  readonly firstRows: readonly (readonly string[])[];
  /** Which headings a person chose; null: they were found. */
  readonly headings: HeadingsChoice | null;
  readonly columns: readonly ColumnGuess[];
  readonly questions: readonly Question[];
}

/** What an import keeps of how a file's columns are read; null: they are the contract's. */
export const layoutOfRow = (row: { readonly layout: unknown }): FileLayout | null => row.layout as FileLayout | null;

/**
 * Looks how the columns of a file are read: as somebody said, else by the kept layout that has its header and that its cells
 * do not contradict, else as its own headings and cells tell, if they leave nothing open that rows hang on. null: it has the contract's columns, is a list of
 * engine models or cannot be read as text, so that no layout is needed.
 */
export async function fileLayout(
  store: Store,
  source: ImportSource,
  { look, context }: { readonly look: Look; readonly context: SuggestContext },
): Promise<FileLayout | null> {
  const sample = await sampleOf(source, look);
  if (sample === null) return null;
  const headings = source.choice?.headings ?? null;
  const found = suggestLayout(sample, context, headings ?? undefined);
  const {
    isContract,
    layout: suggested,
    columns,
    questions,
  } = found.isContract ? contractSuggestion(sample, context) : found;
  if (isContract && source.layout === undefined) return null;
  const told = { suggested, columns, questions, headings, firstRows: firstRowsOf(sample) };
  if (source.layout !== undefined) {
    return { ...told, layout: source.layout, by: "chosen", name: source.layoutName ?? null };
  }
  const kept = headings === null ? keptFor(await layoutsOfFile(store, sample), sample, context) : null;
  // A list of another kind that lacks a column of the contract is no foreign file of tests.
  if (kept === null && headings === null && isOtherList(sample)) return null;
  if (kept !== null) {
    const { name, layout: known, questions: open } = kept;
    // What is said of the columns to begin with is the layout's, not what the file alone would tell.
    return {
      ...told,
      suggested: known ?? suggested,
      layout: open.length === 0 ? known : null,
      by: "kept",
      name,
      questions: open,
    };
  }
  const isOpen = suggested === null || questions.some(({ needed }) => needed);
  return { ...told, layout: isOpen ? null : suggested, by: "suggested", name: null };
}

const isOtherList = ({ records }: Sample): boolean => {
  const kind = kindByHeader(records[0] ?? []);
  return kind !== null && kind !== "tests-long" && kind !== "tests-wide";
};

/** Rows and cells of a file's beginning that are shown, and letters of a cell. */
const rowsShown = 12;
const cellsShown = 40;
const lettersShown = 60;
const firstRowsOf = ({ records }: Sample) =>
  records.slice(0, rowsShown).map((record) => record.slice(0, cellsShown).map((cell) => cell.slice(0, lettersShown)));

/**
 * How a file with the contract's own columns may be read by a layout, where it has cells that the contract does not take
 * and a layout does: by the kept one that fits it, else as its headings and cells tell. null: it has none.
 */
export async function contractLayout(
  store: Store,
  source: ImportSource,
  { look, context }: { readonly look: Look; readonly context: SuggestContext },
): Promise<FileLayout | null> {
  const sample = await sampleOf(source, look, true);
  if (sample === null) return null;
  const { layout: suggested, columns, questions } = contractSuggestion(sample, context);
  if (suggested === null) return null;
  const kept = keptFor(await layoutsOfFile(store, sample), sample, context);
  const fits = kept !== null && kept.layout !== null && kept.questions.length === 0 ? kept : null;
  return {
    layout: null,
    by: "contract",
    name: fits?.name ?? null,
    suggested: fits?.layout ?? suggested,
    headings: null,
    firstRows: [],
    columns,
    questions: fits === null ? questions : [],
  };
}

interface Kept {
  /** null: several hold. */
  readonly name: string | null;
  readonly layout: Layout | null;
  /** What keeps the file from being read by it. */
  readonly questions: readonly Question[];
}

/**
 * The kept layout by which a file is read: one whose dates, numbers and leakages are those of the file. Several that read
 * it differently are asked for, never chosen by their names. null: none is kept.
 */
function keptFor(
  kept: readonly { readonly name: string; readonly layout: Layout }[],
  sample: Sample,
  context: SuggestContext,
): Kept | null {
  const checked = kept.map((one) => ({ name: one.name, ...keptAgainstFile(one, sample, context) }));
  const fitting = checked.filter(({ questions }) => questions.length === 0);
  const [first, ...others] = fitting.length > 0 ? fitting : checked;
  if (first === undefined) return null;
  if (others.every(({ layout }) => isDeepStrictEqual(layout, first.layout))) return first;
  const names = [first, ...others].map(({ name }) => name);
  const words = questionWords.keptLayouts(names);
  const question: Question = { code: "kept-layouts", words, needed: true, columns: [], choices: [], likely: null };
  return { name: null, layout: null, questions: [question] };
}

/**
 * Records that tell what the columns of a file hold; null: it is JSON, no text, or has the contract's columns at once.
 * `whole`: a file of the contract is looked through as well.
 */
async function sampleOf(source: ImportSource, look: Look, whole = false): Promise<Sample | null> {
  const text = await readableText(source, look);
  const { add, sample } = sampleCollector();
  const isAsked = whole || source.layout !== undefined || source.choice?.headings !== undefined;
  let records: ReturnType<typeof recordReader> | null = null;
  try {
    for await (const block of textBlocks(text.source, text.encoding)) {
      if (!block.ok) return null;
      if (records === null) {
        if (/^\s*\{/.test(block.text)) return null;
        records = recordReader(delimiterNamed(text.delimiter) ?? delimiterOf(firstLines(block.text, block.last)));
      }
      const found = records(block.text, block.last).records;
      // Most files are the contract's: their first row tells, and the rest need not be read twice.
      if (sample().records.length === 0 && !isAsked) {
        const first = found.find((record) => !isBlankRecord(record));
        if (first !== undefined && suggestLayout({ records: [first], columns: [] }, noContext).isContract) return null;
      }
      for (const record of found) add(record);
    }
  } catch (error) {
    // Reading it in earnest tells why it cannot be read.
    if (error instanceof UnreadableFile) return null;
    throw error;
  }
  return sample();
}

const noContext: SuggestContext = { today: null, models: new Set(), units: new Map() };
