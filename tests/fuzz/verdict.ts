import { lookThrough } from "@/app/_jobs/look-through.ts";
import { readableText } from "@/app/_jobs/readable-text.ts";
import { type FileToRead, readFleetFile } from "@/lib/intake/read-file.ts";
import type { Layout } from "@/lib/layout/layout.ts";
import type { IntakeChunk, RowIssue } from "@/lib/schema/intake.ts";
import { source } from "../app/jobs/made-up-files.ts";
import { models, today } from "./good-files.ts";

/** What intake made of a file, and whether that can stand. */

export interface Read {
  /** Everything that was taken, row by row, as text without its line; with the line that it stands on. */
  readonly rows: readonly { readonly line: number; readonly said: string }[];
  readonly chunks: readonly IntakeChunk[];
  readonly issues: readonly RowIssue[];
  readonly fileRefused: boolean;
}

async function* once(bytes: Uint8Array) {
  yield bytes;
}

/** The facts that the store would keep a row each for. */
function rowsOf(chunk: IntakeChunk): Read["rows"] {
  const row = ({ line, ...fact }: { readonly line: number }) => ({ line, said: JSON.stringify(fact) });
  return [
    ...chunk.tests.flatMap(({ readings, ...head }) => readings.map((reading) => row({ ...head, ...reading }))),
    ...[...chunk.units, ...chunk.depots, ...chunk.repairs, ...chunk.meterReadings, ...chunk.checks].map(row),
  ];
}

export const readBytes = (bytes: Uint8Array): Promise<Read> => readWhole({ source: once(bytes), file: "file.csv" });

/** Reads a file as an import does: as a workbook where it is an archive, else as text. */
export async function readAnyFile(bytes: Uint8Array, layout?: Layout): Promise<Read> {
  const file = source("file.xlsx", bytes);
  const { bytes: _share, ...text } = await readableText(file, await lookThrough(file));
  return readWhole({ ...text, file: file.name, layout });
}

async function readWhole(file: Omit<FileToRead, "known">): Promise<Read> {
  const chunks: IntakeChunk[] = [];
  for await (const chunk of readFleetFile({ ...file, known: { models, today } })) chunks.push(chunk);
  return {
    chunks,
    rows: chunks.flatMap(rowsOf),
    issues: chunks.flatMap((chunk) => chunk.issues),
    fileRefused: chunks.some((chunk) => chunk.fileRefused),
  };
}

/** Every number that a fact may hold, with what the trade allows; a fault is told in words. */
const bounds: Readonly<Record<string, readonly [least: number, most: number]>> = {
  meter: [0, 10_000_000],
  cylinder: [1, 16],
  attempt: [1, 100_000],
  order: [1, 100_000],
  orificeMm: [0.01, 25],
  crankingRpm: [0, 3_000],
  altitudeM: [-500, 9_000],
  barometerKpa: [30, 110],
  supply: [0, 10_000],
  firstStroke: [0, 10_000],
  inServiceMeter: [0, 10_000_000],
  cost: [0, 1e12],
  labourHours: [0, 20_000],
  downtimeDays: [0, 4_000],
  line: [1, Number.MAX_SAFE_INTEGER],
};
const dated = ["date", "inServiceDate", "disposalDate"];

const isCalendarDate = (text: string) => {
  const instant = new Date(`${text}T00:00:00Z`);
  return /^\d{4}-\d\d-\d\d$/.test(text) && !Number.isNaN(instant.getTime()) && instant.toISOString().startsWith(text);
};

function faultsOf(fact: Readonly<Record<string, unknown>>): string[] {
  return Object.entries(fact).flatMap(([key, value]) => {
    if (typeof value === "number") {
      const [least, most] = bounds[key] ?? [-1e12, 1e12];
      if (!Number.isFinite(value) || value < least || value > most) return [`${key} is ${value}`];
    }
    if (value === undefined) return [`${key} is undefined`];
    if (typeof value === "string" && dated.includes(key) && !isCalendarDate(value)) return [`${key} is ${value}`];
    // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what must not come through.
    if (typeof value === "string" && /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f]/.test(value)) {
      return [`${key} holds a control character`];
    }
    return [];
  });
}

