import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { commitFormImport } from "@/app/_jobs/commit-form-import.ts";
import { commitImport } from "@/app/_jobs/commit-import.ts";
import { discardImport } from "@/app/_jobs/discard-import.ts";
import type { ImportSource } from "@/app/_jobs/import-source.ts";
import { withChoices } from "@/app/_jobs/import-source.ts";
import { keptSources } from "@/app/_jobs/kept-sources.ts";
import { readAgain } from "@/app/_jobs/read-again.ts";
import { stageImport } from "@/app/_jobs/stage-import.ts";
import { originalParts, originalsKept, partLength } from "@/db/import-originals.ts";
import { importDetail, listImports } from "@/db/imports.ts";
import type { Store } from "@/db/store.ts";
import { bookParts, sheetOfTexts, zipOf } from "../../lib/intake/workbook/made-up-workbook.ts";
import { act, csv, history, modelsFile, newStore, source } from "./made-up-files.ts";

async function original(store: Store, importId: string, fileNo: number): Promise<Buffer> {
  const parts: Buffer[] = [];
  for await (const part of originalParts(store, importId, fileNo)) parts.push(part);
  return Buffer.concat(parts);
}
const partsIn = async ({ q, importFileParts }: Store) => (await q.select().from(importFileParts)).length;

const numbered = async (store: Store, importId: string, name: string) =>
  (await importDetail(store, importId))?.files.find((file) => file.name === name);

/** Bytes that come in pieces of one length. */
const inPieces = (name: string, bytes: Uint8Array, length: number): ImportSource => ({
  name,
  bytes: bytes.length,
  open: async function* () {
    for (let at = 0; at < bytes.length; at += length) yield bytes.subarray(at, at + length);
  },
});

const meters = (rows: string, end = "\n") => `unit;reading_date;meter${end}${rows}`;
const latin = (text: string) => Uint8Array.from(text, (letter) => letter.charCodeAt(0));

describe("a file that is imported", () => {
  it("is kept byte for byte, whatever it holds", async () => {
    const store = await newStore();
    await fc.assert(
      fc.asyncProperty(fc.uint8Array({ maxLength: 200 }), fc.integer({ min: 1, max: 50 }), async (bytes, length) => {
        const { id } = await stageImport(store, [inPieces("any", bytes, length)], act);
        expect(Buffer.compare(await original(store, id, 1), Buffer.from(bytes))).toBe(0);
        await discardImport(store, id, act);
      }),
      { numRuns: 40 },
    );
  });

  it("of more than one part comes back whole, and is not held as one", async () => {
    const store = await newStore();
    const bytes = Buffer.from(`unit,reading_date,meter,x\n${"V-1,2026-01-01,5,é\n".repeat(120_000)}`);
    const { id } = await stageImport(store, [inPieces("long.csv", bytes, 100_003)], act);
    expect((await original(store, id, 1)).equals(bytes)).toBe(true);
    expect(await partsIn(store)).toBe(Math.ceil(bytes.length / partLength));
  });

  it("stays with an import that was taken, and goes with one that is discarded", async () => {
    const store = await newStore();
    const file = source("a.csv", csv(history("B-1")));
    const taken = await stageImport(store, [file, modelsFile], act);
    await commitImport(store, taken.id, { ...act, takeChanges: false });
    const kept = await partsIn(store);
    const { id } = await stageImport(store, [file], act);
    expect(await partsIn(store)).toBe(kept + 1);
    await discardImport(store, id, act);
    expect(await partsIn(store)).toBe(kept);
    expect(await originalsKept(store, taken.id)).toEqual(new Set([1, 2]));
    expect((await original(store, taken.id, 2)).toString()).toBe(csv(history("B-1")));
  });

  it("whose bytes end too soon leaves no part behind", async () => {
    const store = await newStore();
    const broken: ImportSource = {
      ...source("a.csv", "x"),
      open: async function* () {
        yield Buffer.from("unit,reading_date,meter\n");
        throw new Error("the disk is gone");
      },
    };
    await expect(stageImport(store, [broken], act)).rejects.toThrow("the disk is gone");
    expect(await partsIn(store)).toBe(0);
  });

  it("is not kept where nobody gave one", async () => {
    const store = await newStore();
    const { id } = await stageImport(store, [source("a.csv", csv(history("B-1"))), modelsFile], act);
    await commitImport(store, id, { ...act, takeChanges: false });
    const before = await partsIn(store);
    const reading = { unit: "B-1", date: "2026-06-01", meter: 9000, meterReset: false, file: "", line: 0 };
    await commitFormImport(store, { title: "Meter of B-1", told: { meterReadings: [reading] } }, act);
    expect(await partsIn(store)).toBe(before);
  });
});

