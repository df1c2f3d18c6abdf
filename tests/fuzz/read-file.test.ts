import fc from "fast-check";
import { expect, it } from "vitest";
import { demoFiles, demoParts, type GoodFile, modelsText, smallFiles } from "./good-files.ts";
import { mutations, spoil, touchedLines } from "./mutations.ts";
import { faultsOfRead, lastLines, numbersMadeUp, type Read, readBytes } from "./verdict.ts";

/**
 * Broken files by the ten thousand: whatever the bytes, intake ends with a result or a clear refusal, no row that the
 * slip did not touch is lost, and no number is stored that is not written in its row. A run that fails prints its seed
 * and the smallest file that it fails on.
 */

const seed = 20_260_630;
/** Generous: one case takes a millisecond. Longer is a hang in the making. */
const longestCaseMs = 5_000;

interface Good extends GoodFile {
  readonly bytes: Uint8Array;
  readonly read: Read;
}
async function prepared(files: readonly GoodFile[]): Promise<Good[]> {
  return Promise.all(
    files.map(async (file) => {
      const bytes = new TextEncoder().encode(file.text);
      // So that a counterexample tells the file by its name.
      return { ...file, bytes, read: await readBytes(bytes), [fc.toStringMethod]: () => file.name };
    }),
  );
}

/** The rows that lie on lines before `first` or after `last`, with the line on which they must stand now. */
function untouched({ read, text }: Good, { first, last, moved }: ReturnType<typeof touchedLines>) {
  const lastLine = lastLines(read.rows, text.split(/\r\n|\r|\n/).length);
  return read.rows
    .filter(({ line }) => line > last || (lastLine.get(line) ?? line) < first)
    .map(({ line, said }) => `${line > last ? line + moved : line} ${said}`);
}

/** Gives how many untouched rows were looked for. */
async function holds(good: Good, wanted: Parameters<typeof spoil>[1]): Promise<number> {
  const spoilt = spoil(good.bytes, wanted);
  const begun = performance.now();
  const read = await readBytes(spoilt.bytes);
  expect(performance.now() - begun).toBeLessThan(longestCaseMs);
  const text = new TextDecoder().decode(spoilt.bytes);
  expect(faultsOfRead(read, text)).toEqual([]);
  if (read.fileRefused) return 0;
  expect(numbersMadeUp(read, text)).toEqual([]);
  const touched = touchedLines(good.bytes, spoilt);
  // The header decides how every row is read.
  if (touched.first === 1) return 0;
  const taken = new Set(read.rows.map(({ line, said }) => `${line} ${said}`));
  const rows = untouched(good, touched);
  expect(rows.filter((row) => !taken.has(row))).toEqual([]);
  return rows.length;
}

it("reads the good files without a word, and every row of them", async () => {
  for (const { read, name, delimiter } of await prepared([...smallFiles, ...demoFiles])) {
    expect(read.issues.filter((issue) => issue.code !== "delimiter")).toEqual([]);
    expect([name, read.issues.length]).toEqual([name, delimiter === "," ? 0 : 1]);
    expect(read.rows.length).toBeGreaterThan(2);
  }
});

it.each([
  ["small files of every kind", smallFiles, 8_000],
  ["parts of the demo's files", demoParts, 5_000],
  ["the demo's files", demoFiles, 250],
])("holds for %s", async (_title, files, numRuns) => {
  const good = await prepared(files);
  let withRows = 0;
  const property = fc.asyncProperty(fc.constantFrom(...good), mutations, async (file, wanted) => {
    if ((await holds(file, wanted)) > 0) withRows += 1;
  });
  await fc.assert(property, { seed, numRuns });
  expect(withRows).toBeGreaterThan(numRuns / 2);
});

it("holds for lists of engine models and for text in UTF-16, of which no line can be told", async () => {
  const utf16 = smallFiles.map(({ text }) => new Uint8Array(Buffer.from(`\ufeff${text}`, "utf16le")));
  const files = [new TextEncoder().encode(modelsText), ...utf16];
  await fc.assert(
    fc.asyncProperty(fc.constantFrom(...files), mutations, async (bytes, wanted) => {
      const spoilt = spoil(bytes, wanted).bytes;
      expect(faultsOfRead(await readBytes(spoilt), Buffer.from(spoilt).toString("latin1"))).toEqual([]);
    }),
    { seed, numRuns: 2_000 },
  );
});

it("holds for bytes that were never a file", async () => {
  await fc.assert(
    fc.asyncProperty(fc.uint8Array({ maxLength: 2_000 }), async (bytes) => {
      expect(faultsOfRead(await readBytes(bytes), Buffer.from(bytes).toString("latin1"))).toEqual([]);
    }),
    { seed, numRuns: 2_000 },
  );
});
