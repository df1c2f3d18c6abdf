import { createReadStream, readdirSync, readFileSync } from "node:fs";
import path from "node:path";
import { describe, expect, test } from "vitest";
import { kindsOfFile } from "@/app/_ui/import/file-kinds.ts";
import { factAssembler } from "@/lib/intake/assemble.ts";
import { readFleetFile } from "@/lib/intake/read-file.ts";
import type { IntakeChunk } from "@/lib/schema/intake.ts";
import { type FileKind, fileKinds } from "@/lib/schema/words.ts";

const folder = path.resolve(import.meta.dirname, "../../../public/samples");
const today = "2026-01-01";

async function chunksOf(kind: FileKind, models: IntakeChunk["models"]): Promise<IntakeChunk[]> {
  const file = kindsOfFile[kind].sample;
  const known = { models: new Map(models.map((model) => [model.id, model])), today };
  const chunks: IntakeChunk[] = [];
  const source = createReadStream(path.join(folder, file));
  for await (const chunk of readFleetFile({ source, file, known })) chunks.push(chunk);
  return chunks;
}

/** The units, depots, engine models and serials in a CSV file whose cells hold no commas up to them. */
function namesIn(where: string, file: string): string[] {
  const [header = [], ...rows] = readFileSync(path.join(where, file), "utf8")
    .split(/\r?\n/)
    .map((line) => line.split(","));
  const named = ["unit", "depot", "engine_model", "engine_serial"].map((column) => header.indexOf(column));
  return rows.flatMap((row) => named.map((at) => row[at] ?? "").filter((name) => name !== ""));
}

const sampleModels = async () => (await chunksOf("engine-models", [])).flatMap((chunk) => chunk.models);

describe("the samples to download", () => {
  test("each kind of file has one, and there are no others", () => {
    expect(readdirSync(folder).sort()).toEqual(fileKinds.map((kind) => kindsOfFile[kind].sample).sort());
  });

  test.each(fileKinds)("%s: read as what it is, with no row refused or warned of", async (kind) => {
    const chunks = await chunksOf(kind, await sampleModels());
    expect(chunks.at(-1)?.kind).toBe(kind);
    expect(chunks.at(-1)?.rows).toBeGreaterThan(0);
    expect(chunks.flatMap((chunk) => chunk.issues)).toEqual([]);
  });

  test("tell of nothing that the demo fleet tells of, so that they can be tried beside it", async () => {
    const demo = path.resolve(import.meta.dirname, "../../../demo-data");
    const known = new Set(readdirSync(demo).flatMap((name) => (name.endsWith(".csv") ? namesIn(demo, name) : [])));
    expect(known).toContain("Highcol");
    const samples = readdirSync(folder).flatMap((name) => (name.endsWith(".csv") ? namesIn(folder, name) : []));
    expect(samples).toContain("S-1");
    expect(samples.filter((name) => known.has(name))).toEqual([]);
  });

  test("agree with each other: all of them together make one fleet without a question", async () => {
    const models = await sampleModels();
    const assembler = factAssembler({ models: new Map(), units: new Map(), today });
    for (const kind of fileKinds) for (const chunk of await chunksOf(kind, models)) assembler.add(chunk);
    const { facts, issues } = assembler.finish();
    expect(issues).toEqual([]);
    expect(facts.units.map((unit) => unit.unit).sort()).toEqual(["S-1", "S-2", "S-3"]);
    expect(facts.tests.length).toBe(10);
  });
});
