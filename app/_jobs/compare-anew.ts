import type { Store } from "../../db/store.ts";
import {
  allTesterCourses,
  keepModelComparison,
  keepTesterComparison,
  sisterCourses,
  staleComparisons,
} from "../../db/unit-courses.ts";
import { compareModel } from "../../lib/comparison/model-comparison.ts";
import { compareTesters } from "../../lib/comparison/tester-comparison.ts";
import { breather, type JobControl } from "./progress.ts";

/**
 * Makes the comparisons anew that courses were put into or taken from: each from the compact rows of its own model,
 * measure and meter unit, and those of instruments from the tests of the whole fleet. What a process that was ended left
 * stale is made by the next.
 */
export async function compareAnew(store: Store, { signal }: JobControl = {}): Promise<void> {
  const breathe = breather(signal);
  const stale = await staleComparisons(store);
  for (const of of stale.models) {
    await keepModelComparison(store, of, compareModel(await sisterCourses(store, of)));
    await breathe();
  }
  for (const measure of stale.testers) {
    await keepTesterComparison(store, compareTesters(measure, await allTesterCourses(store, measure)));
    await breathe();
  }
}
