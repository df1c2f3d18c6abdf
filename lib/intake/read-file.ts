import type { Layout } from "../layout/layout.ts";
import type { IntakeChunk, KnownFleet, RowIssue } from "../schema/intake.ts";
import type { CellCorrection, DelimiterName, Encoding, ReadAs } from "../schema/reading.ts";
import type { CsvKind } from "../schema/rows.ts";
import type { FileKind } from "../schema/words.ts";
import { correctCells } from "./correct-cells.ts";
import { readEngineModels } from "./engine-models.ts";
import { emptySink, type FactSink, type RowContext, type TakeRow } from "./fact-sink.ts";
import { readHeader } from "./header.ts";
import { layoutReader } from "./layout-reader.ts";
import { otherRows } from "./other-rows.ts";
import { type CsvProgress, type CsvReader, isBlankRecord, tellFaults, tooManyCells } from "./record-faults.ts";
import { type Delimiter, delimiterName, delimiterNamed, delimiterOf, firstLines, recordReader } from "./records.ts";
import { longRows, wideRows } from "./test-rows.ts";
import { type FileSource, textBlocks } from "./text-blocks.ts";
import { fileIssue, words } from "./words.ts";

const takerOf: Record<CsvKind, (context: RowContext) => TakeRow> = {
  "tests-long": longRows,
  "tests-wide": wideRows,
  units: otherRows("units"),
  depots: otherRows("depots"),
  repairs: otherRows("repairs"),
  meters: otherRows("meters"),
  checks: otherRows("checks"),
  judgements: otherRows("judgements"),
};

/** A list of engine models is read as a whole; none is anywhere near as long (characters). */
const longestJson = 1 << 24;

export interface FileToRead {
  readonly source: FileSource;
  /** Name of the file, as issues and facts shall carry it. */
  readonly file: string;
  /** `models` must hold the engine models that the file may name; `today` refuses later dates. */
  readonly known: Pick<KnownFleet, "models" | "today">;
  /** What the file is meant to be; left out: its header (or being JSON) tells. */
  readonly kind?: FileKind;
  /** Of its bytes (`encodingWatch` finds it); left out: UTF-8, or UTF-16 with a byte order mark. */
  readonly encoding?: Encoding | undefined;
  /** Left out: found by the first lines. */
  readonly delimiter?: DelimiterName | undefined;
  /** Cells to be read as if they held something else. */
  readonly corrections?: readonly CellCorrection[] | undefined;
  /** The sheet of a workbook that `source` gives the text of, and all that the workbook has. */
  readonly sheet?: Pick<ReadAs, "sheet" | "sheets"> | undefined;
  /** How the columns of a foreign file of test results are read; left out: they are those of the contract. */
  readonly layout?: Layout | undefined;
}

/**
 * Reads one file of any kind (contract, sections 1 to 4) piece by piece, in memory that does not grow with the file.
 * Gives a chunk for about each quarter of a million characters, with the facts of its rows and an issue for every row
 * refused, taken with a warning or worth a mention. At least one chunk always comes; the last one's `rows` is the
 * file's count. What the chunks hold does not depend on how the bytes arrived.
 *
 * Only what a row can be judged on by itself is judged here. What needs other rows (repeats, contradictions, a meter
 * that runs backwards, cylinders of a unit's engine) is judged by `reconcileUnit` once all rows are known.
 *
 * Rules for what the contract leaves open: a row with fewer cells than the header is as if blank in the rest; one with
 * more, unless they are blank, is refused. A blank row is passed over and not counted. Decimal commas are not guessed. A
 * file that is not text of its encoding is refused as a whole, even if that shows late: then `fileRefused` is set, and
 * what earlier chunks gave must be dropped. So is one whose source throws `UnreadableFile`; a source that throws anything
 * else makes the generator throw.
 */
