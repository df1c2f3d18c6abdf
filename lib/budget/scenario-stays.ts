import type { ScenarioChange, ScenarioStay } from "../schema/scenario.ts";
import type { BudgetInputs } from "./inputs.ts";
import type { BudgetProblem } from "./types.ts";

/** From this chance on that a limit is met today, it counts as met: more likely than not. */
const metFrom = 0.5;

/**
 * The bookings that a scenario leaves where they are though it moves others like them: pinned ones, and where no top end is to be
 * made before its limit those whose limit is met already. Other scenarios move none like them: a plan made anew holds to its pins.
 */
export function bookingsThatStay(
  change: ScenarioChange,
  { bookings }: Pick<BudgetInputs, "bookings">,
  problem: BudgetProblem,
): readonly ScenarioStay[] {
  if (change.kind !== "postpone" && change.kind !== "run-to-limit") return [];
  const units = new Map(problem.units.map((unit) => [unit.unit, unit]));
  return bookings.flatMap(({ unit: name, scope, start, isPinned }): ScenarioStay[] => {
    const stay = { unit: name, scope, start };
    if (change.kind === "postpone") return isPinned ? [{ ...stay, why: "pinned" }] : [];
    const unit = units.get(name);
    const work = unit?.works.find((one) => one.scope === scope);
    if (work === undefined || work.spareOf !== null || !work.cures.includes("topEnd")) return [];
    if (isPinned) return [{ ...stay, why: "pinned" }];
    const met = unit?.needs.find(({ of }) => of === "topEnd")?.crossed[0] ?? 0;
    return met >= metFrom ? [{ ...stay, why: "past-limit" }] : [];
  });
}

/** Whether a booking is among those that stay. */
export const isStaying = (
  stays: readonly ScenarioStay[],
  { unit, scope, start }: Pick<ScenarioStay, "unit" | "scope" | "start">,
): boolean => stays.some((one) => one.unit === unit && one.scope === scope && one.start === start);
