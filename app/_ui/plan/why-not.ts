import { unitReport } from "../../../db/assessments.ts";
import type { PlanRow } from "../../../db/plans.ts";
import type { Store } from "../../../db/store.ts";
import { outlookOfReport } from "../../../lib/plan/outlook-of.ts";
import { planUnitOf } from "../../../lib/plan/problem-of.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { leftOutWords } from "../plan-papers/paper-words.ts";

/** Why nothing can be planned for a unit, in a sentence: what is missing, not all that might be. */
export async function whyNotPlanned(
  store: Store,
  { workshop, plan }: Pick<PlanRow, "workshop" | "plan">,
  unit: string,
  f: Formats,
): Promise<string> {
  const report = await unitReport(store, unit);
  if (report === null) return `Nothing can be planned for ${unit}: no unit of this number is known.`;
  const outlook = outlookOfReport(report);
  const why = planUnitOf(outlook, workshop, plan.firstMonday);
  if (typeof why === "string") return `Nothing can be planned for ${unit}: ${leftOutWords[why]}.`;
  const { disposalDate } = outlook;
  return `Nothing can be planned for ${unit}: no repair of it can begin within the plan${disposalDate === null ? ", for the workshop is closed in every week in which its parts can be there" : ` before it is sold on ${f.date(disposalDate)}`}.`;
}