describe("a file that is read", () => {
  it("is in the encoding and by the delimiter that it shows, and that is told of it", async () => {
    const store = await newStore();
    const { id, files } = await stageImport(store, [source("a.csv", latin(meters("V-\xe9;2026-01-01;5\n")))], act);
    expect(files[0]).toMatchObject({
      readAs: { encoding: "windows-1252", delimiter: "semicolon", sheet: null, sheets: [] },
      kind: "meters",
      rows: 1,
    });
    expect((await numbered(store, id, "a.csv"))?.sha256).toMatch(/^[0-9a-f]{64}$/);
  });

  it("may be a workbook, with the same outcome as its text", async () => {
    const rows = csv(history("B-1"))
      .trimEnd()
      .split("\n")
      .map((line) => line.split(","));
    const book = zipOf(bookParts({ sheets: [{ name: "Results", xml: sheetOfTexts(rows) }] }));
    const [text, workbook] = [await newStore(), await newStore()];
    const asText = await stageImport(text, [source("a.csv", csv(history("B-1"))), modelsFile], act);
    const asBook = await stageImport(workbook, [source("a.xlsx", book), modelsFile], act);
    expect(asBook.newRows).toBe(asText.newRows);
    expect(asBook.newRows).toBeGreaterThan(10);
    expect((await original(workbook, asBook.id, 2)).equals(book)).toBe(true);
  });
});

describe("files that are read again", () => {
  it("make another import in the place of the one that waits, as was said of them", async () => {
    const store = await newStore();
    const odd = source("a.csv", latin(meters("V-\xe9;2026-01-01;5\n")));
    const first = await stageImport(store, withChoices([odd], { "a.csv": { encoding: "utf-8" } }), act);
    expect(first.files[0]).toMatchObject({ refused: true, readAs: { encoding: "utf-8" } });
    const choices = { "a.csv": { encoding: "windows-1252" } } as const;
    const second = await readAgain(store, first.id, { ...act, choices });
    expect(second.files[0]).toMatchObject({ refused: false, rows: 1, readAs: { encoding: "windows-1252" } });
    expect((await listImports(store)).map(({ id }) => id)).toEqual([second.id]);
    expect(await partsIn(store)).toBe(1);
    await expect(readAgain(store, first.id, { ...act, choices })).rejects.toThrow(/was discarded/);
  });

  it("may be of another sheet", async () => {
    const store = await newStore();
    const sheetOf = (unit: string) =>
      sheetOfTexts([
        ["unit", "reading_date", "meter"],
        [unit, "2026-01-01", "5"],
      ]);
    const sheets = [
      { name: "A", xml: sheetOf("V-1") },
      { name: "B", xml: sheetOf("V-2") },
    ];
    const first = await stageImport(store, [source("m.xlsx", zipOf(bookParts({ sheets })))], act);
    expect(first.files[0]?.readAs).toMatchObject({ sheet: "A", sheets: ["A", "B"] });
    const second = await readAgain(store, first.id, { ...act, choices: { "m.xlsx": { sheet: "B" } } });
    expect(second.files[0]?.readAs).toMatchObject({ sheet: "B" });
  });

  it("are none where they were not kept", async () => {
    const store = await newStore();
    const staged = await stageImport(store, [source("a", meters("V-1;2026-01-01;5\n"))], act, {}, { origin: "form" });
    expect(await keptSources(store, staged)).toBeNull();
    await expect(readAgain(store, staged.id, { ...act, choices: {} })).rejects.toThrow(/were not kept/);
    expect((await importDetail(store, staged.id))?.state).toBe("staged");
  });
});
