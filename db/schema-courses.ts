import type {
  ModelComparison,
  ModelRates,
  TesterComparison,
  TesterCourse,
  WearCourse,
} from "../lib/schema/comparison.ts";
import type { JudgedMeasure, MeterUnit } from "../lib/schema/words.ts";
import type { Vocabulary } from "./vocabulary.ts";

/** What units are compared by. All of it is derived and can be made again; pages read the comparisons, not reports. */
export function courseTables(v: Vocabulary) {
  /** The course of the engine in each unit, in one measure. */
  const wearCourses = v.table(
    "wear_courses",
    {
      unit: v.text().notNull(),
      measure: v.word<JudgedMeasure>().notNull(),
      engineModel: v.text().notNull(),
      meterUnit: v.word<MeterUnit>().notNull(),
      course: v.json<WearCourse>().notNull(),
    },
    (t) => [
      v.primaryKey({ columns: [t.unit, t.measure] }),
      v.index("wear_courses_sisters").on(t.engineModel, t.measure, t.meterUnit),
    ],
  );

  /** The tests of the engine in each unit, each as a whole beside the others. */
  const testerCourses = v.table(
    "tester_courses",
    {
      unit: v.text().notNull(),
      measure: v.word<JudgedMeasure>().notNull(),
      courses: v.json<readonly TesterCourse[]>().notNull(),
    },
    (t) => [v.primaryKey({ columns: [t.unit, t.measure] }), v.index("tester_courses_measure").on(t.measure)],
  );

  const modelComparisons = v.table(
    "model_comparisons",
    {
      engineModel: v.text().notNull(),
      measure: v.word<JudgedMeasure>().notNull(),
      meterUnit: v.word<MeterUnit>().notNull(),
      /** Courses were put in or taken away since it was made. */
      stale: v.bool().notNull(),
      /** null: not made yet. */
      modelName: v.text(),
      units: v.int(),
      standingOut: v.json<readonly string[]>(),
      comparison: v.json<ModelComparison>(),
      rates: v.json<ModelRates>(),
    },
    (t) => [v.primaryKey({ columns: [t.engineModel, t.measure, t.meterUnit] })],
  );

  const testerComparisons = v.table("tester_comparisons", {
    measure: v.wordKey<JudgedMeasure>(),
    stale: v.bool().notNull(),
    comparison: v.json<TesterComparison>(),
  });

  return { wearCourses, testerCourses, modelComparisons, testerComparisons };
}
