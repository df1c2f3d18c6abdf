import type { AssessedUnit } from "../assess.ts";
import { lifeAgeDays } from "../assessment/life-ages.ts";
import { fromModelByMonth, pastLimitByMonth } from "../assessment/past-limit.ts";
import type { UnitReport } from "../schema/report.ts";
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

/** The same of a unit whose report was kept. */
export const outlookOfReport = (report: UnitReport): UnitOutlook => ({
  unit: report.assessment.unit,
  depot: report.depot,
  unitClass: report.unitClass,
  status: report.status,
  model: report.model,
  disposalDate: report.assessment.soldBefore?.date ?? null,
  pastLimit: report.pastLimit,
  fromModel: report.pastLimitOfModel,
  ageDays: report.ageDays,
});
