import { readdirSync, readFileSync } from "node:fs";
import path from "node:path";
import { z } from "zod";
import { sampleFile } from "@/lib/intake/sample-file.ts";
import { answered } from "@/lib/layout/answer.ts";
import type { Layout } from "@/lib/layout/layout.ts";
import { suggestLayout } from "@/lib/layout/suggest.ts";
import { questionCodes, type SuggestContext, type Suggestion } from "@/lib/layout/suggestion.ts";
import { engineModelFileSchema } from "@/lib/schema/engine-model.ts";
import type { KnownFleet } from "@/lib/schema/intake.ts";

/** The files of tests/layouts with what they must read as. */

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
  /** What the file holds besides, though no answer makes it readable. */
  unread: z.array(z.string()).default([]),
});

export const files = readdirSync(folder).filter((name) => /\.(csv|tsv|txt)$/.test(name));
export const bytesOf = (name: string) => new Uint8Array(readFileSync(path.join(folder, name)));
export const expectedOf = (name: string) =>
  expectedSchema.parse(JSON.parse(readFileSync(path.join(folder, name.replace(/\.\w+$/, ".json")), "utf8")));

const today = "2026-06-30";
const { engineModels } = engineModelFileSchema.parse({
  schemaVersion: 1,
  engineModels: [{ id: "petrol-4-a", cylinders: 4, compression: { newKpa: 1250, minimumKpa: 900 } }],
});
export const known: KnownFleet = {
  models: new Map(engineModels.map((model) => [model.id, model])),
  units: new Map(),
  today,
};
export const context: SuggestContext = { today, models: new Set(known.models.keys()), units: new Map() };

async function* pieces(bytes: Uint8Array) {
  yield bytes;
}
/** null: it is no text. */
export const sampleOf = (bytes: Uint8Array) => sampleFile({ source: pieces(bytes) });

/** The layout of a suggestion once a person has answered what the file leaves open; null: an answer does not fit. */
export const answeredAs = (
  { layout, questions }: Suggestion,
  answers: readonly (readonly [code: string, value: string])[],
): Layout | null =>
  answers.reduce<Layout | null>((told, [code, value]) => {
    const question = questions.find((asked) => asked.code === code);
    return told === null || question === undefined ? null : answered(told, question, value);
  }, layout);

export async function suggestFor(name: string): Promise<Suggestion> {
  const sample = await sampleOf(bytesOf(name));
  if (sample === null) throw new Error(`${name} is not text`);
  return suggestLayout(sample, context);
}
