import { expect, test } from "vitest";
import { compareAnew } from "@/app/_jobs/compare-anew.ts";
import { dropReports, keepReports } from "@/db/assessments.ts";
import { clearDerived } from "@/db/rebuild.ts";
import type { Store } from "@/db/store.ts";
import type { TesterCourse, UnitCourses, WearCourse } from "@/lib/schema/comparison.ts";
import { at, temporaryFile, temporaryStore } from "../../db/made-up.ts";
import { report } from "../../db/made-up-report.ts";
import { course, life, rate } from "../../lib/comparison/made-up-courses.ts";

const names = Array.from({ length: 9 }, (_, i) => `U-${i + 1}`);

/** A unit that is read with the one instrument, then with the other, from some level on. */
function courses(unit: string, level: number): UnitCourses {
  const readings = [0, 500, 1000].map((x, i): readonly [number, number] => [x, level + i]);
  const wear: WearCourse = course(unit, [life(1, readings), life(2, readings)], { rates: [rate(level / 10)] });
  const testers: TesterCourse = {
    ...{ unit, engine: `${unit} #1`, measure: "leak-down", rate: 0.001, rateSd: 0.001, usual: level, begunBy: null },
    tests: readings.map(([x], i) => ({
      ...{ x, date: `202${i + 3}-06-01`, orificeMm: null, depot: "Lowmarsh", testedBy: null, sd: 1.6 },
      instrument: i < 2 ? "A" : "B",
      above: i + (level % 3),
    })),
  };
  return { wear: [wear], testers: [testers] };
}

const keep = (store: Store, levels: Readonly<Record<string, number>>) =>
  keepReports(
    store,
    Object.keys(levels).map((unit) => report(unit)),
    {
      ...{ because: "import", at, version: 1 },
      courses: new Map(Object.entries(levels).map(([unit, level]) => [unit, courses(unit, level)])),
    },
  );

const kept = async ({ q, modelComparisons, testerComparisons }: Store) =>
  JSON.stringify([await q.select().from(modelComparisons), await q.select().from(testerComparisons)]);

/** The comparisons as a process makes them that has kept nothing. It commits: whatever a process kept is read anew after it. */
async function madeAtOnce(file: string): Promise<string> {
  const store = await temporaryStore(file);
  await store.atomically((q) => [
    q.update(store.modelComparisons).set({ stale: true, comparison: null, rates: null }),
    q.update(store.testerComparisons).set({ stale: true, comparison: null }),
  ]);
  await compareAnew(store);
  return await kept(store);
}

test("one unit's news gives the comparisons that a process makes which compares all at once", async () => {
  const file = temporaryFile();
  const store = await temporaryStore(file);
  await keep(store, Object.fromEntries(names.map((unit, i) => [unit, 5 + i])));
  await compareAnew(store);
  const before = await kept(store);
  await keep(store, { "U-4": 31 });
  await compareAnew(store);
  const changed = await kept(store);
  expect(changed).not.toBe(before);
  expect(changed).toBe(await madeAtOnce(file));
});

test("what this process did not change itself is seen as well", async () => {
  const file = temporaryFile();
  const [store, other] = [await temporaryStore(file), await temporaryStore(file)];
  await keep(store, Object.fromEntries(names.map((unit, i) => [unit, 5 + i])));
  await compareAnew(store);
  // The other leaves its comparisons undone.
  await keep(other, { "U-2": 27 });
  await keep(store, { "U-7": 14 });
  await compareAnew(store);
  expect(await kept(store)).toBe(await madeAtOnce(file));
});

test("a unit that goes is taken out", async () => {
  const file = temporaryFile();
  const store = await temporaryStore(file);
  await keep(store, Object.fromEntries(names.map((unit, i) => [unit, 5 + i])));
  await compareAnew(store);
  await dropReports(store, ["U-9"], { because: "import", at, version: 2 });
  await compareAnew(store);
  expect(await kept(store)).not.toContain("U-9");
  expect(await kept(store)).toBe(await madeAtOnce(file));
});

test("where all were cleared away none is left over", async () => {
  const file = temporaryFile();
  const store = await temporaryStore(file);
  await keep(store, Object.fromEntries(names.map((unit, i) => [unit, 5 + i])));
  await compareAnew(store);
  await clearDerived(store, { at });
  await keep(store, { "U-1": 6, "U-2": 7 });
  await compareAnew(store);
  expect(await kept(store)).not.toContain("U-3");
  expect(await kept(store)).toBe(await madeAtOnce(file));
});
