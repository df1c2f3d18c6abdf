import { expect, it } from "vitest";
import { commitImport, undoImport } from "@/db/import-state.ts";
import { knownSoFar } from "@/db/known-so-far.ts";
import { at, by, model, stage, temporaryStore, test } from "./made-up.ts";

const doer = { by, at };

it("tells the first steps that are done, and no more of them once an import is undone", async () => {
  const store = await temporaryStore();
  expect(await knownSoFar(store)).toEqual({ engineModels: 0, hasTests: false, isEmpty: true });

  const models = await stage(store, { models: { file: "m.json", models: [model(), model({ id: "other" })] } });
  expect((await knownSoFar(store)).engineModels, "staged is not known").toBe(0);
  await commitImport(store, models.importId, { ...doer, takeChanges: false });
  expect(await knownSoFar(store)).toEqual({ engineModels: 2, hasTests: false, isEmpty: false });

  const tests = await stage(store, { tests: [test()] });
  await commitImport(store, tests.importId, { ...doer, takeChanges: false });
  expect(await knownSoFar(store)).toEqual({ engineModels: 2, hasTests: true, isEmpty: false });

  await undoImport(store, tests.importId, doer);
  expect(await knownSoFar(store)).toEqual({ engineModels: 2, hasTests: false, isEmpty: false });
});
