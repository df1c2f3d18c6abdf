import type { Encoding } from "../schema/reading.ts";
import { decodeWindows1252 } from "./encoding.ts";

/**
 * A file's bytes to text in blocks. Blocks are cut at fixed places of the text, so nothing that later stages do can
 * depend on how the bytes arrived.
 */

export type FileSource = AsyncIterable<Uint8Array | string> | ReadableStream<Uint8Array>;

/** Why a file cannot be read at all. Those from `archive` on are of workbooks (lib/intake/workbook). */
export type Unreadable =
  | "not-utf8"
  | "not-utf16"
  | "pdf"
  | "compressed"
  | "binary"
  | "archive"
  | "workbook-old"
  | "workbook-locked"
  | "workbook-damaged"
  | "workbook-too-large"
  | "workbook-swells"
  | "workbook-empty"
  | "no-such-sheet";

export type TextBlock =
  | { readonly ok: true; readonly text: string; readonly bytes: number; readonly last: boolean }
  | { readonly ok: false; readonly error: Unreadable; readonly about: string; readonly bytes: number };

/** Thrown by a source that cannot be read as what it claims to be; `about` is what the sentence needs to name. */
export class UnreadableFile extends Error {
  readonly reason: Unreadable;
  readonly about: string;
  constructor(reason: Unreadable, about = "") {
    super(reason);
    this.reason = reason;
    this.about = about;
  }
}

/** Characters in a block: some thousands of rows, so that progress is smooth and memory small. */
const blockLength = 1 << 18;
/** Bytes that tell an encoding or a kind of file apart. */
const signatureLength = 4;

const signatures: readonly (readonly [readonly number[], Unreadable])[] = [
  [[0x50, 0x4b, 0x03, 0x04], "archive"],
  [[0xd0, 0xcf, 0x11, 0xe0], "workbook-old"],
  [[0x25, 0x50, 0x44, 0x46], "pdf"],
  [[0x1f, 0x8b], "compressed"],
];

const startsWith = (bytes: Uint8Array, start: readonly number[]) => start.every((b, i) => bytes[i] === b);

/** What turns bytes into text, piece by piece; throws where they are not text of its encoding. */
interface Decoding {
  readonly decode: (piece: Uint8Array, options: { stream: boolean }) => string;
  readonly error: Unreadable;
}

function decodingOf(encoding: Encoding): Decoding {
  if (encoding === "windows-1252") return { decode: decodeWindows1252, error: "binary" };
  const decoder = new TextDecoder(encoding, { fatal: true });
  return {
    decode: (piece, options) => decoder.decode(piece, options),
    error: encoding === "utf-8" ? "not-utf8" : "not-utf16",
  };
}

/** UTF-16 by its byte order mark, else UTF-8: nothing is guessed from a file's beginning, and a wrong byte is an error. */
function encodingOf(start: Uint8Array): Encoding {
  if (startsWith(start, [0xff, 0xfe])) return "utf-16le";
  return startsWith(start, [0xfe, 0xff]) ? "utf-16be" : "utf-8";
}

/** The pieces of a source as they come; a stream that is not read to its end is cancelled. */
export async function* piecesOf(source: FileSource): AsyncGenerator<Uint8Array | string> {
  if (!("getReader" in source)) {
    yield* source;
    return;
  }
  const reader = source.getReader();
  let done = false;
  try {
    for (;;) {
      const next = await reader.read();
      done = next.done;
      if (next.done) return;
      yield next.value;
    }
  } finally {
    if (!done) await reader.cancel();
    reader.releaseLock();
  }
}

const join = (a: Uint8Array, b: Uint8Array) => {
  const both = new Uint8Array(a.length + b.length);
  both.set(a);
  both.set(b, a.length);
  return both;
};

/**
 * The text of a file in blocks; the last one says so (and may be empty). Pieces are bytes or text already decoded, whose
 * characters then count as bytes. `encoding`: that of the bytes; left out, UTF-8, or UTF-16 with a byte order mark. A
 * file that is not text, and one whose source throws `UnreadableFile`, ends with `ok: false`: blocks that came before it
 * must not count.
 */
export async function* textBlocks(source: FileSource, encoding?: Encoding): AsyncGenerator<TextBlock> {
  let bytes = 0;
  let text = "";
  let atStart = true;
  let start = new Uint8Array(0);
  let decoding: Decoding | null = null;

  /** Text of the bytes so far; throws `UnreadableFile`, caught below. */
  const decode = (piece: Uint8Array, last: boolean): string => {
    if (decoding === null) {
      start = join(start, piece);
      if (start.length < signatureLength && !last) return "";
      const known = signatures.find(([signature]) => startsWith(start, signature));
      if (known !== undefined) throw new UnreadableFile(known[1]);
      decoding = decodingOf(encoding ?? encodingOf(start));
      piece = start;
    }
    try {
      return decoding.decode(piece, { stream: !last });
    } catch {
      throw new UnreadableFile(decoding.error);
    }
  };
  const take = (piece: string) => {
    if (piece.includes("\0")) throw new UnreadableFile("binary");
    text += atStart && piece.startsWith("\ufeff") ? piece.slice(1) : piece;
    if (piece !== "") atStart = false;
  };

  try {
    for await (const piece of piecesOf(source)) {
      bytes += piece.length;
      take(typeof piece === "string" ? piece : decode(piece, false));
      let from = 0;
      for (; text.length - from > blockLength; from += blockLength) {
        yield { ok: true, text: text.slice(from, from + blockLength), bytes, last: false };
      }
      if (from > 0) text = text.slice(from);
    }
    take(decode(new Uint8Array(0), true));
  } catch (error) {
    if (!(error instanceof UnreadableFile)) throw error;
    yield { ok: false, error: error.reason, about: error.about, bytes };
    return;
  }
  yield { ok: true, text, bytes, last: true };
}
