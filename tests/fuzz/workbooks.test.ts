import fc from "fast-check";
import { expect, it } from "vitest";
import { type Parts, zipOf } from "../lib/intake/workbook/made-up-workbook.ts";
import { type GoodWorkbook, goodWorkbooks, valueColumn } from "./good-workbooks.ts";
import { mutations, spoil } from "./mutations.ts";
import { faultsOfRead, numeral, type Read, readAnyFile } from "./verdict.ts";
import { type Slipped, slipped, type XmlSlip, xmlSlips } from "./xml-slips.ts";

/**
 * Broken workbooks by the thousand: as archives, and with parts that are broken but packed as they should be. Whatever is
 * broken, reading ends with a result or a clear refusal, and no number is taken that the workbook does not hold.
 */

const seed = 20_260_630;
/** Generous: one case takes some milliseconds. Longer is a hang in the making. */
const longestCaseMs = 5_000;

const said = ({ rows }: Read) => rows.map((row) => `${row.line} ${row.said}`);

interface Good extends GoodWorkbook {
  readonly zip: Buffer;
  readonly rows: ReadonlySet<string>;
  /** Also of its other sheets, and as the other system of days has it: the part of the workbook itself may say so. */
  readonly possible: ReadonlySet<string>;
}

async function prepared(workbook: GoodWorkbook): Promise<Good> {
  const zip = zipOf(workbook.parts);
  const rowsOf = async (book: string, sheet: string) => {
    const parts = { ...workbook.parts, "xl/workbook.xml": book, [workbook.sheet]: workbook.parts[sheet] as string };
    return said(await readAnyFile(zipOf(parts), workbook.layout));
  };
  const book = workbook.parts["xl/workbook.xml"] as string;
  const from1900 = book.replace(' date1904="1"', "");
  const from1904 = from1900.replace("<workbookPr", '<workbookPr date1904="1"');
  const sheets = Object.keys(workbook.parts).filter((name) => name.includes("/worksheets/"));
  const possible = new Set<string>();
  for (const sheet of sheets) {
    for (const variant of [from1900, from1904]) for (const row of await rowsOf(variant, sheet)) possible.add(row);
  }
  const rows = new Set(said(await readAnyFile(zip, workbook.layout)));
  return { ...workbook, zip, rows, possible, [fc.toStringMethod]: () => workbook.name } as Good;
}

const good = await Promise.all(goodWorkbooks.map(prepared));
const anyGood = fc.constantFrom(...good);

/** Reads a broken workbook, whose reading must end soon and be told in words, whatever `text` is in it. */
async function readBroken(bytes: Uint8Array, { layout }: Good, text: string): Promise<Read> {
  const begun = performance.now();
  const read = await readAnyFile(bytes, layout);
  expect(performance.now() - begun).toBeLessThan(longestCaseMs);
  expect(faultsOfRead(read, text)).toEqual([]);
  return read;
}

const textOf = (parts: Parts) => Object.values(parts).join("\n");
/** A file that is refused as a whole gives nothing, whatever was read before that showed. */
const taken = (read: Read) => (read.fileRefused ? [] : said(read));

/** The rows that may not be there, the first of them in a few words. */
const strangers = (rows: readonly string[], may: ReadonlySet<string>) =>
  rows.filter((row) => !may.has(row)).map((row, i) => (i === 0 ? row : row.slice(0, 20)));

/** How many cases of a property came through at all: a property of refusals alone would tell nothing. */
async function holds<T>(arbitrary: fc.Arbitrary<T>, numRuns: number, hold: (given: T) => Promise<number>) {
  let withRows = 0;
  const property = fc.asyncProperty(arbitrary, async (given) => {
    if ((await hold(given)) > 0) withRows += 1;
  });
  await fc.assert(property, { seed, numRuns });
  expect(withRows).toBeGreaterThan(numRuns / 50);
}

