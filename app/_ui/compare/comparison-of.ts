import type { Store } from "../../../db/store.ts";
import { comparedModels, coursesOf, modelComparisonOf } from "../../../db/unit-courses.ts";
import { type CompareView, kindOf } from "./address.ts";
import { chooseModel } from "./choose-model.ts";

/** What the Compare page's address asks for: the sisters, and of the units chosen those that are among them. */
export async function comparisonOf(store: Store, view: CompareView) {
  const [models, chosen] = await Promise.all([comparedModels(store), coursesOf(store, view.units, view.measure)]);
  const model = chooseModel(models, view, chosen);
  const of = model === null ? null : await modelComparisonOf(store, model);
  return {
    models,
    of,
    /** Courses of the chosen units, in the order chosen. */
    sisters: of === null ? [] : chosen.filter((course) => kindOf(course) === kindOf(of)),
  };
}
