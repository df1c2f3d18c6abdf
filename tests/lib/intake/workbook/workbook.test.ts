import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { UnreadableFile } from "@/lib/intake/text-blocks.ts";
import type { Archive } from "@/lib/intake/workbook/archive.ts";
import { openSheet } from "@/lib/intake/workbook/workbook.ts";
import { bookParts, inline, n, type Parts, row, s, sheet, sheetOfTexts } from "./made-up-workbook.ts";

/** Parts as an archive, their bytes cut small so that no tag comes whole. */
function archiveOf(parts: Parts, size = 7): Archive {
  return {
    names: new Set(Object.keys(parts)),
    open: async function* (name) {
      const bytes = new TextEncoder().encode(parts[name]);
      for (let at = 0; at < bytes.length; at += size) yield bytes.subarray(at, at + size);
    },
    bytesOf: (name) => new TextEncoder().encode(parts[name]).length,
  };
}

async function textOf(parts: Parts, name?: string): Promise<string> {
  let text = "";
  for await (const piece of (await openSheet(archiveOf(parts), name)).text()) text += piece;
  return text;
}

const reasonOf = (parts: Parts, name?: string) =>
  textOf(parts, name).then(
    (text) => `read: ${text}`,
    (error) => (error instanceof UnreadableFile ? `${error.reason} ${error.about}`.trim() : `threw ${error}`),
  );

const one = (xml: string, more: Partial<Parameters<typeof bookParts>[0]> = {}) =>
  bookParts({ sheets: [{ name: "Tests", xml }], ...more });

describe("a sheet's text", () => {
  it("has the row n of the sheet on line n, and each cell in its column", async () => {
    const xml = sheet(row(2, inline("B2", "b"), inline("D2", "d")) + row(5, inline("A5", "a")));
    expect(await textOf(one(xml))).toBe("\n,b,,d\n\n\na\n");
  });

  it("places cells and rows that do not say where they stand after the one before", async () => {
    const xml =
      "<worksheet><sheetData><row><c><v>1</v></c><c><v>2</v></c></row><row><c><v>3</v></c></row></sheetData></worksheet>";
    expect(await textOf(one(xml))).toBe("1,2\n3\n");
  });

  it("takes shared strings, with their runs joined and their reading aids left off", async () => {
    const strings = [
      "V-1",
      "<r><t>heard </t></r><r><t xml:space='preserve'>at</t></r><rPh><t>no</t></rPh>",
      "two_x000D_\nlines",
    ];
    expect(await textOf(one(sheet(row(1, s("A1", 0), s("B1", 1), s("C1", 2))), { strings }))).toBe(
      "V-1,heard at,two lines\n",
    );
  });

  it("takes formulas by the value that is kept; one without a value is no blank", async () => {
    const xml = sheet(
      row(
        1,
        '<c r="A1"><f>B1*2</f><v>12.5</v></c>',
        '<c r="B1" t="str"><f>C1</f><v>ok</v></c>',
        '<c r="C1"><f>A1+1</f></c>',
        '<c r="D1" t="e"><f>1/0</f><v>#DIV/0!</v></c>',
        '<c r="E1" t="b"><v>1</v></c>',
      ),
    );
    expect(await textOf(one(xml))).toBe("12.5,ok,=A1+1,#DIV/0!,TRUE\n");
  });

  it("tells numbers as people see them", async () => {
    const formats = [
      14,
      "dd/mm/yyyy hh:mm",
      "[h]:mm",
      "0.0%",
      "0000",
      '"V-"000',
      '0.0" psi"',
      "#,##0.00 [$€-407]",
      "[Red]h:mm AM/PM",
      "d mmm",
    ];
    const cells = [46203, 46203.53125, 52.0208333333333, 0.125, 42, 104, 175, 1234.5, 0.34375, 46203];
    const letters = "ABCDEFGHIJ";
    const xml = sheet(row(1, ...cells.map((value, i) => n(`${letters[i]}1`, value, i + 1)), n("K1", 0.1 + 0.2)));
    expect(await textOf(one(xml, { formats }))).toBe(
      "2026-06-30,2026-06-30 12:45,1248:30,12.5%,0042,V-104,175 psi,1234.5,08:15,2026-06-30,0.3\n",
    );
  });

  it("counts days from 1904 where the workbook does", async () => {
    expect(await textOf(one(sheet(row(1, n("A1", 44741, 1))), { formats: [14], date1904: true }))).toBe("2026-06-30\n");
  });

  it("gives every cell of a merged area the value that people see across it", async () => {
    const xml = sheet(
      row(1, inline("A1", "Cylinder"), inline("B1", "psi")) +
        row(2, inline("A2", "V-1"), inline("B2", "a")) +
        row(3, inline("B3", "b")) +
        row(4, inline("B4", "c")),
      '<mergeCells count="2"><mergeCell ref="A2:A3"/><mergeCell ref="B1:D1"/></mergeCells>',
    );
    expect(await textOf(one(xml))).toBe("Cylinder,psi,psi,psi\nV-1,a\nV-1,b\n,c\n");
  });

  it("does not look like JSON, whatever stands in the first cell, and quotes what CSV needs quoted", async () => {
    const text = await textOf(one(sheetOfTexts([["{2026}", 'say "a", b']])));
    expect(text).toBe('"{2026}","say ""a"", b"\n');
  });

  it("is the same however the bytes of the parts are cut", async () => {
    const parts = one(
      sheetOfTexts([
        ["é", "b"],
        ["", "c ß"],
      ]),
    );
    await fc.assert(
      fc.asyncProperty(fc.integer({ min: 1, max: 40 }), async (size) => {
        let text = "";
        for await (const piece of (await openSheet(archiveOf(parts, size))).text()) text += piece;
        expect(text).toBe("é,b\n,c ß\n");
      }),
    );
  });
});

