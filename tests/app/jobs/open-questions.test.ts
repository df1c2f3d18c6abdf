import { expect, it } from "vitest";
import { isEmptyFile, openQuestions } from "@/app/_jobs/open-questions.ts";
import { stageImport } from "@/app/_jobs/stage-import.ts";
import { stagedFinding } from "@/app/_ui/import/import-words.ts";
import { importIssues } from "@/db/imports.ts";
import { act, newStore, source } from "../jobs/made-up-files.ts";

it("an empty file is refused as one, with nothing asked of it", async () => {
  const store = await newStore();
  for (const text of ["", "\n \n"]) {
    const staged = await stageImport(store, [source("nought.csv", text)], act);
    expect(staged.files.map((file) => [isEmptyFile(file), openQuestions(file)])).toEqual([[true, []]]);
    expect(stagedFinding(staged)).toBe("The file is empty. Nothing is kept of it.");
    const { issues } = await importIssues(store, staged.id, { offset: 0, limit: 9, severity: "refused" });
    expect(issues.map(({ words }) => words)).toEqual(["the file is empty"]);
  }
});

it("a file whose headings nobody knows is still asked about", async () => {
  const store = await newStore();
  const staged = await stageImport(store, [source("odd.csv", "nothing,known\n1,2\n")], act);
  expect(staged.files.map((file) => [isEmptyFile(file), openQuestions(file).length])).toEqual([[false, 1]]);
});
