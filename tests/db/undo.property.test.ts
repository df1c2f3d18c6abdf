import fc from "fast-check";
import { expect, it } from "vitest";
import { fleetFacts } from "@/db/facts.ts";
import { countFacts, factUnits, knownFleet } from "@/db/fleet-known.ts";
import { undoImport } from "@/db/import-state.ts";
import { openStore, type Store } from "@/db/store.ts";
import { verdicts } from "@/lib/schema/words.ts";
import { judgementFact } from "../lib/sealing/facts.ts";
import { at, by, type MadeUpImport, meterReading, reading, take, test, unit } from "./made-up.ts";

/** Few units, days, cylinders and values, so that imports meet on the same tests. */
const madeUpTest = fc
  .record({
    unit: fc.constantFrom("V-1", "V-2"),
    date: fc.constantFrom("2026-01-01", "2026-02-01"),
    meter: fc.constantFrom(1000, 1010),
    warm: fc.constantFrom(null, true, false),
    readings: fc.uniqueArray(
      fc.record({
        cylinder: fc.integer({ min: 1, max: 4 }),
        value: fc.constantFrom(1000, 1100),
        remarks: fc.constantFrom(null, "cold"),
        line: fc.integer({ min: 2, max: 90 }),
      }),
      { minLength: 1, maxLength: 4, selector: (r) => r.cylinder },
    ),
  })
  .map(({ readings, ...more }) =>
    test({
      ...more,
      readings: readings
        .map((r) => reading(r.cylinder, r.value, { remarks: r.remarks, line: r.line }))
        .sort((a, b) => a.cylinder - b.cylinder),
    }),
  );

const madeUpImport: fc.Arbitrary<MadeUpImport & { takeChanges: boolean }> = fc.record({
  tests: fc.uniqueArray(madeUpTest, { maxLength: 3, selector: (t) => `${t.unit} ${t.date}` }),
  units: fc.uniqueArray(
    fc
      .record({
        unit: fc.constantFrom("V-1", "V-2"),
        depot: fc.constantFrom(null, "North", "South"),
        status: fc.constantFrom(null, "stopped" as const, "retired" as const),
        line: fc.integer({ min: 2, max: 90 }),
      })
      .map(unit),
    { maxLength: 2, selector: (u) => u.unit },
  ),
  meterReadings: fc
    .constantFrom([], [800], [850])
    .map((meters) => meters.map((meter) => meterReading({ meter, unit: "V-1" }))),
  judgements: fc.uniqueArray(
    fc
      .record({
        unit: fc.constantFrom("V-1", "V-2"),
        cylinder: fc.constantFrom(null, 1),
        verdict: fc.constantFrom(...verdicts),
        reason: fc.constantFrom("hose", "gauge"),
      })
      .map((one) => judgementFact({ ...one, line: 2 })),
    { maxLength: 2, selector: ({ unit, cylinder }) => `${unit} ${cylinder}` },
  ),
  takeChanges: fc.boolean(),
  origin: fc.constantFrom("file" as const, "correction" as const),
});

/** `refused`: takes those that are not undone, for a later import has to be undone before. */
async function afterAll(
  imports: readonly (MadeUpImport & { takeChanges: boolean })[],
  undone: readonly number[] = [],
  refused?: Set<number>,
) {
  const store = await openStore(":memory:");
  const ids: string[] = [];
  for (const news of imports) ids.push(await take(store, news, news));
  for (const i of undone) {
    const outcome = await undoImport(store, ids[i]!, { by, at });
    if (!outcome.ok && outcome.error.code === "built-on") refused?.add(i);
    expect(outcome.ok || refused?.has(i)).toBe(true);
  }
  const all = [await fleetFacts(store), await countFacts(store), await factUnits(store), await knownUnitsOf(store)];
  await store.close();
  return JSON.stringify(all);
}

const knownUnitsOf = async (store: Store) => [...(await knownFleet(store, { today: null })).units].sort();

it("an import undone at once never happened: the facts are the same byte for byte", async () => {
  await fc.assert(
    fc.asyncProperty(fc.array(madeUpImport, { maxLength: 3 }), madeUpImport, async (before, last) => {
      expect(await afterAll([...before, last], [before.length])).toBe(await afterAll(before));
    }),
    { numRuns: 20 },
  );
});

it("imports undone from the last to the first leave nothing", async () => {
  const nothing = await afterAll([]);
  await fc.assert(
    fc.asyncProperty(fc.array(madeUpImport, { minLength: 1, maxLength: 4 }), async (imports) => {
      expect(
        await afterAll(
          imports,
          imports.map((_, i) => imports.length - 1 - i),
        ),
      ).toBe(nothing);
    }),
    { numRuns: 15 },
  );
});

it("imports undone in any order never happened, whatever later ones repeated, corrected or declined of them", async () => {
  await fc.assert(
    fc.asyncProperty(
      fc.array(madeUpImport, { minLength: 2, maxLength: 5 }),
      fc.array(fc.nat(), { minLength: 1, maxLength: 3 }),
      async (imports, picks) => {
        const undone = [...new Set(picks.map((pick) => pick % imports.length))];
        const refused = new Set<number>();
        const after = await afterAll(imports, undone, refused);
        const left = imports.filter((_, i) => refused.has(i) || !undone.includes(i));
        expect(after).toBe(await afterAll(left));
      },
    ),
    { numRuns: 60 },
  );
});

it("importing the same twice adds nothing", async () => {
  await fc.assert(
    fc.asyncProperty(fc.array(madeUpImport, { maxLength: 2 }), madeUpImport, async (before, last) => {
      const taken = { ...last, takeChanges: true };
      expect(await afterAll([...before, taken, taken])).toBe(await afterAll([...before, taken]));
    }),
    { numRuns: 20 },
  );
});