describe("the sheet", () => {
  const blank = sheet("");
  const filled = (text: string) => sheetOfTexts([[text]]);
  const several = bookParts({
    sheets: [
      { name: "Cover", xml: blank },
      { name: "Lists", xml: filled("hidden"), state: "hidden" },
      { name: "Results", xml: filled("results") },
      { name: "Old", xml: filled("old") },
    ],
  });

  it("is the first visible one that holds a cell", async () => {
    const opened = await openSheet(archiveOf(several));
    expect(opened.sheet).toEqual({ sheet: "Results", sheets: ["Cover", "Lists", "Results", "Old"] });
  });
  it("is the first visible one with headings that are known, whatever stands before it", async () => {
    const notes = sheetOfTexts([["Read me first"], ["Ask the lead"]]);
    const tests = sheetOfTexts([["Round of March"], ["Truck", "Date", "Hours", "Cyl 1 (psi)", "Cyl 2 (psi)"]]);
    const units = sheetOfTexts([["unit", "engine_model", "meter_unit"]]);
    const of = async (...sheets: readonly { readonly name: string; readonly xml: string; readonly state?: string }[]) =>
      (await openSheet(archiveOf(bookParts({ sheets })))).sheet.sheet;
    expect(await of({ name: "Notes", xml: notes }, { name: "Tests", xml: tests })).toBe("Tests");
    expect(await of({ name: "Notes", xml: notes }, { name: "Units", xml: units }, { name: "T", xml: tests })).toBe(
      "Units",
    );
    expect(await of({ name: "Notes", xml: notes }, { name: "T", xml: tests, state: "hidden" })).toBe("Notes");
  });
  it("is the one named, whatever its letter case, hidden or not", async () => {
    expect(await textOf(several, "old")).toBe("old\n");
    expect(await textOf(several, "Lists")).toBe("hidden\n");
  });
  it("is a hidden one where no other holds a cell", async () =>
    expect(await textOf(bookParts({ sheets: [{ name: "H", xml: filled("h"), state: "veryHidden" }] }))).toBe("h\n"));
  it("is refused where none has that name, or none holds a cell", async () => {
    expect(await reasonOf(several, "Tests")).toBe('no-such-sheet "Cover", "Lists", "Results" and "Old"');
    expect(await reasonOf(bookParts({ sheets: [{ name: "C", xml: blank }] }))).toBe("workbook-empty");
  });
});

