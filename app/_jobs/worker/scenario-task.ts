import type { Highs } from "highs";
import { runScenario } from "../../../lib/budget/scenario.ts";
import { makePlan } from "../../../lib/plan/make-plan.ts";
import type { UnitOutlook } from "../../../lib/plan/problem-of.ts";
import type { Result } from "../../../lib/result.ts";
import type { KeptBudgetInputs } from "../../../lib/schema/kept-budget.ts";
import type { NoScenario, ScenarioChange, ScenarioResult } from "../../../lib/schema/scenario.ts";
import { inputsOf } from "./budget-task.ts";

export interface ScenarioInput {
  readonly inputs: KeptBudgetInputs;
  readonly change: ScenarioChange;
  /** Units assessed under another engine model, where the change is of its limit. */
  readonly reassessed: readonly UnitOutlook[];
  readonly seed: number;
  readonly draws: number;
  /** As the plan's own. */
  readonly gap: number;
  readonly seconds: number;
}

/** What a change would come to, beside the budget as it is. */
export function scenarioTask(
  highs: Highs,
  { inputs, change, reassessed, seed, draws, gap, seconds }: ScenarioInput,
  tell: (share: number | null) => void,
): Result<ScenarioResult, NoScenario> {
  return runScenario(inputsOf(inputs), change, {
    seed,
    draws,
    reassessed,
    onProgress: tell,
    plan: (problem) =>
      makePlan(highs, problem, { gap, seconds, clock: () => performance.now() / 1000, onProgress: () => true }),
  });
}
