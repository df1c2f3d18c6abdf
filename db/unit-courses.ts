import { and, asc, eq, inArray, type SQL } from "drizzle-orm";
import type {
  ComparedModel,
  ModelComparison,
  ModelRates,
  Sisterhood,
  TesterComparison,
  TesterCourse,
  UnitCourses,
  WearCourse,
} from "../lib/schema/comparison.ts";
import type { JudgedMeasure } from "../lib/schema/words.ts";
import { chunks, forChunks } from "./chunks.ts";
import { noteCourses } from "./course-news.ts";
import type { Q, Store } from "./store.ts";

/** Adds the courses of units that have none, and marks the comparisons that they belong to as stale. */
export async function putCourses(store: Store, q: Q, given: readonly UnitCourses[]): Promise<void> {
  const wear = given.flatMap((of) => of.wear);
  noteCourses(
    store,
    given.flatMap((of) => [...of.wear, ...of.testers].map(({ unit }) => unit)),
  );
  const rows = wear.map((course) => ({ ...sisterhoodOf(course), unit: course.unit, course }));
  await store.bulkInsert(q, store.wearCourses, ["unit", "measure", "engineModel", "meterUnit", "course"], rows);
  const testers = given.flatMap(({ testers }) =>
    [...new Set(testers.map((course) => course.measure))].map((measure) => {
      const courses = testers.filter((course) => course.measure === measure);
      return { unit: (courses[0] as TesterCourse).unit, measure, courses };
    }),
  );
  await store.bulkInsert(q, store.testerCourses, ["unit", "measure", "courses"], testers);
  await markStale(store, q, wear.map(sisterhoodOf), new Set(testers.map((row) => row.measure)));
}

/** Takes the courses of units away, and marks the comparisons that they belonged to as stale. */
export async function removeCourses(store: Store, q: Q, units: readonly string[]): Promise<void> {
  const { wearCourses, testerCourses } = store;
  noteCourses(store, units);
  for (const part of chunks(units)) {
    const some = [...part];
    const { engineModel, measure, meterUnit } = wearCourses;
    const columns = { engineModel, measure, meterUnit };
    const wear = await q.selectDistinct(columns).from(wearCourses).where(inArray(wearCourses.unit, some));
    const testers = await q
      .selectDistinct({ measure: testerCourses.measure })
      .from(testerCourses)
      .where(inArray(testerCourses.unit, some));
    await q.delete(wearCourses).where(inArray(wearCourses.unit, some));
    await q.delete(testerCourses).where(inArray(testerCourses.unit, some));
    await markStale(store, q, wear, new Set(testers.map((row) => row.measure)));
  }
}

const sisterhoodOf = ({ engineModel, measure, meterUnit }: Sisterhood): Sisterhood => ({
  engineModel,
  measure,
  meterUnit,
});

async function markStale(
  { modelComparisons, testerComparisons }: Store,
  q: Q,
  sisterhoods: readonly Sisterhood[],
  measures: ReadonlySet<JudgedMeasure>,
): Promise<void> {
  const distinct = new Map(sisterhoods.map((of) => [JSON.stringify(of), of]));
  for (const of of distinct.values()) {
    const { engineModel, measure, meterUnit } = modelComparisons;
    await q
      .insert(modelComparisons)
      .values({ ...of, stale: true })
      .onConflictDoUpdate({ target: [engineModel, measure, meterUnit], set: { stale: true } });
  }
  for (const measure of measures) {
    await q
      .insert(testerComparisons)
      .values({ measure, stale: true })
      .onConflictDoUpdate({ target: testerComparisons.measure, set: { stale: true } });
  }
}

/** What has to be compared anew. */
export async function staleComparisons({ q, modelComparisons, testerComparisons }: Store): Promise<{
  readonly models: readonly Sisterhood[];
  readonly testers: readonly JudgedMeasure[];
}> {
  const models = await q.select().from(modelComparisons).where(eq(modelComparisons.stale, true));
  const testers = await q.select().from(testerComparisons).where(eq(testerComparisons.stale, true));
  return { models: models.map(sisterhoodOf), testers: testers.map((row) => row.measure) };
}

/** Courses of one model, measure and meter unit that some units have, by unit where they are given by unit. */
export async function sisterCourses(store: Store, of: Sisterhood, units: readonly string[]): Promise<WearCourse[]> {
  const { q, wearCourses } = store;
  const rows = await forChunks(units, (part) =>
    q
      .select({ course: wearCourses.course })
      .from(wearCourses)
      .where(and(inArray(wearCourses.unit, part), isSisterhood(wearCourses, of)))
      .orderBy(asc(wearCourses.unit)),
  );
  return rows.map((row) => row.course);
}

/** Courses of some units in one measure, in the order of the units given. */
export async function coursesOf(
  { q, wearCourses }: Store,
  units: readonly string[],
  measure: JudgedMeasure,
): Promise<WearCourse[]> {
  const rows = await forChunks(units, (part) =>
    q
      .select({ course: wearCourses.course })
      .from(wearCourses)
      .where(and(inArray(wearCourses.unit, part), eq(wearCourses.measure, measure))),
  );
  const byUnit = new Map(rows.map(({ course }) => [course.unit, course]));
  return units.flatMap((unit) => byUnit.get(unit) ?? []);
}