export async function* readFleetFile(asked: FileToRead): AsyncGenerator<IntakeChunk> {
  const { source, file, known, kind, sheet, layout } = asked;
  let rows = 0;
  let bytes = 0;
  let told: FileKind | null = kind ?? null;
  let csv: CsvReader | null = null;
  let json: string | null = null;
  let lead = "";
  const readAs: { -readonly [K in keyof ReadAs]: ReadAs[K] } = {
    encoding: sheet === undefined ? (asked.encoding ?? null) : null,
    delimiter: null,
    sheet: sheet?.sheet ?? null,
    sheets: sheet?.sheets ?? [],
    ...(asked.corrections === undefined || asked.corrections.length === 0 ? {} : { corrections: asked.corrections }),
  };
  const chunk = (sink: FactSink, fileRefused: boolean): IntakeChunk => ({
    file,
    kind: told,
    readAs: { ...readAs },
    fileRefused,
    rows,
    bytes,
    ...sink,
  });
  const refused = (code: string, why: string): IntakeChunk =>
    chunk({ ...emptySink(), issues: [fileIssue("refused", code, { file }, why)] }, true);

  for await (const block of textBlocks(source, asked.encoding)) {
    bytes = block.bytes;
    if (!block.ok) {
      yield refused("unreadable", words.unreadable(block.error, block.about));
      return;
    }
    let { text } = block;
    if (csv === null && json === null) {
      text = lead + text;
      if (text.trim() === "") {
        // Blank lines before the header still count as lines.
        lead = text;
        if (!block.last) continue;
        yield refused("empty-file", words.emptyFile);
        return;
      }
      if (kind === "engine-models" || (kind === undefined && isJson(text, layout))) json = "";
      else {
        const delimiter = delimiterNamed(asked.delimiter) ?? delimiterOf(firstLines(text, block.last));
        if (sheet === undefined) readAs.delimiter = delimiterName(delimiter);
        csv =
          layout === undefined
            ? csvReader({ file, known, kind: kind ?? null, delimiter, readAs })
            : layoutReader({
                file,
                known,
                layout,
                corrections: asked.corrections ?? [],
                delimiter,
                mentions: readAsMentions(file, readAs),
              });
      }
    }
    if (json !== null) {
      told = "engine-models";
      json += text;
      if (json.length > longestJson) {
        yield refused("models-too-long", words.modelsTooLong);
        return;
      }
      if (!block.last) continue;
      const found = readEngineModels(json, file);
      rows = found.entries;
      yield chunk({ ...emptySink(), models: [...found.models], issues: [...found.issues] }, found.fileRefused);
      return;
    }
    if (csv === null) continue;
    const sink = emptySink();
    const read = csv(text, block.last, sink);
    told = read.kind ?? told;
    rows = read.rows;
    yield chunk(sink, read.fileRefused);
    if (read.stopped) return;
  }
}

/** A list of engine models begins with a bracket; a title of a foreign file may begin with a square one. */
const isJson = (text: string, layout: Layout | undefined): boolean =>
  (layout === undefined ? /^\s*[{[]/ : /^\s*\{/).test(text);

/** What a person may want to know, or say otherwise, of how the file was read. */
function readAsMentions(file: string, { encoding, delimiter, sheet, sheets }: ReadAs): readonly RowIssue[] {
  const issues: RowIssue[] = [];
  const mention = (code: string, why: string) => issues.push(fileIssue("mention", code, { file }, why));
  if (encoding !== null && encoding !== "utf-8") mention("encoding", words.encoding(encoding));
  if (delimiter !== null && delimiter !== "comma") mention("delimiter", words.delimiter(delimiter));
  if (sheet !== null && sheets.length > 1) mention("sheet", words.sheet(sheet, sheets));
  return issues;
}

interface CsvToRead extends Pick<FileToRead, "file" | "known"> {
  readonly kind: CsvKind | null;
  readonly delimiter: Delimiter;
  readonly readAs: ReadAs;
}

function csvReader({ file, known, kind, delimiter, readAs }: CsvToRead): CsvReader {
  const records = recordReader(delimiter);
  const corrections = readAs.corrections === undefined ? null : correctCells(readAs.corrections);
  let taker: { readonly take: TakeRow; readonly width: number; readonly kind: CsvKind } | null = null;
  let rows = 0;

  /** The header row to the reader of the rows below it; false: the file is refused. */
  const open = (cells: readonly string[], line: number, issues: RowIssue[]): boolean => {
    const read = readHeader(corrections?.header(cells) ?? cells, { file, line, kind });
    if (!read.ok) {
      issues.push(...read.error);
      return false;
    }
    const { header, mentions } = read.value;
    issues.push(...mentions);
    issues.push(...readAsMentions(file, readAs));
    const context = { file, header, models: known.models, today: known.today };
    taker = { take: takerOf[header.kind](context), width: cells.length, kind: header.kind };
    return true;
  };
  const progress = (fileRefused: boolean, stopped: boolean): CsvProgress => ({
    kind: taker?.kind ?? null,
    rows,
    fileRefused,
    stopped: stopped || fileRefused,
  });

  return (text, last, sink) => {
    const block = records(text, last);
    for (let i = 0; i < block.records.length; i++) {
      const record = block.records[i] as string[];
      if (isBlankRecord(record)) continue;
      const line = block.lines[i] as number;
      if (taker === null) {
        if (!open(record, line, sink.issues)) return progress(true, true);
        continue;
      }
      rows += 1;
      const tooMany = tooManyCells(record, { file, line, width: taker.width });
      if (tooMany !== null) sink.issues.push(tooMany);
      else taker.take(corrections?.record(record, line) ?? record, line, sink);
    }
    rows += tellFaults(block, file, sink.issues);
    if (taker === null && (last || block.stopped)) {
      sink.issues.push(fileIssue("refused", "no-header", { file }, words.noHeader));
      return progress(true, true);
    }
    if (last && rows === 0) sink.issues.push(fileIssue("warning", "no-rows", { file }, words.noRows));
    return progress(false, block.stopped);
  };
}
