import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { decodeWindows1252, encodingWatch } from "@/lib/intake/encoding.ts";
import { readText } from "./read-text.ts";

const utf8 = (text: string) => new TextEncoder().encode(text);
const utf16 = (text: string, littleEndian: boolean) => {
  const bytes = new Uint8Array(2 * text.length);
  const view = new DataView(bytes.buffer);
  for (let i = 0; i < text.length; i++) view.setUint16(2 * i, text.charCodeAt(i), littleEndian);
  return bytes;
};
const latin = (text: string) => Uint8Array.from(text, (letter) => letter.charCodeAt(0));

function encodingOf(bytes: Uint8Array, pieceLength = bytes.length + 1) {
  const watch = encodingWatch();
  for (let at = 0; at < bytes.length; at += pieceLength) watch.see(bytes.subarray(at, at + pieceLength));
  return watch.encoding();
}

const table = "unit,remarks\nV-1,ok\n";

describe("the encoding of a file", () => {
  it.each<[string, Uint8Array, string]>([
    ["nothing", new Uint8Array(0), "utf-8"],
    ["ASCII alone", utf8(table), "utf-8"],
    ["letters of UTF-8", utf8(`${table}V-2,usé à 900 kPa €\n`), "utf-8"],
    ["a mark of UTF-8", utf8(`\ufeff${table}`), "utf-8"],
    ["a mark of UTF-16", utf16(`\ufeff${table}`, true), "utf-16le"],
    ["the other mark of UTF-16", utf16(`\ufeff${table}`, false), "utf-16be"],
    ["UTF-16 without a mark", utf16(table, true), "utf-16le"],
    ["the other UTF-16 without a mark", utf16(table, false), "utf-16be"],
    ["UTF-16 with as many figures as other letters", utf16("узел;1,25;12,5;31.12.2026\n".repeat(9), true), "utf-16le"],
    ["letters of Windows-1252", latin(`${table}V-2,us\xe9 \x80\n`), "windows-1252"],
    ["a letter of Windows-1252 as the very last byte", latin(`${table}V-2,us\xe9`), "windows-1252"],
    ["letters of UTF-8, the last one cut off", utf8(`${table}V-2,é`).slice(0, -1), "windows-1252"],
    ["many letters of UTF-8, the last one cut off", utf8(`${table}V-2,é and é`).slice(0, -1), "utf-8"],
    ["as many letters of the one as of the other", Uint8Array.from([...utf8("é"), 0x2c, 0xe9, 0x2c]), "utf-8"],
    ["bytes that Windows-1252 has no letter for", latin("a\x81\xe9b"), "utf-8"],
    ["controls that no text holds", latin("a\x01\xe9b"), "utf-8"],
    ["an overlong letter", latin("a,\xc0\xaf,b"), "windows-1252"],
    ["half of a pair, as UTF-8 forbids it", latin("\xed\xa0\x80"), "windows-1252"],
  ])("%s", (_name, bytes, encoding) => {
    expect(encodingOf(bytes)).toBe(encoding);
  });

  it("is the same however the bytes come", () => {
    const text = fc.oneof(fc.string({ unit: "binary", maxLength: 60 }).map(utf8), fc.uint8Array({ maxLength: 60 }));
    fc.assert(
      fc.property(text, fc.integer({ min: 1, max: 7 }), (bytes, length) => {
        expect(encodingOf(bytes, length)).toBe(encodingOf(bytes));
      }),
    );
  });

  it("is UTF-8 exactly where a strict decoder takes the bytes, a byte order mark and zero bytes aside", () => {
    const bytes = fc.array(fc.integer({ min: 0x09, max: 0xff }), { maxLength: 12 }).map((b) => Uint8Array.from(b));
    const isUtf8 = (b: Uint8Array) => {
      try {
        return new TextDecoder("utf-8", { fatal: true }).decode(b) !== null;
      } catch {
        return false;
      }
    };
    fc.assert(
      fc.property(bytes, (b) => {
        fc.pre(!(b[0] === 0xff && b[1] === 0xfe) && !(b[0] === 0xfe && b[1] === 0xff));
        if (isUtf8(b)) expect(encodingOf(b)).toBe("utf-8");
        if (encodingOf(b) === "windows-1252") expect(isUtf8(b)).toBe(false);
      }),
      { numRuns: 2000 },
    );
  });
});

describe("Windows-1252", () => {
  it("has its own letters between 80 and 9F, and those of ISO 8859-1 elsewhere", () => {
    expect(decodeWindows1252(Uint8Array.from([0x80, 0x96, 0x9f, 0xe9, 0x41]))).toBe("€–ŸéA");
    const all = Uint8Array.from({ length: 20_000 }, (_, i) => i % 256);
    expect(decodeWindows1252(all)).toHaveLength(20_000);
  });

  it("is read where it is said, and mentioned", async () => {
    const bytes = latin("unit,reading_date,meter\nV-\xe9,2026-01-01,5\n");
    const { meterReadings, words } = await readText(bytes, { encoding: "windows-1252" });
    expect(meterReadings).toMatchObject([{ unit: "V-é" }]);
    expect(words).toEqual(["the text is read as Windows-1252"]);
    expect((await readText(bytes)).words).toEqual([expect.stringMatching(/not UTF-8 text/)]);
  });
});
