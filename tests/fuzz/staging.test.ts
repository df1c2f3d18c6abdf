import fc from "fast-check";
import { expect, it } from "vitest";
import { commitImport } from "@/app/_jobs/commit-import.ts";
import { discardImport } from "@/app/_jobs/discard-import.ts";
import { stageImport } from "@/app/_jobs/stage-import.ts";
import { fleetFacts } from "@/db/facts.ts";
import { importIssues } from "@/db/imports.ts";
import { act, newStore, source, take } from "../app/jobs/made-up-files.ts";
import { modelsText, smallFiles } from "./good-files.ts";
import { hostileTexts, mutations, spoil } from "./mutations.ts";

/**
 * Broken files through the whole way into the store, beside a fleet that is there: an import always comes to its end,
 * every row is counted as something, and what was known stays as it was until somebody commits.
 */

const seed = 20_260_630;
const modelsFile = source("models.json", modelsText);
const fleet = smallFiles.filter(({ name }) => !name.startsWith("long") || name === "long-0.csv");

it("an import of broken files always ends, and leaves the fleet as it was", async () => {
  const store = await newStore();
  await take(store, [modelsFile, ...fleet.map(({ name, text }) => source(name, text))]);
  const before = JSON.stringify(await fleetFacts(store));
  const spoilt = fc
    .tuple(fc.constantFrom(...fleet), mutations, fc.constantFrom(...hostileTexts))
    .map(([{ name, text }, wanted, nick]) => ({
      name: `${nick}${name}`,
      bytes: spoil(new TextEncoder().encode(text), wanted).bytes,
    }));
  await fc.assert(
    fc.asyncProperty(fc.array(spoilt, { minLength: 1, maxLength: 3 }), async (files) => {
      const given = files.map(({ name, bytes }) => source(name, bytes));
      const staged = await stageImport(store, given, act);
      expect(staged.state).toBe("staged");
      const { issues } = await importIssues(store, staged.id, { offset: 0, limit: 1000 });
      for (const { name, refused, refusedRows } of staged.files) {
        const told = issues.filter((issue) => issue.file === name && issue.severity === "refused");
        expect([name, told.length > 0]).toEqual([name, refused || refusedRows > 0]);
      }
      await discardImport(store, staged.id, act);
      expect(JSON.stringify(await fleetFacts(store))).toBe(before);
    }),
    { seed, numRuns: 150 },
  );
});

it("a fleet of broken files alone is assessed all the same", async () => {
  const wanted = fc.array(fc.tuple(fc.constantFrom(...smallFiles), mutations), { minLength: 2, maxLength: 4 });
  await fc.assert(
    fc.asyncProperty(wanted, async (files) => {
      const store = await newStore();
      const given = files.map(([{ name, text }, how]) =>
        source(name, spoil(new TextEncoder().encode(text), how).bytes),
      );
      const { id } = await stageImport(store, [modelsFile, ...given], act);
      const outcome = await commitImport(store, id, { ...act, takeChanges: true });
      expect(outcome).toMatchObject({ ok: true, value: { notAssessed: [] } });
      await store.close();
    }),
    { seed, numRuns: 25 },
  );
});
