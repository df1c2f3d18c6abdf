import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { recordReader } from "@/lib/intake/records.ts";
import { csvLine } from "@/lib/outtake/csv.ts";
import { optionalText } from "@/lib/schema/cells.ts";
import { asTyped, harmless } from "@/lib/schema/formula-cells.ts";

describe("a line of CSV", () => {
  it("keeps a cell that would run as text, and a number a number", () =>
    expect(csvLine(["=1+1", "+cmd", "-5", "@x", "-1.5", "+A1", "\tx", -5, -1e-7])).toBe(
      "'=1+1,'+cmd,-5,'@x,-1.5,'+A1,'\tx,-5,-1e-7\r\n",
    ));
  it("quotes quotes, commas and line ends; nothing is an empty cell", () =>
    expect(csvLine(['a"b', "c,d", "e\nf", null, 3])).toBe('"a""b","c,d","e\nf",,3\r\n'));
  it("makes a formula with a comma harmless and quotes it", () => expect(csvLine(["=A(1,2)"])).toBe('"\'=A(1,2)"\r\n'));
});

describe("cells that a spreadsheet would run", () => {
  /** Texts rich in what matters: signs, apostrophes, digits, quotes, line ends. */
  const hostile = fc.string({
    unit: fc.constantFrom("'", "=", "+", "-", "@", "＝", "1", ".", ",", '"', "\n", "\r", "\t", " ", "a", ";", "<"),
    maxLength: 8,
  });

  it("never begin with a sign that runs, unless they are a number", () => {
    fc.assert(
      fc.property(hostile, (text) => {
        expect(/^[=+\-@\t\r\n＝＋－＠]/.test(harmless(text)) && !/^[+-]?[\d.,]+$/.test(text)).toBe(false);
      }),
    );
  });

  it("are read back as they were, apostrophes of their own included", () => {
    expect(["=a", "'=a", "''=a", "'a", "-5", "'-5", "-a"].map(harmless)).toEqual([
      "'=a",
      "''=a",
      "'''=a",
      "'a",
      "-5",
      "''-5",
      "'-a",
    ]);
    fc.assert(fc.property(hostile, (text) => asTyped(harmless(text)) === text));
  });

  it("come back through a whole file, whatever stands beside them", () => {
    const typed = hostile.map((text) => text.trim()).filter((text) => text !== "" && !/^[-–—]+$/.test(text));
    const { schema } = optionalText(100);
    fc.assert(
      fc.property(fc.array(fc.tuple(typed, typed, typed), { minLength: 1, maxLength: 4 }), (rows) => {
        const block = recordReader(",")(rows.map(csvLine).join(""), true);
        expect(block.faults).toEqual([]);
        expect(block.records.map((record) => record.map((cell) => schema.parse(cell)))).toEqual(rows);
      }),
      { numRuns: 300 },
    );
  });
});
