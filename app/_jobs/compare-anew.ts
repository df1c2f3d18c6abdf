import { chunks } from "../../db/chunks.ts";
import type { Store } from "../../db/store.ts";
import {
  courseUnits,
  keepModelComparison,
  keepTesterComparison,
  sisterCourses,
  staleComparisons,
  testerCoursesOf,
  testerUnits,
} from "../../db/unit-courses.ts";
import { compareSisters, sisterOf } from "../../lib/comparison/model-comparison.ts";
import { comparingTested, testedUnitOf } from "../../lib/comparison/tester-comparison.ts";
import { comparedSoFar, type Kept, keepWithinBounds } from "./compared-so-far.ts";
import { breather, type JobControl } from "./progress.ts";

/** Units whose courses are read between two pauses. */
const unitsAtATime = 50;

/**
 * Makes the comparisons anew that courses were put into or taken from: each from the courses of its own model, measure
 * and meter unit, and those of instruments from the tests of the whole fleet. Where this process compared them before, only
 * the courses that changed are read, and only what hangs on these is made anew. What a process that was ended left stale is
 * made by the next.
 */
export async function compareAnew(store: Store, { signal }: JobControl = {}): Promise<void> {
  const breathe = breather(signal);
  const soFar = comparedSoFar(store);
  const stale = await staleComparisons(store);
  for (const of of stale.models) {
    const key = JSON.stringify([of.engineModel, of.measure, of.meterUnit]);
    const kept = soFar.models.get(key) ?? begun(soFar.models, key, await courseUnits(store, of));
    await readInto(kept, breathe, async (units) => {
      const courses = await sisterCourses(store, of, units);
      return courses.map((course) => [course.unit, sisterOf(course)]);
    });
    kept.made = compareSisters(ascending(kept), kept.made);
    await keepModelComparison(store, of, kept.made);
    keepWithinBounds(soFar, soFar.models, key);
    await breathe();
  }
  for (const measure of stale.testers) {
    const kept = soFar.testers.get(measure) ?? begun(soFar.testers, measure, await testerUnits(store, measure));
    await readInto(kept, breathe, async (units) => {
      const found = await testerCoursesOf(store, units, measure);
      return found.map(({ unit, courses }) => [unit, testedUnitOf(measure, courses)]);
    });
    const steps = comparingTested(measure, ascending(kept), kept.made);
    let step = steps.next();
    for (; !step.done; step = steps.next()) await breathe();
    kept.made = step.value;
    await keepTesterComparison(store, kept.made.comparison);
    keepWithinBounds(soFar, soFar.testers, measure);
    await breathe();
  }
}

function begun<K, P, M>(all: Map<K, Kept<P, M>>, key: K, units: readonly string[]): Kept<P, M> {
  const kept: Kept<P, M> = { parts: new Map(), unread: new Set(units), made: null };
  all.set(key, kept);
  return kept;
}

/** Reads what is unread; a unit of which nothing is found has gone. What a cancelled job leaves unread stays so. */
async function readInto<P, M>(
  { parts, unread }: Kept<P, M>,
  breathe: () => Promise<void>,
  read: (units: readonly string[]) => Promise<readonly (readonly [unit: string, part: P])[]>,
): Promise<void> {
  for (const units of chunks([...unread], unitsAtATime)) {
    const found = await read(units);
    for (const unit of units) parts.delete(unit);
    for (const [unit, part] of found) parts.set(unit, part);
    for (const unit of units) unread.delete(unit);
    await breathe();
  }
}

/** By unit, whatever the order that they were read in. */
const ascending = <P, M>({ parts }: Kept<P, M>): P[] =>
  [...parts].toSorted(([a], [b]) => (a < b ? -1 : 1)).map(([, part]) => part);