/** A part spoilt by bytes, or by a slip that leaves it XML. */
type PartSlip = { readonly bytes: Parameters<typeof spoil>[1] } | { readonly xml: XmlSlip };
const partSlips: fc.Arbitrary<PartSlip> = fc.oneof(
  { weight: 1, arbitrary: mutations.map((bytes) => ({ bytes })) },
  { weight: 2, arbitrary: xmlSlips.map((xml) => ({ xml })) },
);

interface SpoiltPart extends Slipped {
  readonly zip: Buffer;
  readonly parts: Parts;
}

function withSpoilt({ parts }: Good, name: string, slip: PartSlip): SpoiltPart {
  const before = parts[name] as string;
  if ("xml" in slip) {
    const after = slipped(before, slip.xml);
    const all = { ...parts, [name]: after.text };
    return { ...after, zip: zipOf(all), parts: all };
  }
  const { bytes, from, to } = spoil(Buffer.from(before), slip.bytes);
  const text = Buffer.from(bytes).toString("latin1");
  return { text, from, to, zip: zipOf({ ...parts, [name]: bytes }), parts: { ...parts, [name]: text } };
}

it("reads the good workbooks without a refusal or a warning, and every row of them", async () => {
  for (const { zip, layout, rows } of good) {
    const { issues } = await readAnyFile(zip, layout);
    expect(issues.filter(({ severity }) => severity !== "mention")).toEqual([]);
    expect(rows.size).toBe(16);
  }
});

it("an archive with any bytes changed is read right or refused", async () => {
  await holds(fc.tuple(anyGood, mutations), 700, async ([workbook, wanted]) => {
    const { bytes } = spoil(workbook.zip, wanted);
    const rows = taken(await readBroken(bytes, workbook, Buffer.from(bytes).toString("latin1")));
    expect(strangers(rows, workbook.rows)).toEqual([]);
    return rows.length;
  });
});

/** Fields of the two headers that an archive has for a part, by their places (APPNOTE 6.3, sections 4.3.7 and 4.3.12). */
const headers = {
  local: { mark: 0x04034b50, fields: { flags: 6, method: 8, sum: 14, packed: 18, unpacked: 22, name: 26, extra: 28 } },
  central: {
    mark: 0x02014b50,
    fields: { flags: 8, method: 10, sum: 16, packed: 20, unpacked: 24, name: 28, extra: 30, comment: 32, at: 42 },
  },
} as const;
const headerFields = Object.values(headers).flatMap(({ mark, fields }) =>
  Object.entries(fields).map(([name, at]) => ({ mark, name, at: at as number })),
);
const shortFields = ["flags", "method", "name", "extra", "comment"];

it("an archive that lies about its parts is read right or refused", async () => {
  const lies = fc.tuple(
    anyGood,
    fc.constantFrom(...headerFields),
    fc.nat({ max: 20 }),
    fc.oneof(fc.integer({ min: -3, max: 3 }), fc.constantFrom(-1_000, 1_000, 0x7fff_ffff, 0xffff_ffff), fc.nat()),
  );
  await holds(lies, 500, async ([workbook, { mark, name, at }, nth, more]) => {
    const bytes = Buffer.from(workbook.zip);
    const places: number[] = [];
    for (let place = 0; place < bytes.length - 4; place++) if (bytes.readUInt32LE(place) === mark) places.push(place);
    const place = (places[nth % places.length] as number) + at;
    if (shortFields.includes(name)) bytes.writeUInt16LE((bytes.readUInt16LE(place) + more) & 0xffff, place);
    else bytes.writeUInt32LE((bytes.readUInt32LE(place) + more) >>> 0, place);
    const rows = taken(await readBroken(bytes, workbook, bytes.toString("latin1")));
    expect(strangers(rows, workbook.rows)).toEqual([]);
    return rows.length;
  });
});

