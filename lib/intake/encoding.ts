import type { Encoding } from "../schema/reading.ts";

/** UTF-16 without a byte order mark is told by the zero bytes of its ASCII letters; so many bytes are looked at. */
const zerosLookedAt = 1 << 16;
/** At least this share of the letters has a zero byte on one side, and hardly any on the other. */
const leastZeroShare = 0.4;
const mostOnOtherSide = 0.05;

/** Bytes that Windows-1252 has no letter for, and controls that no text holds (tab, line breaks and form feed do occur). */
const noLetter = new Set([0x81, 0x8d, 0x8f, 0x90, 0x9d]);
const textControls = new Set([0x09, 0x0a, 0x0b, 0x0c, 0x0d]);
const isStrange = (byte: number) => (byte < 0x20 ? !textControls.has(byte) : byte === 0x7f || noLetter.has(byte));

export interface EncodingWatch {
  readonly see: (piece: Uint8Array) => void;
  readonly encoding: () => Encoding;
}

/**
 * Finds the encoding of a text from all its bytes, shown piece by piece. A byte order mark decides. Else zero bytes at
 * every other place mean UTF-16; else what is valid UTF-8 to the end is UTF-8; only what is not, and would be text as
 * Windows-1252, is that. Where as much is valid UTF-8 beyond ASCII as is not, nothing tells what was meant: `utf-8` is
 * the answer, as which the file cannot be read. A letter cut off at the very end of UTF-8 does not make it another
 * encoding either.
 */
export function encodingWatch(): EncodingWatch {
  const start: number[] = [];
  const zeros = [0, 0];
  let seen = 0;
  let strange = false;
  const utf8 = utf8Check();

  const see = (piece: Uint8Array): void => {
    for (let i = 0; start.length < 3 && i < piece.length; i++) start.push(piece[i] as number);
    for (let i = 0; seen + i < zerosLookedAt && i < piece.length; i++) {
      if (piece[i] === 0) zeros[(seen + i) % 2]! += 1;
    }
    seen += piece.length;
    utf8.see(piece);
    for (let i = 0; !strange && i < piece.length; i++) {
      const byte = piece[i] as number;
      if (byte < 0x20 || byte >= 0x7f) strange = isStrange(byte);
    }
  };
  const encoding = (): Encoding => {
    if (start[0] === 0xff && start[1] === 0xfe) return "utf-16le";
    if (start[0] === 0xfe && start[1] === 0xff) return "utf-16be";
    if (start[0] === 0xef && start[1] === 0xbb && start[2] === 0xbf) return "utf-8";
    const letters = Math.min(seen, zerosLookedAt) / 2;
    const [first = 0, second = 0] = zeros;
    const many = Math.max(2, leastZeroShare * letters);
    if (second >= many && first <= mostOnOtherSide * second) return "utf-16le";
    if (first >= many && second <= mostOnOtherSide * first) return "utf-16be";
    const { letters: valid, faults, open } = utf8.found();
    if (faults === 0 && (!open || valid > 0)) return "utf-8";
    return strange || valid >= faults + (open ? 1 : 0) ? "utf-8" : "windows-1252";
  };
  return { see, encoding };
}

/** What a lead byte of UTF-8 asks for: how many bytes follow, and the range of the first of them (RFC 3629, section 4). */
function leadOf(byte: number): { readonly more: number; readonly low: number; readonly high: number } | null {
  if (byte >= 0xc2 && byte <= 0xdf) return { more: 1, low: 0x80, high: 0xbf };
  if (byte >= 0xe0 && byte <= 0xef) {
    return { more: 2, low: byte === 0xe0 ? 0xa0 : 0x80, high: byte === 0xed ? 0x9f : 0xbf };
  }
  if (byte >= 0xf0 && byte <= 0xf4) {
    return { more: 3, low: byte === 0xf0 ? 0x90 : 0x80, high: byte === 0xf4 ? 0x8f : 0xbf };
  }
  return null;
}

/** Counts the letters beyond ASCII that are valid UTF-8, and the places that are not. `open`: one is cut off at the end. */
function utf8Check() {
  let letters = 0;
  let faults = 0;
  let more = 0;
  let low = 0x80;
  let high = 0xbf;
  const see = (piece: Uint8Array): void => {
    for (let i = 0; i < piece.length; i++) {
      const byte = piece[i] as number;
      if (more > 0) {
        if (byte >= low && byte <= high) {
          more -= 1;
          low = 0x80;
          high = 0xbf;
          if (more === 0) letters += 1;
          continue;
        }
        faults += 1;
        more = 0;
        // The byte that broke the letter may begin another one.
      }
      if (byte < 0x80) continue;
      const lead = leadOf(byte);
      if (lead === null) faults += 1;
      else ({ more, low, high } = lead);
    }
  };
  return { see, found: () => ({ letters, faults, open: more > 0 }) };
}

/** Where Windows-1252 differs from ISO 8859-1: the letters of the bytes 80 to 9F (as the WHATWG Encoding Standard has them). */
const from80 =
  "\u20ac\x81\u201a\u0192\u201e\u2026\u2020\u2021\u02c6\u2030\u0160\u2039\u0152\x8d\u017d\x8f" +
  "\x90\u2018\u2019\u201c\u201d\u2022\u2013\u2014\u02dc\u2122\u0161\u203a\u0153\x9d\u017e\u0178";
const windows1252 = Uint16Array.from({ length: 256 }, (_, byte) =>
  byte >= 0x80 && byte < 0xa0 ? from80.charCodeAt(byte - 0x80) : byte,
);
/** Arguments of one call; more would not fit on the stack of every engine. */
const lettersAtATime = 1 << 13;

/** Own table, because some versions of Node read Windows-1252 as ISO 8859-1. */
export function decodeWindows1252(bytes: Uint8Array): string {
  let text = "";
  for (let at = 0; at < bytes.length; at += lettersAtATime) {
    const piece = Uint16Array.from(bytes.subarray(at, at + lettersAtATime), (byte) => windows1252[byte] as number);
    text += String.fromCharCode(...piece);
  }
  return text;
}
