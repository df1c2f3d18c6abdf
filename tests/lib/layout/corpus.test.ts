import { readdirSync, readFileSync } from "node:fs";
import path from "node:path";
import { expect, it } from "vitest";
import { z } from "zod";
import { sampleFile } from "@/lib/intake/sample-file.ts";
import { answered } from "@/lib/layout/answer.ts";
import { headerKey, headerKeys } from "@/lib/layout/header-key.ts";
import { type Layout, layoutSchema } from "@/lib/layout/layout.ts";
import { suggestLayout } from "@/lib/layout/suggest.ts";
import { questionCodes, type SuggestContext } from "@/lib/layout/suggestion.ts";
import { engineModelFileSchema } from "@/lib/schema/engine-model.ts";
import type { KnownFleet } from "@/lib/schema/intake.ts";
import { readByLayout, readingsOf } from "./made-up.ts";

const folder = path.resolve(import.meta.dirname, "../../layouts");
const expectedSchema = z.strictObject({
  about: z.string(),
  /** What stays open; a file with none of the needed ones is read by its suggestion alone. */
  questions: z.array(z.enum(questionCodes)),
  /** What a person answers, in that order. */
  answers: z.array(z.tuple([z.enum(questionCodes), z.string()])).default([]),
  refusedLines: z.array(z.int()),
  /** As they stand in the file once every question is answered. */
  readings: z.array(z.string()),
});

const files = readdirSync(folder).filter((name) => /\.(csv|tsv|txt)$/.test(name));
const bytesOf = (name: string) => readFileSync(path.join(folder, name));
const expectedOf = (name: string) =>
  expectedSchema.parse(JSON.parse(readFileSync(path.join(folder, name.replace(/\.\w+$/, ".json")), "utf8")));

const today = "2026-06-30";
const { engineModels } = engineModelFileSchema.parse({
  schemaVersion: 1,
  engineModels: [{ id: "petrol-4-a", cylinders: 4, compression: { newKpa: 1250, minimumKpa: 900 } }],
});
const known: KnownFleet = { models: new Map(engineModels.map((model) => [model.id, model])), units: new Map(), today };
const context: SuggestContext = { today, models: new Set(known.models.keys()), units: new Map() };

async function* pieces(bytes: Uint8Array) {
  yield bytes;
}
async function suggest(name: string) {
  const sample = await sampleFile({ source: pieces(bytesOf(name)) });
  if (sample === null) throw new Error(`${name} is not text`);
  return suggestLayout(sample, context);
}
async function readBy(name: string, layout: Layout) {
  const read = await readByLayout(bytesOf(name), layout, known);
  const refused = read.issues.filter(({ severity }) => severity === "refused");
  return { readings: readingsOf(read).sort(), refusedLines: [...new Set(refused.map(({ line }) => line))] };
}

it("holds at least 25 layouts, of which the suggestion alone reads at least 20", () => {
  expect(files.length).toBeGreaterThanOrEqual(25);
  const alone = files.filter((name) => expectedOf(name).answers.length === 0 && expectedOf(name).readings.length > 0);
  expect(alone.length).toBeGreaterThanOrEqual(20);
});

it.each(files)("%s is found again by its header", async (name) => {
  const sample = await sampleFile({ source: pieces(bytesOf(name)) });
  const { layout } = await suggest(name);
  const key = headerKey((layout?.columns ?? []).map(({ header }) => header));
  expect(headerKeys(sample?.records ?? [])).toContain(key);
});

it.each(files)("%s asks what it leaves open, and nothing else", async (name) => {
  const { questions } = await suggest(name);
  expect(questions.map(({ code }) => code).sort()).toEqual([...expectedOf(name).questions].sort());
});

it.each(files)("%s is never read wrong by the suggestion alone", async (name) => {
  const { layout, questions } = await suggest(name);
  const expected = expectedOf(name);
  const { readings } = layout === null ? { readings: [] } : await readBy(name, layoutSchema.parse(layout));
  expect(expected.readings).toEqual(expect.arrayContaining(readings));
  if (readings.length < expected.readings.length) expect(questions.some(({ needed }) => needed)).toBe(true);
});

it.each(files.filter((name) => expectedOf(name).readings.length > 0))(
  "%s is read whole once its questions are answered",
  async (name) => {
    const expected = expectedOf(name);
    const { layout, questions } = await suggest(name);
    let told = layout;
    for (const [code, value] of expected.answers) {
      const question = questions.find((asked) => asked.code === code);
      told = told === null || question === undefined ? null : answered(told, question, value);
    }
    expect(told).not.toBeNull();
    expect(await readBy(name, told as Layout)).toEqual({
      readings: [...expected.readings].sort(),
      refusedLines: expected.refusedLines,
    });
  },
);
