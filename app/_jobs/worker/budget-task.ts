import { budgetDocument } from "../../../lib/budget/document.ts";
import { problemOfInputs } from "../../../lib/budget/frame.ts";
import { type BudgetInputs, readInputs } from "../../../lib/budget/inputs.ts";
import { leftOutOf } from "../../../lib/budget/left-out.ts";
import { simulateBudget } from "../../../lib/budget/simulate.ts";
import type { BudgetDocument } from "../../../lib/schema/budget-document.ts";
import type { KeptBudgetInputs } from "../../../lib/schema/kept-budget.ts";

export interface BudgetInput {
  readonly inputs: KeptBudgetInputs;
  readonly seed: number;
  readonly draws: number;
}

/** The budget of a fleet under a plan. */
export function budgetTask({ inputs, seed, draws }: BudgetInput, tell: (share: number | null) => void): BudgetDocument {
  const read = inputsOf(inputs);
  const problem = problemOfInputs(read);
  const outlooks = read.units.map(({ outlook }) => outlook);
  return budgetDocument(problem, simulateBudget(problem, { seed, draws, onProgress: tell }), {
    ...read.workshop,
    seed,
    leftOut: leftOutOf(outlooks, read.workshop, problem.firstMonday),
  });
}

/** Inputs that whoever asks has read before: they are of this program's form. */
export function inputsOf(kept: KeptBudgetInputs): BudgetInputs {
  const inputs = readInputs(kept);
  if (inputs === null) throw new Error(`inputs of a budget in the form ${kept.format} cannot be drawn from`);
  return inputs;
}
