import type { AssessedUnit } from "../assess.ts";
import { lifeAgeDays } from "../assessment/life-ages.ts";
import { fromModelByMonth, pastLimitByMonth } from "../assessment/past-limit.ts";
import type { UnitOutlook } from "./problem-of.ts";

/** What a plan takes from a unit that was assessed. */
export function outlookOf(assessed: AssessedUnit): UnitOutlook {
  const { unit, assessment } = assessed;
  return {
    unit: unit.unit,
    depot: unit.depot,
    unitClass: unit.class,
    status: unit.status,
    model: unit.model,
    disposalDate: assessment.soldBefore?.date ?? null,
    pastLimit: pastLimitByMonth(assessed),
    fromModel: fromModelByMonth(assessed),
    ageDays: lifeAgeDays(assessed),
  };
}
