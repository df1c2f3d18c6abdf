import { factAssembler } from "@/lib/intake/assemble.ts";
import { readFleetFile } from "@/lib/intake/read-file.ts";
import { type EngineModel, engineModelFileSchema } from "@/lib/schema/engine-model.ts";
import type { IntakeChunk, KnownFleet } from "@/lib/schema/intake.ts";
import type { CellCorrection, DelimiterName, Encoding } from "@/lib/schema/reading.ts";
import type { FileKind } from "@/lib/schema/words.ts";

/** Two models to judge rows by: a four-cylinder engine and a single. */
export const models: ReadonlyMap<string, EngineModel> = new Map(
  engineModelFileSchema
    .parse({
      schemaVersion: 1,
      engineModels: [
        {
          id: "four",
          cylinders: 4,
          compression: { newKpa: 1250, minimumKpa: 900 },
          leakDown: { watchPercent: 10, planPercent: 20, limitPercent: 30 },
        },
        { id: "single", cylinders: 1, leakDown: { watchPercent: 10, planPercent: 20, limitPercent: 30 } },
      ],
    })
    .engineModels.map((model) => [model.id, model]),
);

export const noFleet: KnownFleet = { models, units: new Map(), today: null };

async function* pieces(given: readonly (Uint8Array | string)[]) {
  yield* given;
}

interface TextToRead {
  readonly file?: string;
  readonly known?: KnownFleet;
  readonly kind?: FileKind;
  readonly encoding?: Encoding;
  readonly delimiter?: DelimiterName;
  readonly corrections?: readonly CellCorrection[];
}

/** Reads a file given as text, bytes or pieces of them. */
export async function readChunks(
  given: string | Uint8Array | readonly (Uint8Array | string)[],
  { file = "a.csv", known = noFleet, ...how }: TextToRead = {},
): Promise<readonly IntakeChunk[]> {
  const source = pieces(Array.isArray(given) ? given : [given as string | Uint8Array]);
  const chunks: IntakeChunk[] = [];
  for await (const chunk of readFleetFile({ source, file, known, ...how })) chunks.push(chunk);
  return chunks;
}

/** All that the chunks of a file gave, in one. */
export function joinChunks(chunks: readonly IntakeChunk[]) {
  const last = chunks[chunks.length - 1];
  if (last === undefined) throw new Error("a file always gives a chunk");
  return {
    kind: last.kind,
    rows: last.rows,
    bytes: last.bytes,
    fileRefused: last.fileRefused,
    readAs: last.readAs,
    tests: chunks.flatMap((c) => c.tests),
    units: chunks.flatMap((c) => c.units),
    depots: chunks.flatMap((c) => c.depots),
    repairs: chunks.flatMap((c) => c.repairs),
    meterReadings: chunks.flatMap((c) => c.meterReadings),
    checks: chunks.flatMap((c) => c.checks),
    judgements: chunks.flatMap((c) => c.judgements),
    models: chunks.flatMap((c) => c.models),
    issues: chunks.flatMap((c) => c.issues),
    words: chunks.flatMap((c) => c.issues.map((issue) => issue.words)),
  };
}

export const readText = async (given: Parameters<typeof readChunks>[0], options: TextToRead = {}) =>
  joinChunks(await readChunks(given, options));

/** The files a.csv, b.csv …, judged together as `assess` judges them. */
export async function assembled(...texts: readonly string[]) {
  const assembler = factAssembler(noFleet);
  for (const [i, text] of texts.entries()) {
    for (const chunk of await readChunks(text, { file: `${"abcdef"[i]}.csv` })) assembler.add(chunk);
  }
  return assembler.finish();
}

/** A row of the long layout that nothing is wrong with; change what the test is about. */
export const goodRow = {
  unit: "V-1",
  engine_model: "four",
  test_date: "2026-03-02",
  meter: "4180",
  meter_unit: "km",
  test: "leak-down",
  cylinder: "1",
  value: "12.5",
  value_unit: "%",
};

/** A CSV file of rows given by column; all rows have the columns of all. */
export function csvOf(rows: readonly Readonly<Record<string, string>>[]): string {
  const columns = [...new Set(rows.flatMap((row) => Object.keys(row)))];
  const line = (cells: readonly string[]) =>
    cells.map((cell) => (/[",\r\n]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell)).join(",");
  return [line(columns), ...rows.map((row) => line(columns.map((c) => row[c] ?? "")))].map((l) => `${l}\n`).join("");
}
