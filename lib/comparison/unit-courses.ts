import type { AssessedUnit } from "../assess.ts";
import type { UnitCourses } from "../schema/comparison.ts";
import { testerCourses } from "./tester-courses.ts";
import { wearCourses } from "./wear-courses.ts";

/** What a unit is compared by, made once when it is assessed. */
export const unitCourses = (assessed: AssessedUnit): UnitCourses => ({
  wear: wearCourses(assessed),
  testers: testerCourses(assessed.unit, assessed.state.conditioned, (measure) => assessed.state.wear[measure].pool),
});