it("a workbook with parts missing, empty, cut off or in another's place is read right or refused", async () => {
  const slips = fc.tuple(
    anyGood,
    fc.nat({ max: 20 }),
    fc.nat({ max: 20 }),
    fc.constantFrom("missing", "empty", "renamed", "cut", "swapped", "marked"),
    fc.double({ min: 0, max: 1, noNaN: true }),
  );
  await holds(slips, 400, async ([workbook, one, other, how, share]) => {
    const names = Object.keys(workbook.parts);
    const [name, another] = [names[one % names.length] as string, names[other % names.length] as string];
    const parts = new Map(Object.entries(workbook.parts));
    const [text, anothers] = [parts.get(name) as string, parts.get(another) as string];
    if (how === "missing" || how === "renamed") parts.delete(name);
    if (how === "renamed") parts.set(`${name}x`, text);
    if (how === "empty") parts.set(name, "");
    if (how === "cut") parts.set(name, text.slice(0, Math.floor(share * text.length)));
    if (how === "marked") parts.set(name, `\ufeff${text}`);
    if (how === "swapped") parts.set(name, anothers).set(another, text);
    const broken = Object.fromEntries(parts);
    const rows = taken(await readBroken(zipOf(broken), workbook, textOf(broken)));
    // Sheets in each other's place are no slip that anyone could see.
    const may = how === "swapped" ? workbook.possible : workbook.rows;
    expect(strangers(rows, may)).toEqual([]);
    return rows.length;
  });
});

it("parts that hold no values, spoilt and packed again, give no row that the workbook does not hold", async () => {
  const parts = fc.constantFrom("[Content_Types].xml", "_rels/.rels", "xl/workbook.xml", "xl/_rels/workbook.xml.rels");
  await holds(fc.tuple(anyGood, parts, partSlips), 700, async ([workbook, name, slip]) => {
    const spoilt = withSpoilt(workbook, name, slip);
    const rows = taken(await readBroken(spoilt.zip, workbook, textOf(spoilt.parts)));
    expect(strangers(rows, workbook.possible)).toEqual([]);
    return rows.length;
  });
});

const escapes = { "&quot;": '"', "&lt;": "<", "&amp;": "&" } as const;
const unescaped = (text: string) => text.replace(/&(?:quot|lt|amp);/g, (code) => escapes[code as keyof typeof escapes]);

/** Whether a style shows a share as a percentage, by the plainest reading of the part; null: it has no such style. */
function isPercent(styles: string, place: number): boolean | null {
  const cellStyles = /<cellXfs>(.*?)<\/cellXfs>/s.exec(styles)?.[1] ?? "";
  const style = [...cellStyles.matchAll(/<xf\b([^>]*)>/g)][place]?.[1];
  if (style === undefined) return null;
  const id = Number(/\snumFmtId="([^"]*)"/.exec(style)?.[1] ?? 0);
  const own = [...styles.matchAll(/<numFmt\b([^>]*)>/g)].findLast(
    ([, all = ""]) => Number(/\snumFmtId="([^"]*)"/.exec(all)?.[1]) === id,
  );
  if (own === undefined) return id === 9 || id === 10;
  const code = unescaped(/\sformatCode="([^"]*)"/.exec(own[1] as string)?.[1] ?? "");
  const [shown = ""] = code.replace(/"[^"]*"|\\.|\[[^\]]*\]|[_*]./g, "").split(";");
  return /[0#?]/.test(shown) && shown.includes("%");
}

/** The readings of a sheet with their styles, by their rows. */
const readingsOf = (xml: string) =>
  new Map(
    [...xml.matchAll(new RegExp(`<c r="${valueColumn}(\\d+)" s="(\\d+)">.*?<v>([^<]*)</v>`, "g"))].map(
      ([, line, style, value]) => [Number(line), { style: Number(style), value: Number(value) }] as const,
    ),
  );

const about = (a: number, b: number) => Math.abs(a - b) <= 1e-9 * Math.max(1, Math.abs(b));