/** All tests as wholes of some units in one measure, each unit's in order, in the order of the units given. */
export async function testerCoursesOf(
  { q, testerCourses }: Store,
  units: readonly string[],
  measure: JudgedMeasure,
): Promise<{ readonly unit: string; readonly courses: readonly TesterCourse[] }[]> {
  const rows = await forChunks(units, (part) =>
    q
      .select({ unit: testerCourses.unit, courses: testerCourses.courses })
      .from(testerCourses)
      .where(and(inArray(testerCourses.unit, part), eq(testerCourses.measure, measure))),
  );
  const byUnit = new Map(rows.map((row) => [row.unit, row]));
  return units.flatMap((unit) => byUnit.get(unit) ?? []);
}

/** Units with tests as wholes in one measure, ascending. */
export async function testerUnits({ q, testerCourses }: Store, measure: JudgedMeasure): Promise<string[]> {
  const rows = await q
    .select({ unit: testerCourses.unit })
    .from(testerCourses)
    .where(eq(testerCourses.measure, measure))
    .orderBy(asc(testerCourses.unit));
  return rows.map((row) => row.unit);
}

/** Keeps what was made of the courses that stand; null: there are none, and nothing to compare. */
export function keepModelComparison(
  { tx, modelComparisons }: Store,
  of: Sisterhood,
  made: { readonly comparison: ModelComparison; readonly rates: ModelRates } | null,
): Promise<void> {
  const here = isSisterhood(modelComparisons, of);
  return tx(async (q) => {
    if (made === null) {
      await q.delete(modelComparisons).where(here);
      return;
    }
    const { modelName, units, standingOut } = made.comparison;
    await q
      .update(modelComparisons)
      .set({ stale: false, modelName, units, standingOut, comparison: made.comparison, rates: made.rates })
      .where(here);
  });
}

/** The same of instruments; one without a test has nothing to tell. */
export function keepTesterComparison({ tx, testerComparisons }: Store, comparison: TesterComparison): Promise<void> {
  const here = eq(testerComparisons.measure, comparison.measure);
  return tx(async (q) => {
    if (comparison.testers.length === 0 && comparison.unnamed === 0) await q.delete(testerComparisons).where(here);
    else await q.update(testerComparisons).set({ stale: false, comparison }).where(here);
  });
}

/** The sisterhoods that were compared, by the model's name. */
export async function comparedModels({ q, modelComparisons }: Store): Promise<ComparedModel[]> {
  const { engineModel, measure, meterUnit, modelName, units, standingOut } = modelComparisons;
  const rows = await q
    .select({ engineModel, measure, meterUnit, modelName, units, standingOut })
    .from(modelComparisons)
    .orderBy(asc(modelName), asc(engineModel), asc(meterUnit));
  return rows.flatMap(({ modelName: name, units: count, standingOut: out, ...of }) =>
    name === null || count === null || out === null ? [] : [{ ...of, modelName: name, units: count, standingOut: out }],
  );
}

/** null: not compared, or not yet. */
export async function modelComparisonOf(
  { q, modelComparisons }: Store,
  of: Sisterhood,
): Promise<ModelComparison | null> {
  const [row] = await q
    .select({ comparison: modelComparisons.comparison })
    .from(modelComparisons)
    .where(isSisterhood(modelComparisons, of));
  return row?.comparison ?? null;
}

/** Rates of all sisterhoods in one measure, by the model's name. */
export async function modelRates({ q, modelComparisons }: Store, measure: JudgedMeasure): Promise<ModelRates[]> {
  const rows = await q
    .select({ rates: modelComparisons.rates })
    .from(modelComparisons)
    .where(eq(modelComparisons.measure, measure))
    .orderBy(asc(modelComparisons.modelName), asc(modelComparisons.engineModel), asc(modelComparisons.meterUnit));
  return rows.flatMap(({ rates }) => rates ?? []);
}

export async function testerComparisonsKept({ q, testerComparisons }: Store): Promise<TesterComparison[]> {
  const rows = await q.select({ comparison: testerComparisons.comparison }).from(testerComparisons);
  return rows.flatMap(({ comparison }) => comparison ?? []);
}

const isSisterhood = (table: Store["modelComparisons"] | Store["wearCourses"], of: Sisterhood): SQL =>
  and(eq(table.engineModel, of.engineModel), eq(table.measure, of.measure), eq(table.meterUnit, of.meterUnit)) as SQL;

/** Units of one model, measure and meter unit, ascending. */
export async function courseUnits({ q, wearCourses }: Store, of: Sisterhood): Promise<string[]> {
  const rows = await q
    .select({ unit: wearCourses.unit })
    .from(wearCourses)
    .where(isSisterhood(wearCourses, of))
    .orderBy(asc(wearCourses.unit));
  return rows.map((row) => row.unit);
}
