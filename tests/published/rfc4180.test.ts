import { readFileSync } from "node:fs";
import path from "node:path";
import { describe, expect, it } from "vitest";
import { delimiterOf, recordReader } from "@/lib/intake/records.ts";
import { textBlocks } from "@/lib/intake/text-blocks.ts";
import { readText } from "../lib/intake/read-text.ts";

/** RFC 4180, section 2, and cases beside it: see data/csv/SOURCE.md. */

interface Case {
  readonly file: string;
  readonly encoding: string;
  readonly rows: readonly (readonly string[])[] | null;
  readonly why: string;
}

const folder = path.join(import.meta.dirname, "data", "csv");
const { cases } = JSON.parse(readFileSync(path.join(folder, "expected.json"), "utf8")) as { cases: readonly Case[] };
const bytesOf = (file: string) => new Uint8Array(readFileSync(path.join(folder, file)));

/** Text cells of a file fed in pieces of `size` bytes; blank lines dropped as in the expected parses. */
async function parse(file: string, size: number) {
  async function* source() {
    const bytes = bytesOf(file);
    for (let at = 0; at < bytes.length; at += size) yield bytes.subarray(at, at + size);
  }
  let text = "";
  for await (const block of textBlocks(source())) {
    if (!block.ok) throw new Error(block.error);
    text += block.text;
  }
  const header = /[^\r\n]*/.exec(text)?.[0] ?? "";
  const read = recordReader(delimiterOf(header));
  const records: string[][] = [];
  // One character at a time is the hardest way to feed quotes and line breaks.
  for (const piece of size === 1 ? text : [text]) records.push(...read(piece, false).records);
  const end = read("", true);
  records.push(...end.records);
  return { records: records.filter((r) => r.length > 1 || r[0] !== ""), faults: end.faults };
}

const readable = cases.filter((c) => c.rows !== null && c.encoding !== "windows-1252");

describe.each(readable)("$file: $why", ({ file, rows }) => {
  it.each([1, 7, 1_000_000])("gives the published cells when fed %i bytes at a time", async (size) => {
    const { records, faults } = await parse(file, size);
    expect(records).toEqual(rows);
    expect(faults).toEqual([]);
  });
});

const told = async (file: string) => (await readText(bytesOf(file), { file })).words;

describe("what a careful importer must tell of them", () => {
  it("reads the good files into tests, but for the engine of new units", async () => {
    const { tests, kind, rows, issues } = await readText(bytesOf("01_basic_crlf.csv"));
    expect({ kind, rows, issues }).toEqual({ kind: "tests-long", rows: 2, issues: [] });
    expect(tests.map((t) => t.readings.map((r) => [r.cylinder, r.value, r.line]))).toEqual([
      [
        [1, 1210, 2],
        [2, 1195, 3],
      ],
    ]);
  });
  it("does not guess a decimal comma: the cells are refused and told how to be written", async () => {
    const words = await told("05_semicolon_decimal_comma.csv");
    expect(words[0]).toBe("the cells are parted by semicolons");
    expect(words[1]).toMatch(/^line 2, meter: "4201,5" is not read as a number: decimal points are dots/);
    expect(words).toHaveLength(5);
  });
  it("refuses windows-1252 as a whole", async () => {
    const { fileRefused, tests, words } = await readText(bytesOf("08_windows_1252.csv"));
    expect({ fileRefused, tests }).toEqual({ fileRefused: true, tests: [] });
    expect(words).toEqual([expect.stringContaining("not UTF-8 text")]);
  });
  it("ignores a nameless column with a mention, and passes over blank rows", async () => {
    const { words, rows, tests } = await readText(bytesOf("09_blank_lines_and_trailing_delimiters.csv"));
    expect(words).toEqual(["column 10 has no name and was ignored"]);
    expect(rows).toBe(2);
    expect(tests.flatMap((t) => t.readings.map((r) => r.line))).toEqual([3, 6]);
  });
  it("names short and long rows by line", async () => {
    expect(await told("10_ragged.csv")).toEqual([
      "line 2, value_unit: is empty; it must be kPa, bar, psi, kgf/cm2 or %",
      "line 3: the row has 10 cells where the header has 9; a cell that holds the delimiter must stand in quotes",
    ]);
  });
  it("tells a file without rows and an empty one", async () => {
    expect(await told("11_header_only.csv")).toEqual(["the file has a header but no rows"]);
    expect(await told("12_empty.csv")).toEqual(["the file is empty"]);
  });
  it("does not read 12,480 as 12.48", async () => {
    const words = await told("14_thousands.csv");
    expect(words).toHaveLength(2);
    expect(words[0]).toContain("write 12.480, or 12480 if the comma parts the thousands");
  });
  it("refuses a column that appears twice", async () => {
    const { words, fileRefused } = await readText(bytesOf("15_duplicate_and_spaced_headers.csv"));
    expect(fileRefused).toBe(true);
    expect(words).toEqual(['the columns "value" and "Value" are the same column; keep one']);
  });
  it("keeps a stray quote as text", async () => {
    const { tests, words } = await readText(bytesOf("16_stray_quote.csv"));
    expect(words).toEqual([]);
    expect(tests[0]?.readings[0]?.remarks).toBe('5" bore checked');
  });
  it("gives up the line with the quote that is never closed, and no other", async () => {
    const { tests, words } = await readText(bytesOf("17_unclosed_quote.csv"));
    expect(words).toEqual([expect.stringMatching(/^line 2: a quote \("\) opens a cell here and is never closed/)]);
    expect(tests.flatMap((t) => t.readings.map((r) => [r.line, r.value]))).toEqual([[3, 8]]);
  });
});
