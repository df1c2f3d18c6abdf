import { expect, test } from "vitest";
import { glossary, glossaryWords } from "@/lib/glossary.ts";

test("each meaning is one short line that ends as a sentence, and each word stands once", () => {
  for (const { word, meaning } of glossaryWords) {
    expect(meaning, word).toMatch(/^[A-Z0-9].*\.$/);
    expect(meaning.length, word).toBeLessThanOrEqual(120);
  }
  expect(new Set(glossaryWords.map(({ word }) => word)).size).toBe(Object.keys(glossary).length);
});

test("words come in the order of the alphabet, capitals among them", () => {
  const words = glossaryWords.map(({ word }) => word.toLowerCase());
  expect(words).toEqual(words.toSorted());
  expect(words).toContain("tdc");
});
