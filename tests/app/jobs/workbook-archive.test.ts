import { crc32 } from "node:zlib";
import { describe, expect, it } from "vitest";
import { crc32 as ours } from "@/app/_jobs/crc32.ts";
import { lookThrough } from "@/app/_jobs/look-through.ts";
import { FileChanged, readableText } from "@/app/_jobs/readable-text.ts";
import { readFleetFile } from "@/lib/intake/read-file.ts";
import { joinChunks, models } from "../../lib/intake/read-text.ts";
import { bookParts, sheetOfTexts, zipOf } from "../../lib/intake/workbook/made-up-workbook.ts";
import { source } from "./made-up-files.ts";

const header = ["unit", "engine_model", "test_date", "meter", "meter_unit", "test", "cylinder", "value", "value_unit"];
const rows = [header, ["V-1", "four", "2026-03-02", "4180", "km", "leak-down", "1", "12.5", "%"]];
const parts = bookParts({ sheets: [{ name: "Tests", xml: sheetOfTexts(rows) }] });
const sheetPart = "xl/worksheets/sheet0.xml";

async function read(bytes: Uint8Array, choice = {}) {
  const file = { ...source("tests.xlsx", bytes), choice };
  const { bytes: _bytes, ...text } = await readableText(file, await lookThrough(file));
  const chunks = [];
  for await (const chunk of readFleetFile({ ...text, file: file.name, known: { models, today: null } }))
    chunks.push(chunk);
  return joinChunks(chunks);
}
const refusalOf = async (bytes: Uint8Array) => {
  const { fileRefused, words, tests } = await read(bytes);
  return fileRefused ? words.join(" ") : `taken: ${tests.length}`;
};

describe("a workbook", () => {
  it("is read as a text file with the same cells is, and says its sheet", async () => {
    const { tests, readAs, rows: count, words } = await read(zipOf(parts));
    expect(tests).toMatchObject([{ unit: "V-1", date: "2026-03-02" }]);
    expect({ count, words }).toEqual({ count: 1, words: [] });
    expect(readAs).toEqual({ encoding: null, delimiter: null, sheet: "Tests", sheets: ["Tests"] });
  });

  it("of several sheets mentions which one was read", async () => {
    const book = bookParts({
      sheets: [
        { name: "Notes", xml: sheetOfTexts([["x"]]) },
        { name: "Tests", xml: sheetOfTexts(rows) },
      ],
    });
    const { words, tests } = await read(zipOf(book), { sheet: "tests" });
    expect(tests).toHaveLength(1);
    expect(words).toEqual(['the rows are those of the sheet "Tests"; the workbook has "Notes" and "Tests"']);
  });

  it.each<[string, Uint8Array, RegExp]>([
    ["cut short", zipOf(parts).subarray(0, -40), /damaged/],
    ["without its directory", zipOf(parts).subarray(0, 300), /damaged/],
    ["with other bytes than were packed", zipOf(parts, { lies: { [sheetPart]: { sum: 1 } } }), /damaged/],
    ["with a part larger than it says", zipOf(parts, { lies: { [sheetPart]: { unpacked: 100 } } }), /damaged/],
    ["with a part smaller than it says", zipOf(parts, { lies: { [sheetPart]: { unpacked: 100_000 } } }), /damaged/],
    ["packed a thousand times over", zipOf({ ...parts, "xl/media/a": Buffer.alloc(20_000_000) }), /more tightly/],
    [
      "that says it is a thousand times as large",
      zipOf(parts, { lies: { [sheetPart]: { unpacked: 900_000_000 } } }),
      /more tightly/,
    ],
    [
      "with too many parts",
      zipOf({ ...parts, ...Object.fromEntries(Array.from({ length: 5_001 }, (_, i) => [`x/${i}`, ""])) }),
      /too large \(it has more than 5,000 parts\)/,
    ],
    ["with a path out of its folder", zipOf({ ...parts, "../../etc/x": "x" }), /damaged/],
    ["that is another archive", zipOf({ "results.csv": "unit,value" }), /archive, but no .xlsx workbook/],
    [
      "that is a binary workbook",
      zipOf({ ...parts, "_rels/.rels": "<R/>", "xl/workbook.bin": "x", "xl/workbook.xml": "" }),
      /damaged/,
    ],
  ])("%s is refused as a whole, in words", async (_name, bytes, why) => {
    expect(await refusalOf(bytes)).toMatch(why);
  });

  it("with any byte changed is read right or refused, never read otherwise", async () => {
    const good = zipOf(parts);
    const right = JSON.stringify((await read(good)).tests);
    let refused = 0;
    for (let at = 0; at < good.length; at += 3) {
      const bytes = Buffer.from(good);
      bytes[at] = (bytes[at] as number) ^ (1 << (at % 8));
      const found = await read(bytes);
      if (found.fileRefused || found.tests.length === 0) refused += 1;
      else expect(JSON.stringify(found.tests), `byte ${at}`).toBe(right);
    }
    expect(refused).toBeGreaterThan(100);
  });

  it("larger than memory should hold is refused unread", async () => {
    const file = source("big.xlsx", zipOf(parts));
    const look = { ...(await lookThrough(file)), bytes: 65_000_000 };
    const { source: text } = await readableText(file, look);
    const chunks = [];
    for await (const chunk of readFleetFile({ source: text, file: "big.xlsx", known: { models, today: null } }))
      chunks.push(chunk);
    expect(joinChunks(chunks).words).toEqual([expect.stringMatching(/it has more than 64 MB/)]);
  });
});

it("a file that changes between the looks is not taken", async () => {
  const look = await lookThrough(source("a.csv", "unit,value\n"));
  const { source: text } = await readableText(source("a.csv", "unit,walue\n"), look);
  const reading = async () => {
    for await (const _ of text as AsyncIterable<unknown>) void _;
  };
  await expect(reading()).rejects.toThrow(FileChanged);
});

it("the check sum is that of ZIP archives, whole or in pieces", () => {
  const bytes = Buffer.from("123456789");
  expect(ours(bytes)).toBe(0xcbf43926);
  expect(ours(bytes)).toBe(crc32(bytes));
  expect(ours(bytes.subarray(4), ours(bytes.subarray(0, 4)))).toBe(0xcbf43926);
});
