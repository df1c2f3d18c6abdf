import fc from "fast-check";

/** Ways to spoil the bytes of a file, and which of its lines they touch. */

/** `length` bytes from `at` on give way to `put`; with `inCell`, from the beginning of the cell that lies there. */
interface Mutation {
  readonly inCell: boolean;
  /** Place in the file, as a share of its length. */
  readonly at: number;
  readonly length: number;
  readonly put: Uint8Array;
}

export interface Spoilt {
  readonly bytes: Uint8Array;
  /** Where the first mutation begins and the last one ends, in bytes of the file as it was. */
  readonly from: number;
  readonly to: number;
}

/** What spreadsheets, slips and ill will put into cells. */
export const hostileTexts = [
  ...[
    '"',
    '""',
    '",',
    ',"',
    "'",
    ",",
    ";",
    "\t",
    "|",
    "\n",
    "\r",
    "\r\n",
    "\n\n",
    '"\n"',
    '\n"',
    "\0",
    "\u0007",
    "\u001b[31m",
  ],
  ...[
    "=1+1",
    "=HYPERLINK(0)",
    "+1",
    "-1",
    "@x",
    "<script>alert(1)</script>",
    "<b>",
    "&amp;",
    "$x",
    "{{x}}",
    "%00",
    "%s",
  ],
  ...["__proto__", "constructor", "toString", "hasOwnProperty", "null", "undefined", "true", "[object Object]"],
  ...["../../etc", "C:\\nul", "/", "\\", ".", "..", "NaN", "Infinity", "-Infinity", "1e309", "-1e309", "1e-400", "1e3"],
  ...[
    "0x10",
    "0b1",
    "1_000",
    "1,000",
    "1.000,5",
    "12,5",
    "١٢",
    "１２",
    "²",
    "½",
    "−5",
    "\u00a0",
    "\u200b",
    "\ufeff",
    "\u202e",
  ],
  ...["2025-02-30", "0000-00-00", "9999-12-31", "2025-13-01", "31.12.2025", "12/31/25", "45123", "n/a", "-", "--", "?"],
  ...["", " ", "9007199254740993", "99999999999999999999", "-0", "1e+2", ".5", "5.", "12 %", "175psi", "76/80"],
  ...["unit", "value", "cyl_1", "cyl_17", "cyl_01", "{", "[", "[]", "\ud83d\ude00", "e\u0301", "x".repeat(300)],
] as const;

const encode = (text: string) => new TextEncoder().encode(text);

const put: fc.Arbitrary<Uint8Array> = fc.oneof(
  // The likeliest slip to reach beyond its own line.
  { weight: 2, arbitrary: fc.constant(encode('"')) },
  { weight: 6, arbitrary: fc.constantFrom(...hostileTexts).map(encode) },
  { weight: 2, arbitrary: fc.uint8Array({ minLength: 1, maxLength: 6 }) },
  { weight: 2, arbitrary: fc.string({ unit: "grapheme", maxLength: 8 }).map(encode) },
  { weight: 2, arbitrary: fc.constant(new Uint8Array(0)) },
);

const mutation: fc.Arbitrary<Mutation> = fc.record({
  // Not a double: of these, most lie next to 0.
  at: fc.integer({ min: 0, max: 1_000_000 }).map((millionths) => millionths / 1_000_000),
  length: fc.oneof(
    { weight: 4, arbitrary: fc.constant(0) },
    { weight: 4, arbitrary: fc.integer({ min: 1, max: 4 }) },
    { weight: 2, arbitrary: fc.integer({ min: 5, max: 120 }) },
    // To the end: the file is cut off.
    { weight: 1, arbitrary: fc.constant(Number.MAX_SAFE_INTEGER) },
  ),
  put,
  inCell: fc.boolean(),
});

/** Mostly one slip, for then all other lines must come through. */
export const mutations: fc.Arbitrary<readonly Mutation[]> = fc.oneof(
  { weight: 3, arbitrary: mutation.map((m) => [m]) },
  { weight: 1, arbitrary: fc.array(mutation, { minLength: 2, maxLength: 5 }) },
);

const cellEnds = new Set(encode(",;\t|\n\r"));
function cellStart(bytes: Uint8Array, at: number): number {
  let start = at;
  while (start > 0 && !cellEnds.has(bytes[start - 1] as number)) start -= 1;
  return start;
}

/** The file with the mutations; one that begins within another gives way. */
export function spoil(good: Uint8Array, wanted: readonly Mutation[]): Spoilt {
  const placed = wanted
    .map(({ at, length, put: bytes, inCell }) => {
      const place = Math.floor(at * good.length);
      const from = inCell ? cellStart(good, place) : place;
      return { from, to: Math.min(good.length, from + length), bytes };
    })
    .sort((a, b) => a.from - b.from);
  const parts: Uint8Array[] = [];
  let taken = 0;
  for (const { from, to, bytes } of placed) {
    if (from < taken) continue;
    parts.push(good.subarray(taken, from), bytes);
    taken = to;
  }
  parts.push(good.subarray(taken));
  return { bytes: new Uint8Array(Buffer.concat(parts)), from: placed[0]?.from ?? 0, to: taken };
}

const lineBreaks = /\r\n|\r|\n/g;
const countBreaks = (text: string) => text.match(lineBreaks)?.length ?? 0;

/** The lines, from 1, that a mutation touched, and by how many those after them moved. */
export function touchedLines(good: Uint8Array, { bytes, from, to }: Spoilt) {
  const text = (part: Uint8Array) => new TextDecoder("utf-8", { ignoreBOM: true }).decode(part);
  const first = 1 + countBreaks(text(good.subarray(0, from)));
  // A line break right after the last byte ends the line that was touched.
  const last = 1 + countBreaks(text(good.subarray(0, to)));
  return { first, last, moved: countBreaks(text(bytes)) - countBreaks(text(good)) };
}