describe("what is no sound workbook", () => {
  const good = one(sheet(row(1, inline("A1", "a"))));
  const damaged: readonly (readonly [string, string])[] = [
    ["a sheet cut short", sheet(row(1, inline("A1", "a"))).slice(0, -20)],
    ["text that is no XML", "unit,value"],
    [
      "an entity that swells",
      '<!DOCTYPE w [<!ENTITY a "aaaa">]><worksheet><sheetData><row r="1"><c t="str"><v>&a;</v></c></row></sheetData></worksheet>',
    ],
    ["rows out of order", sheet(row(2, inline("A2", "a")) + row(1, inline("A1", "b")))],
    ["two cells of one place", sheet(row(1, n("A1", 1), n("A1", 2)))],
    ["a cell of another row", sheet(row(1, n("A2", 1)))],
    ["a row beyond the last one", sheet(row(1_048_577, n("A1048577", 1)))],
    ["a column beyond the last one", sheet(row(1, n("XFE1", 1)))],
    ["a string that is not there", sheet(row(1, s("A1", 5)))],
    ["a style that is not there", sheet(row(1, n("A1", 0.125, 5)))],
    ["a cell of two values", sheet(row(1, '<c r="A1"><v>11</v><v>87</v></c>'))],
    ["a cell of five million letters", sheet(row(1, inline("A1", "x".repeat(5_000_000))))],
  ];
  it.each(damaged)("%s is told as damage", async (_name, xml) => {
    expect(await textOfFast(one(xml))).toBe("workbook-damaged");
  });
  const textOfFast = (parts: Parts) =>
    openSheet(archiveOf(parts, 1 << 16))
      .then(async ({ text }) => {
        let all = "";
        for await (const piece of text()) all += piece;
        return all;
      })
      .catch((error) => (error instanceof UnreadableFile ? error.reason : `threw ${error}`));

  it("an archive of something else is told as that", async () => {
    expect(await reasonOf({ "word/document.xml": "<w/>" })).toBe("archive");
    expect(await reasonOf({ ...good, "_rels/.rels": "<Relationships/>" })).toBe("read: a\n");
  });
  it("a part that is named and not there is told as damage, not read round", async () => {
    const book = bookParts({
      formats: ["0.0%"],
      sheets: [
        { name: "Older", xml: sheet(row(1, n("A1", 1))), state: "hidden" },
        { name: "Tests", xml: sheet(row(1, n("A1", 0.125, 1))) },
      ],
    });
    expect(await reasonOf(book)).toBe("read: 12.5%\n");
    const without = (part: string) => Object.fromEntries(Object.entries(book).filter(([name]) => name !== part));
    expect(await reasonOf(without("xl/styles.xml"))).toBe("workbook-damaged");
    expect(await reasonOf(without("xl/worksheets/sheet1.xml"))).toBe("workbook-damaged");
  });
  it("a chart on a sheet of its own is passed over", async () => {
    const rels = "xl/_rels/workbook.xml.rels";
    const parts = bookParts({
      sheets: [
        { name: "Chart", xml: "" },
        { name: "Tests", xml: sheet(row(1, inline("A1", "a"))) },
      ],
    });
    const chart = (parts[rels] ?? "").replace('/worksheet" Target="worksheets/sheet0', '/chartsheet" Target="charts/0');
    expect(await reasonOf({ ...parts, [rels]: chart })).toBe("read: a\n");
  });
  it("a number that XML does not know is told as it stands, not as JavaScript reads it", async () => {
    expect(await textOf(one(sheet(row(1, n("A1", "0x10"), n("B1", "1e3"), n("C1", ".5")))))).toBe("0x10,1000,0.5\n");
  });
  it("merged areas that would fill the sheet are refused, not made", async () => {
    const xml = sheet(
      Array.from({ length: 4000 }, (_, i) => row(i + 1, n(`A${i + 1}`, 1))).join(""),
      '<mergeCells><mergeCell ref="A1:XFD1048576"/></mergeCells>',
    );
    expect(await textOfFast(one(xml))).toBe("workbook-too-large");
  });
});
