import fc from "fast-check";
import { expect, it } from "vitest";
import { finishStaging } from "@/db/comparison.ts";
import { fleetFacts } from "@/db/facts.ts";
import { commitImport, undoImport } from "@/db/import-state.ts";
import { beginImport } from "@/db/imports.ts";
import { stageTests } from "@/db/staging-tests.ts";
import { openStore } from "@/db/store.ts";
import type { FleetFacts, TestFact } from "@/lib/schema/facts.ts";
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
      }),
      { minLength: 1, maxLength: 4, selector: (r) => r.cylinder },
    ),
  })
  .map(({ readings, ...more }) =>
    test({
      ...more,
      readings: readings
        .map((r) => reading(r.cylinder, r.value, { remarks: r.remarks }))
        .sort((a, b) => a.cylinder - b.cylinder),
    }),
  );

const madeUpImport: fc.Arbitrary<MadeUpImport & { takeChanges: boolean }> = fc.record({
  tests: fc.uniqueArray(madeUpTest, { maxLength: 3, selector: (t) => `${t.unit} ${t.date}` }),
  units: fc.uniqueArray(
    fc.record({ unit: fc.constantFrom("V-1", "V-2"), depot: fc.constantFrom(null, "North", "South") }).map(unit),
    { maxLength: 2, selector: (u) => u.unit },
  ),
  meterReadings: fc
    .constantFrom([], [800], [850])
    .map((meters) => meters.map((meter) => meterReading({ meter, unit: "V-1" }))),
  takeChanges: fc.boolean(),
});

async function afterAll(imports: readonly (MadeUpImport & { takeChanges: boolean })[], undone: readonly number[] = []) {
  const store = await openStore(":memory:");
  const ids: string[] = [];
  for (const news of imports) ids.push(await take(store, news, news));
  for (const i of undone) expect((await undoImport(store, ids[i]!, { by, at })).ok).toBe(true);
  const facts = await fleetFacts(store);
  await store.close();
  return JSON.stringify(facts);
}

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

it("an earlier import undone never happened, where no later one repeated its rows", async () => {
  // Every import tells another value for all that it tells, so that none finds a row known.
  const distinct = fc
    .array(fc.uniqueArray(fc.integer({ min: 1, max: 4 }), { minLength: 1, maxLength: 4 }), {
      minLength: 2,
      maxLength: 4,
    })
    .map((all) =>
      all.map((cylinders, i) => ({
        tests: [
          test({ meter: 1000 + i, readings: [...cylinders].sort().map((cylinder) => reading(cylinder, 1000 + i)) }),
        ],
        takeChanges: true,
      })),
    );
  await fc.assert(
    fc.asyncProperty(distinct, fc.nat(), async (imports, pick) => {
      const undone = pick % imports.length;
      expect(await afterAll(imports, [undone])).toBe(await afterAll(imports.filter((_, i) => i !== undone)));
    }),
    { numRuns: 15 },
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

it("the order of rows, and how they are cut into batches, does not matter", async () => {
  const rows: TestFact[] = ["V-1", "V-2"].flatMap((name) =>
    ["2026-01-01", "2026-02-01"].flatMap((date) =>
      [1, 2, 3].map((cylinder) => test({ unit: name, date, readings: [reading(cylinder, 1000 + cylinder)] })),
    ),
  );
  const clash = test({ unit: "V-1", date: "2026-01-01", readings: [reading(2, 900)] });
  const all = [...rows, clash, rows[0]!];
  const withoutLines = (facts: FleetFacts) => JSON.stringify(facts).replace(/"line":\d+/g, "");
  const factsOf = async (order: readonly TestFact[], batch: number) => {
    const store = await openStore(":memory:");
    const id = await beginImport(store, { by, at, files: [] });
    for (let start = 0; start < order.length; start += batch) {
      await stageTests(store, id, order.slice(start, start + batch));
    }
    await finishStaging(store, id);
    expect((await commitImport(store, id, { by, at, takeChanges: true })).ok).toBe(true);
    const facts = await fleetFacts(store);
    await store.close();
    return withoutLines(facts);
  };
  const expected = await factsOf(all, all.length);
  expect(expected).toContain('"value":1003');
  // Cylinder 2 of the first test clashes, so it is missing there and there alone.
  expect(expected.match(/"value":1002/g)).toHaveLength(3);
  await fc.assert(
    fc.asyncProperty(
      fc.shuffledSubarray(all, { minLength: all.length }),
      fc.integer({ min: 1, max: all.length }),
      async (order, batch) => {
        expect(await factsOf(order, batch)).toBe(expected);
      },
    ),
    { numRuns: 20 },
  );
});
