import { budgetBridge } from "../../../lib/budget/bridge.ts";
import type { MixedForecasts } from "../../../lib/budget/bridge-mixtures.ts";
import type { BudgetBridge, NoBridge } from "../../../lib/schema/bridge.ts";
import type { BudgetDocument } from "../../../lib/schema/budget-document.ts";
import type { KeptBudgetInputs } from "../../../lib/schema/kept-budget.ts";
import { inputsOf } from "./budget-task.ts";

interface Kept {
  readonly inputs: KeptBudgetInputs;
  readonly document: BudgetDocument;
}

export interface BridgeInput {
  readonly was: Kept;
  readonly now: Kept;
  /** Of units that several causes moved, their forecasts in between. */
  readonly mixed: MixedForecasts;
  /** The fiscal year that is told. */
  readonly year: string;
}

/** Why one budget is another than an earlier one. */
export function bridgeTask(
  { was, now, mixed, year }: BridgeInput,
  tell: (share: number | null) => void,
): BudgetBridge | NoBridge {
  const drawn = ({ inputs, document }: Kept) => ({ inputs: inputsOf(inputs), document });
  return budgetBridge(drawn(was), drawn(now), { year, mixed, onProgress: tell });
}
