import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { delimiterOf, recordReader } from "@/lib/intake/records.ts";
import { readText } from "./read-text.ts";

/** Reads text in pieces of the given lengths. */
function readAll(text: string, lengths: readonly number[] = [text.length || 1]) {
  const read = recordReader(",");
  const blocks = [];
  for (let at = 0, i = 0; at < text.length; i++) {
    const length = lengths[i % lengths.length] ?? 1;
    blocks.push(read(text.slice(at, at + length), false));
    at += length;
  }
  blocks.push(read("", true));
  return {
    records: blocks.flatMap((b) => b.records),
    lines: blocks.flatMap((b) => b.lines),
    faults: blocks.flatMap((b) => b.faults),
    stopped: blocks.some((b) => b.stopped),
  };
}

const cell = fc.string({ unit: fc.constantFrom("a", "b", '"', ",", "\n", "\r", " ", "é"), maxLength: 6 });
const lineBreak = fc.constantFrom("\n", "\r\n", "\r");
const table = fc.array(fc.tuple(fc.array(cell, { minLength: 2, maxLength: 4 }), lineBreak), {
  minLength: 1,
  maxLength: 8,
});
const quoted = (text: string) => `"${text.replaceAll('"', '""')}"`;
const cuts = fc.array(fc.integer({ min: 1, max: 5 }), { minLength: 1 });

describe("records", () => {
  it("come back as they were written, whatever the cells, line breaks and pieces", () => {
    fc.assert(
      fc.property(table, cuts, (rows, lengths) => {
        const text = rows.map(([cells, end]) => cells.map(quoted).join(",") + end).join("");
        const { records, faults } = readAll(text, lengths);
        expect(records.filter((r) => r.length > 1)).toEqual(rows.map(([cells]) => cells));
        expect(faults).toEqual([]);
      }),
    );
  });

  it("stand on the physical line on which they start", () => {
    fc.assert(
      fc.property(table, cuts, (rows, lengths) => {
        let text = "";
        const lines: number[] = [];
        for (const [cells, end] of rows) {
          // A CR before an LF is one line break, also where one row ends and the next begins.
          lines.push(text.split(/\r\n|\r|\n/).length);
          text += cells.map(quoted).join(",") + end;
        }
        const read = readAll(text, lengths);
        expect(read.lines.filter((_, i) => (read.records[i]?.length ?? 0) > 1)).toEqual(lines);
      }),
    );
  });

  it("give up a line whose quote swallows the lines after it, and read those", () => {
    const { records, lines, faults } = readAll('a,"b\nc,d\ne,"f"\ng,h\n');
    expect(records).toEqual([
      ["c", "d"],
      ["e", "f"],
      ["g", "h"],
    ]);
    expect(lines).toEqual([2, 3, 4]);
    expect(faults).toEqual([{ line: 1, code: "quote-never-closed" }]);
  });

  it.each([
    [
      "is closed by one that opens a cell before its delimiter",
      ['"a,b', 'c,", d"', "e,f"],
      [1],
      [
        ["c", ", d"],
        ["e", "f"],
      ],
    ],
    [
      "is closed so further down",
      ['"a,b', "c,d", 'e,", f"'],
      [1],
      [
        ["c", "d"],
        ["e", ", f"],
      ],
    ],
    [
      "stands behind a cell of two lines",
      ['"a', 'b","c', "d,e", 'f,", g"'],
      [1, 2],
      [
        ["d", "e"],
        ["f", ", g"],
      ],
    ],
  ])("lose no row to an open quote that %s", (_title, lines, faults, records) => {
    const read = readAll(`${lines.join("\n")}\n`);
    expect(read.faults.map((fault) => fault.line)).toEqual(faults);
    expect(read.records).toEqual(records);
  });

  it("keep text of several lines beside cells in quotes", () => {
    const { records, faults } = readAll('"a ""1""\nb" ,"c, d"\n"e\n\n",f\n');
    expect(faults).toEqual([]);
    expect(records).toEqual([
      ['a "1"\nb', "c, d"],
      ["e\n\n", "f"],
    ]);
  });

  it("stop after too many quotes that never close, and say from which line on", () => {
    const { records, faults, stopped } = readAll('a,"b c\n'.repeat(300));
    expect(records).toEqual([]);
    expect(stopped).toBe(true);
    expect(faults.at(-1)).toEqual({ line: 101, code: "gave-up" });
  });

  it("stop at a line that is no row", () => {
    const { records, faults, stopped } = readAll(`a,b\n${"x".repeat(3_000_000)}\nc,d\n`, [100_000]);
    expect(records).toEqual([["a", "b"]]);
    expect(faults).toEqual([{ line: 2, code: "line-too-long" }]);
    expect(stopped).toBe(true);
  });

  it("do not hold an open quote in memory for ever", () => {
    const { records, faults } = readAll(`a,"b\n${"c,d\n".repeat(600_000)}`, [1 << 18]);
    expect(faults).toEqual([{ line: 1, code: "quote-never-closed" }]);
    expect(records).toHaveLength(600_000);
  });

  it.each([
    ["unit,value;x", ","],
    ["unit;value", ";"],
    ["unit\tvalue", "\t"],
    ["unit|value", "|"],
    ['"unit, or";value', ";"],
    ["unit", ","],
    ["", ","],
    ["unit;value\nV-1;12,5\nV-2;9,5\n", ";"],
    ["unit;cyl 1;cyl 2;cyl 3\nV-1;12,5;9,1;8,0\nV-2;9,5;8;7,5\n", ";"],
    ["Cyl 1, psi;Cyl 2, psi\n175;180\n170;171\n", ";"],
    ["Results, by depot, 2026\nLowmarsh, Midfell, Highcol\n\nunit\tvalue\nV-1\t9\nV-2\t8\nV-3\t7\n", "\t"],
    ["unit,value,remarks\nV-1,9,a;b\nV-2,8,c;d;e\nV-3,7\n", ","],
    ["unit|value\rV-1|9,5\rV-2|8\r", "|"],
  ])("are parted in %j by %j", (firstLines, delimiter) => {
    expect(delimiterOf(firstLines)).toBe(delimiter);
  });

  it("are parted as was said, whatever the lines look like, and that is told", async () => {
    const text = "unit;reading_date;meter\nV-1;2026-01-01;5\n";
    const found = await readText(text);
    expect(found.meterReadings).toHaveLength(1);
    expect(found.readAs).toEqual({ encoding: null, delimiter: "semicolon", sheet: null, sheets: [] });
    expect(found.words).toEqual(["the cells are parted by semicolons"]);
    const said = await readText(text, { delimiter: "comma" });
    expect(said.fileRefused).toBe(true);
    expect(said.readAs.delimiter).toBe("comma");
  });
});
