import fc from "fast-check";
import { expect, it } from "vitest";
import { readFleetFile } from "@/lib/intake/read-file.ts";
import { keptAgainstFile } from "@/lib/layout/kept-against-file.ts";
import type { Layout } from "@/lib/layout/layout.ts";
import { suggestLayout } from "@/lib/layout/suggest.ts";
import type { IntakeChunk } from "@/lib/schema/intake.ts";
import { answeredAs, bytesOf, context, expectedOf, files, known, sampleOf, suggestFor } from "../lib/layout/corpus.ts";
import { readingsOf } from "../lib/layout/made-up.ts";
import { mutations, spoil, touchedLines } from "./mutations.ts";
import { faultsOfRead } from "./verdict.ts";

/**
 * Other people's files, broken: read as suggested, and by a layout that was kept of the file as it was. Either ends with a
 * result, a question or a clear refusal, and no reading of a row that the slip did not touch comes out as another.
 */

const seed = 20_260_630;
/** Generous: one case takes a few milliseconds. Longer is a hang in the making. */
const longestCaseMs = 5_000;

interface Good {
  readonly name: string;
  readonly bytes: Uint8Array;
  /** Lines, from 1, up to that of the headings: they decide how every row is read. */
  readonly headerLines: number;
  /** What its rows read as, whatever is asked. */
  readonly expected: ReadonlySet<string>;
  /** By which it is read whole; null: its questions have no answer. */
  readonly kept: Layout | null;
  /** Lines that a row takes at most. */
  readonly rowLines: number;
  /** Rows hang on others above them: merged cells, titles between sheets, headings that come again. */
  readonly isChained: boolean;
}

async function* once(bytes: Uint8Array) {
  yield bytes;
}

async function read(bytes: Uint8Array, layout: Layout) {
  const chunks: IntakeChunk[] = [];
  for await (const chunk of readFleetFile({ source: once(bytes), file: "sheet.csv", known, layout }))
    chunks.push(chunk);
  const fileRefused = chunks.some((chunk) => chunk.fileRefused);
  const issues = chunks.flatMap((chunk) => chunk.issues);
  const tests = fileRefused ? [] : chunks.flatMap((chunk) => chunk.tests);
  const readings = tests.flatMap((test) =>
    test.readings.map((reading) => ({
      line: reading.line,
      said: readingsOf({ tests: [{ ...test, readings: [reading] }] })[0] as string,
    })),
  );
  return { chunks, rows: [], issues, fileRefused, readings };
}

async function prepared(name: string): Promise<Good> {
  const bytes = bytesOf(name);
  const suggestion = await suggestFor(name);
  const { layout } = suggestion;
  const { answers, readings, unread } = expectedOf(name);
  const text = new TextDecoder().decode(bytes);
  const lines = text.split(/\r\n|\r|\n/);
  const first = layout?.columns.find(({ header }) => header.trim() !== "")?.header ?? "";
  // Of two header rows the lower one counts.
  const at = lines.findIndex((line) => line.replaceAll('"', "").startsWith(first.split(" ")[0] ?? ""));
  return {
    name,
    bytes,
    headerLines: at + (layout?.headerRows ?? 1),
    expected: new Set([...readings, ...unread]),
    kept: answeredAs(suggestion, answers),
    rowLines: 1 + Math.max(0, ...(text.match(/"[^"]*"/g) ?? []).map((cell) => cell.split("\n").length - 1)),
    isChained:
      lines.lastIndexOf(lines[at] ?? "") > at ||
      (layout?.title.length ?? 0) > 0 ||
      (layout?.columns.some((column) => column.is === "field" && column.carriedDown) ?? false),
  };
}

/** Whether a reading says nothing that is not expected of it; a column that a slip left out may be missing. */
const isExpected = (said: string, expected: ReadonlySet<string>): boolean => {
  const [reading, ...more] = said.split(", ");
  return [...expected].some((text) => {
    const [own, ...others] = text.split(", ");
    return own === reading && more.every((part) => others.includes(part));
  });
};

/** Readings of rows that the slip did not touch and that come out otherwise than they are written. */
function wrong(
  good: Good,
  touched: ReturnType<typeof touchedLines>,
  readings: Awaited<ReturnType<typeof read>>["readings"],
) {
  if (touched.first <= good.headerLines) return [];
  return readings.filter(({ line, said }) => {
    const isUntouched =
      line + good.rowLines <= touched.first || (!good.isChained && line > touched.last + touched.moved);
    return isUntouched && !isExpected(said, good.expected);
  });
}

const goods = Promise.all(files.map(prepared));

it("is tried with all files of other people's layouts, each with its headings found", async () => {
  for (const good of await goods) expect([good.name, good.headerLines > 0]).toEqual([good.name, true]);
  expect((await goods).filter(({ kept }) => kept !== null).length).toBeGreaterThan(30);
});

it("holds for other people's files, read as suggested and by a kept layout", async () => {
  const all = await goods;
  const taken = { suggested: 0, kept: 0 };
  const good = fc.integer({ min: 0, max: all.length - 1 });
  const property = fc.asyncProperty(good, mutations, async (which, wanted) => {
    const file = all[which] as Good;
    const spoilt = spoil(file.bytes, wanted);
    const touched = touchedLines(file.bytes, spoilt);
    const text = new TextDecoder().decode(spoilt.bytes);
    const begun = performance.now();
    const sample = await sampleOf(spoilt.bytes);
    if (sample === null) return;
    const { layout, questions, isContract } = suggestLayout(sample, context);
    if (layout === null) expect(isContract || questions.some(({ needed }) => needed)).toBe(true);
    else {
      const found = await read(spoilt.bytes, layout);
      expect(faultsOfRead(found, text)).toEqual([]);
      // A file with a question that rows hang on is not read.
      if (!questions.some(({ needed }) => needed)) {
        expect([file.name, wrong(file, touched, found.readings)]).toEqual([file.name, []]);
        taken.suggested += found.readings.length;
      }
    }
    if (file.kept !== null) {
      const checked = keptAgainstFile({ name: "kept", layout: file.kept }, sample, context);
      const found = await read(spoilt.bytes, checked.layout);
      expect(faultsOfRead(found, text)).toEqual([]);
      if (checked.questions.length === 0) {
        expect([file.name, wrong(file, touched, found.readings)]).toEqual([file.name, []]);
        taken.kept += found.readings.length;
      }
    }
    expect(performance.now() - begun).toBeLessThan(longestCaseMs);
  });
  await fc.assert(property, { seed, numRuns: 3_000 });
  // Most of it is read all the same.
  expect(taken.suggested).toBeGreaterThan(5_000);
  expect(taken.kept).toBeGreaterThan(5_000);
}, 600_000);
