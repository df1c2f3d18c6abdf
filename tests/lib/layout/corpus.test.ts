import { expect, it } from "vitest";
import { headerKey, headerKeys } from "@/lib/layout/header-key.ts";
import { type Layout, layoutSchema } from "@/lib/layout/layout.ts";
import { answeredAs, bytesOf, expectedOf, files, known, sampleOf, suggestFor } from "./corpus.ts";
import { readByLayout, readingsOf } from "./made-up.ts";

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
  const sample = await sampleOf(bytesOf(name));
  const { layout } = await suggestFor(name);
  const key = headerKey((layout?.columns ?? []).map(({ header }) => header));
  expect(headerKeys(sample?.records ?? [])).toContain(key);
});

it.each(files)("%s asks what it leaves open, and nothing else", async (name) => {
  const { questions } = await suggestFor(name);
  expect(questions.map(({ code }) => code).sort()).toEqual([...expectedOf(name).questions].sort());
});

it.each(files)("%s is never read wrong by the suggestion alone", async (name) => {
  const { layout, questions } = await suggestFor(name);
  const expected = expectedOf(name);
  const { readings } = layout === null ? { readings: [] } : await readBy(name, layoutSchema.parse(layout));
  expect(expected.readings).toEqual(expect.arrayContaining(readings));
  if (readings.length < expected.readings.length) expect(questions.some(({ needed }) => needed)).toBe(true);
});

it.each(files.filter((name) => expectedOf(name).readings.length > 0))(
  "%s is read whole once its questions are answered",
  async (name) => {
    const expected = expectedOf(name);
    const told = answeredAs(await suggestFor(name), expected.answers);
    expect(told).not.toBeNull();
    expect(await readBy(name, told as Layout)).toEqual({
      readings: [...expected.readings].sort(),
      refusedLines: expected.refusedLines,
    });
  },
);
