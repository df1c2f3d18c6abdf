import type { Store } from "../../db/store.ts";
import { explaining } from "../../lib/explain/explain.ts";
import type { UnitExplanation, Wanted } from "../../lib/explain/types.ts";
import type { UnitReport } from "../../lib/schema/report.ts";
import { breather } from "./progress.ts";
import { unitNow } from "./unit-now.ts";

/**
 * Why the date of a unit's report is what it is: from the facts that stand, under the pools in force, for the day that the
 * report was made for. It takes some dozen assessments of the one unit, and keeps nothing. null: nothing is known of it.
 * @param wanted a class of repair or a cylinder in the place of what decides
 */
export async function explainUnitNow(
  store: Store,
  report: UnitReport,
  wanted: Wanted = {},
): Promise<UnitExplanation | null> {
  const now = await unitNow(store, report);
  if (now === null) return null;
  const breathe = breather(undefined);
  const steps = explaining(now.index, now.unit, now.options, wanted);
  for (;;) {
    const step = steps.next();
    if (step.done === true) return step.value;
    await breathe();
  }
}