it("styles, spoilt and packed again, change no reading but as they say", async () => {
  await holds(fc.tuple(anyGood, xmlSlips), 500, async ([workbook, xml]) => {
    const spoilt = withSpoilt(workbook, "xl/styles.xml", { xml });
    const read = await readBroken(spoilt.zip, workbook, textOf(spoilt.parts));
    if (read.fileRefused) return 0;
    const written = readingsOf(workbook.parts[workbook.sheet] as string);
    for (const test of read.chunks.flatMap((chunk) => chunk.tests)) {
      for (const { line, value } of test.readings) {
        const cell = written.get(line);
        const shows = cell && isPercent(spoilt.text, cell.style) ? 100 * cell.value : cell?.value;
        expect([line, value, about(value, shows ?? Number.NaN)]).toEqual([line, value, true]);
        expect(isPercent(spoilt.text, cell?.style ?? 0)).not.toBe(null);
      }
    }
    return read.rows.length;
  });
});

/** Where the rows of a sheet begin and end in its part, the first row first. */
const rowPlaces = (xml: string) =>
  [...xml.matchAll(/<row r="(\d+)">.*?<\/row>/g)].map(({ index, 0: whole, 1: line }) => ({
    line: Number(line),
    from: index,
    to: index + whole.length,
  }));

/** All numbers that stand anywhere in some XML, and those that they may be shown as where they are shares. */
function numbersIn(xml: string): ReadonlySet<number> {
  const written = xml
    .split(/[<>"=\s&;/!,:-]+/)
    .filter((word) => numeral.test(word))
    .map(Number);
  // A spreadsheet keeps 15 digits.
  return new Set(written.flatMap((n) => [n, n * 100].map((shown) => Number(shown.toPrecision(15)))));
}

it("a sheet spoilt and packed again gives no number that its row does not hold, and all rows that the slip did not touch", async () => {
  await holds(fc.tuple(anyGood, partSlips), 900, async ([workbook, slip]) => {
    const before = workbook.parts[workbook.sheet] as string;
    const spoilt = withSpoilt(workbook, workbook.sheet, slip);
    const read = await readBroken(spoilt.zip, workbook, textOf(spoilt.parts));
    if (read.fileRefused) return 0;
    const places = rowPlaces(before);
    const isTouched = ({ from, to }: { from: number; to: number }) => spoilt.from < to && spoilt.to > from;
    const touched = new Set(places.filter(isTouched).map(({ line }) => line));
    // The others of the merged area show what the first of them holds.
    if (touched.has(2)) for (const line of [3, 4, 5]) touched.add(line);
    const isInRows = spoilt.from >= (places[0]?.from ?? 0) && spoilt.to <= (places.at(-1)?.to ?? 0);
    // The header decides how every row is read, and what lies behind the rows joins cells of several.
    if (isInRows && !touched.has(1)) {
      const rows = new Set(said(read));
      const lost = [...workbook.rows].filter((row) => !touched.has(Number.parseInt(row, 10)) && !rows.has(row));
      expect(lost).toEqual([]);
    }
    const anywhere = numbersIn(textOf(spoilt.parts));
    const numbers = read.chunks.flatMap((chunk) =>
      chunk.tests.flatMap(({ meter, readings }) =>
        readings.flatMap(({ line, value, supply }) =>
          [value, meter, supply ?? value].map((number) => ({ line, number })),
        ),
      ),
    );
    const madeUp = numbers.filter(({ number }) => ![...anywhere].some((written) => about(number, written)));
    expect(madeUp).toEqual([]);
    return read.rows.length;
  });
});

it("shared texts, spoilt and packed again, change no number", async () => {
  await holds(fc.tuple(anyGood, partSlips), 400, async ([workbook, slip]) => {
    const spoilt = withSpoilt(workbook, "xl/sharedStrings.xml", slip);
    const read = await readBroken(spoilt.zip, workbook, textOf(spoilt.parts));
    if (read.fileRefused) return 0;
    const anywhere = numbersIn(textOf(spoilt.parts));
    for (const { meter, readings } of read.chunks.flatMap((chunk) => chunk.tests)) {
      for (const { value } of readings) {
        for (const number of [value, meter])
          expect([number, [...anywhere].some((written) => about(number, written))]).toEqual([number, true]);
      }
    }
    return read.rows.length;
  });
});
