import { describe, expect, test } from "vitest";
import { dropReports, keepReports } from "@/db/assessments.ts";
import type { Store } from "@/db/store.ts";
import {
  comparedModels,
  coursesOf,
  courseUnits,
  keepModelComparison,
  sisterCourses,
  staleComparisons,
  testerCoursesOf,
  testerUnits,
} from "@/db/unit-courses.ts";
import type { TesterCourse, UnitCourses, WearCourse } from "@/lib/schema/comparison.ts";
import { course, life } from "../lib/comparison/made-up-courses.ts";
import { compareModel } from "../lib/comparison/whole.ts";
import { at, temporaryStore } from "./made-up.ts";
import { report } from "./made-up-report.ts";

const told = { because: "import", at, version: 1 } as const;
const petrol = { engineModel: "petrol-2", measure: "leak-down", meterUnit: "h" } as const;

const wear = (unit: string, more: Partial<WearCourse> = {}) =>
  course(
    unit,
    [
      life(1, [
        [0, 5],
        [100, 6],
      ]),
    ],
    more,
  );
const tester = (unit: string): TesterCourse => ({
  unit,
  engine: `${unit} #1`,
  measure: "leak-down",
  rate: 0,
  rateSd: 1,
  usual: 10,
  begunBy: null,
  tests: [],
});

const keep = (store: Store, all: readonly UnitCourses[], version = 1) =>
  keepReports(
    store,
    all.map(({ wear: [first] }) => report((first as WearCourse).unit)),
    { ...told, version, courses: new Map(all.map((of) => [(of.wear[0] as WearCourse).unit, of])) },
  );
const whole = (unit: string, more: Partial<WearCourse> = {}): UnitCourses => ({
  wear: [wear(unit, more)],
  testers: [tester(unit)],
});

describe("what units are compared by", () => {
  test("comes with the report, and goes with the unit", async () => {
    const store = await temporaryStore();
    await keep(store, [whole("A"), whole("B")]);
    expect(await courseUnits(store, petrol)).toEqual(["A", "B"]);
    expect(await sisterCourses(store, petrol, ["A", "B"])).toEqual([wear("A"), wear("B")]);
    expect(await testerUnits(store, "leak-down")).toEqual(["A", "B"]);
    expect(await testerCoursesOf(store, ["B", "A"], "leak-down")).toEqual([
      { unit: "B", courses: [tester("B")] },
      { unit: "A", courses: [tester("A")] },
    ]);
    await dropReports(store, ["A"], told);
    expect(await courseUnits(store, petrol)).toEqual(["B"]);
    expect(await testerUnits(store, "leak-down")).toEqual(["B"]);
  });

  test("made from earlier facts than what stands is not taken", async () => {
    const store = await temporaryStore();
    await keep(store, [whole("A", { depot: "late" })], 2);
    await keep(store, [whole("A", { depot: "early" })], 1);
    expect((await sisterCourses(store, petrol, ["A"])).map((c) => c.depot)).toEqual(["late"]);
  });

  test("is given in the order asked for, of one measure", async () => {
    const store = await temporaryStore();
    await keep(store, [whole("A"), whole("B")]);
    expect((await coursesOf(store, ["B", "none", "A"], "leak-down")).map((c) => c.unit)).toEqual(["B", "A"]);
    expect(await coursesOf(store, ["A"], "compression-dry")).toEqual([]);
  });
});

describe("a comparison", () => {
  test("is stale when a course comes, changes its model or goes, and only that of its sisters", async () => {
    const store = await temporaryStore();
    const remake = async () => {
      for (const of of (await staleComparisons(store)).models) {
        await keepModelComparison(
          store,
          of,
          compareModel(await sisterCourses(store, of, await courseUnits(store, of))),
        );
      }
    };
    await keep(store, [whole("A"), whole("B", { engineModel: "diesel-2", modelName: "Diesel two" })]);
    expect((await staleComparisons(store)).models).toHaveLength(2);
    expect((await staleComparisons(store)).testers).toEqual(["leak-down"]);
    expect(await comparedModels(store)).toEqual([]);
    await remake();
    expect((await comparedModels(store)).map((m) => [m.modelName, m.units])).toEqual([
      ["Diesel two", 1],
      ["Petrol two", 1],
    ]);

    await keep(store, [whole("A")]);
    expect((await staleComparisons(store)).models).toEqual([petrol]);
    await keep(store, [whole("A", { engineModel: "diesel-2", modelName: "Diesel two" })]);
    expect((await staleComparisons(store)).models).toHaveLength(2);
    await remake();
    // The model that no unit has any more is not told of.
    expect((await comparedModels(store)).map((m) => [m.modelName, m.units])).toEqual([["Diesel two", 2]]);
    expect((await staleComparisons(store)).models).toEqual([]);
  });
});
