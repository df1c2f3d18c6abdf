import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type FileSource, type TextBlock, textBlocks } from "@/lib/intake/text-blocks.ts";
import { readText } from "./read-text.ts";

const utf8 = (text: string) => new TextEncoder().encode(text);
const utf16 = (text: string, littleEndian: boolean) => {
  const bytes = new Uint8Array(2 * text.length + 2);
  const view = new DataView(bytes.buffer);
  for (const [i, unit] of [0xfeff, ...Array.from({ length: text.length }, (_, k) => text.charCodeAt(k))].entries()) {
    view.setUint16(2 * i, unit, littleEndian);
  }
  return bytes;
};

async function* cut(bytes: Uint8Array, sizes: readonly number[]) {
  let at = 0;
  for (let i = 0; at < bytes.length; i++) {
    const size = sizes[i % sizes.length] ?? 1;
    yield bytes.subarray(at, at + size);
    at += size;
  }
}

async function blocksOf(source: FileSource): Promise<readonly TextBlock[]> {
  const blocks: TextBlock[] = [];
  for await (const block of textBlocks(source)) blocks.push(block);
  return blocks;
}
const textOf = (blocks: readonly TextBlock[]) => blocks.map((b) => (b.ok ? b.text : `<${b.error}>`)).join("");

const sizes = fc.array(fc.integer({ min: 1, max: 9 }), { minLength: 1 });
const wellFormed = fc.string({ unit: "binary" }).map((s) => s.replaceAll("\0", "").replace(/^\ufeff+/, ""));

describe("text blocks", () => {
  it.each<[string, (text: string) => Uint8Array]>([
    ["UTF-8", (t) => utf8(t)],
    ["UTF-8 with a byte order mark", (t) => utf8(`\ufeff${t}`)],
    ["UTF-16 little endian", (t) => utf16(t, true)],
    ["UTF-16 big endian", (t) => utf16(t, false)],
  ])("give the text of %s however its bytes are cut", async (_name, encode) => {
    await fc.assert(
      fc.asyncProperty(wellFormed, sizes, async (text, cuts) => {
        fc.pre(!/^(PK|%PDF)/.test(text));
        expect(textOf(await blocksOf(cut(encode(text), cuts)))).toBe(text);
      }),
    );
  });

  it("are cut at the same places whatever the pieces, and count the bytes", async () => {
    const bytes = utf8("é0123456789".repeat(60_000));
    const small = await blocksOf(cut(bytes, [1_000]));
    const large = await blocksOf(cut(bytes, [1_000_000]));
    expect(small.map((b) => (b.ok ? b.text : ""))).toEqual(large.map((b) => (b.ok ? b.text : "")));
    expect(small.length).toBeGreaterThan(1);
    expect(small.at(-1)).toMatchObject({ bytes: bytes.length, last: true });
  });

  it("come from a web stream too, which is cancelled when nobody reads on", async () => {
    let cancelled = false;
    const stream = new ReadableStream<Uint8Array>({
      pull: (controller) => controller.enqueue(utf8("x".repeat(1 << 19))),
      cancel: () => {
        cancelled = true;
      },
    });
    for await (const block of textBlocks(stream)) {
      expect(block.ok).toBe(true);
      break;
    }
    expect(cancelled).toBe(true);
  });

  it.each<[string, Uint8Array, RegExp]>([
    ["windows-1252", new Uint8Array([0x75, 0x6e, 0xe9, 0x3b, 0x0a]), /not UTF-8 text/],
    ["half a character at the end", new Uint8Array([0x75, 0xc3]), /not UTF-8 text/],
    ["half of a UTF-16 pair", new Uint8Array([0xff, 0xfe, 0x00, 0xd8, 0x41, 0x00]), /UTF-16/],
    ["an archive", new Uint8Array([0x50, 0x4b, 3, 4, 0, 0]), /an archive/],
    ["an old workbook", new Uint8Array([0xd0, 0xcf, 0x11, 0xe0, 0, 0]), /workbook of an older kind/],
    ["a PDF", utf8("%PDF-1.7"), /PDF/],
    ["a compressed file", new Uint8Array([0x1f, 0x8b, 8, 0, 0]), /compressed/],
    ["zero bytes", utf8("unit\0,x"), /not text/],
  ])("refuse %s as a whole, in words", async (_name, bytes, words) => {
    const read = await readText(bytes);
    expect(read.fileRefused).toBe(true);
    expect(read.words).toEqual([expect.stringMatching(words)]);
  });
});