const isReadingPossible = (test: string, { value, valueUnit }: { value: number; valueUnit: string }) =>
  valueUnit === "%" ? test === "leak-down" && value >= 0 && value <= 100 : value >= 0 && value <= 10_000;

const slips = [/undefined/, /\[object/, /NaN/, /^\s*at .+:\d+:\d+/m, /Error:/];

/** What is amiss with an issue: it must be a sentence for a person, whatever the file (`text`) held. */
function faultsOfIssue({ words, line }: RowIssue, text: string): string[] {
  return [
    ...(words.trim() === "" ? ["an issue says nothing"] : []),
    ...(slips.some((slip) => slip.test(words) && !slip.test(text)) ? [`an issue reads: ${words}`] : []),
    ...(line !== null && (!Number.isInteger(line) || line < 1) ? [`an issue stands on line ${line}`] : []),
  ];
}

/** Everything that must hold of whatever intake read, however broken: none is the wanted answer. */
export function faultsOfRead({ chunks, issues, fileRefused }: Read, text: string): string[] {
  const faults = issues.flatMap((issue) => faultsOfIssue(issue, text));
  if (chunks.length === 0) faults.push("nothing was said of the file");
  if (fileRefused && !issues.some((issue) => issue.severity === "refused")) faults.push("refused without a reason");
  for (const chunk of chunks) {
    for (const test of chunk.tests) {
      faults.push(...faultsOf({ ...test }));
      for (const reading of test.readings) {
        faults.push(...faultsOf({ ...reading }));
        if (!isReadingPossible(test.test, reading)) faults.push(`a reading of ${reading.value} ${reading.valueUnit}`);
      }
    }
    const others = [...chunk.units, ...chunk.depots, ...chunk.repairs, ...chunk.meterReadings, ...chunk.checks];
    for (const fact of others) faults.push(...faultsOf({ ...fact }));
  }
  return faults;
}

/** The last line of each row, by its first: a quoted cell may hold line breaks. */
export function lastLines(rows: Read["rows"], lines: number): ReadonlyMap<number, number> {
  const starts = [...new Set(rows.map((row) => row.line))].sort((a, b) => a - b);
  return new Map(starts.map((start, i) => [start, (starts[i + 1] ?? lines + 1) - 1]));
}

export const numeral = /^[+-]?(?:[0-9]+\.?[0-9]*|\.[0-9]+)(?:e[+-]?[0-9]+)?$/i;

/**
 * Numbers of rows that stand in no cell of their lines, read in the plainest way: a number that intake made up.
 */
export function numbersMadeUp({ chunks, rows }: Read, text: string): string[] {
  const lines = text.split(/\r\n|\r|\n/);
  const lastLine = lastLines(rows, lines.length);
  const written = (line: number) =>
    new Set(
      lines
        .slice(line - 1, lastLine.get(line))
        .flatMap((whole) => whole.split(/[,;\t|]/))
        .map((cell) => cell.replaceAll('"', "").trim())
        .filter((cell) => numeral.test(cell))
        .map(Number),
    );
  const madeUp: string[] = [];
  const look = (line: number, numbers: readonly (number | null)[]) => {
    const there = written(line);
    for (const number of numbers) if (number !== null && !there.has(number)) madeUp.push(`line ${line}: ${number}`);
  };
  for (const chunk of chunks) {
    for (const { meter, orificeMm, readings } of chunk.tests) {
      for (const { line, value, supply, firstStroke } of readings)
        look(line, [value, meter, supply, firstStroke, orificeMm]);
    }
    for (const { line, meter } of chunk.meterReadings) look(line, [meter]);
    for (const { line, meter, cost, labourHours, downtimeDays } of chunk.repairs) {
      look(line, [meter, cost, labourHours, downtimeDays]);
    }
    for (const { line, inServiceMeter } of chunk.units) look(line, [inServiceMeter]);
    for (const { line, altitudeM } of chunk.depots) look(line, [altitudeM]);
  }
  return madeUp;
}
