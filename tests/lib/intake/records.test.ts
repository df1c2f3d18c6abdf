import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { delimiterOf, recordReader } from "@/lib/intake/records.ts";

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
  ])("are parted in %j by %j", (header, delimiter) => {
    expect(delimiterOf(header)).toBe(delimiter);
  });
});
