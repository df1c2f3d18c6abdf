import type { ComparedModel, WearCourse } from "../../../lib/schema/comparison.ts";
import { type CompareView, kindOf } from "./address.ts";

/**
 * The model that the address asks for; else that of the first unit drawn; else, and where what is asked for was never
 * compared, the one with the most units. A model named without its meter unit: the one of most units. null: none at all.
 */
export function chooseModel(
  models: readonly ComparedModel[],
  view: CompareView,
  chosen: readonly WearCourse[],
): ComparedModel | null {
  const bySize = models.filter((m) => m.measure === view.measure).toSorted((a, b) => b.units - a.units);
  const [unit] = chosen;
  const asked =
    view.model === null
      ? bySize.find((m) => unit !== undefined && kindOf(m) === kindOf(unit))
      : bySize.find((m) => m.engineModel === view.model && (view.meterUnit === null || m.meterUnit === view.meterUnit));
  return asked ?? bySize[0] ?? models.toSorted((a, b) => b.units - a.units)[0] ?? null;
}
