import { depotSetups } from "../../db/depots.ts";
import { choicesInForce, type PlanChoice } from "../../db/plan-choices.ts";
import type { Store } from "../../db/store.ts";
import { workshopTold } from "../../db/workshop.ts";
import type { PlanProblem } from "../../lib/plan/types.ts";
import type { DepotSetup } from "../../lib/schema/depot.ts";
import type { Workshop } from "../../lib/schema/workshop.ts";

export interface WorkshopNow {
  /** With what each depot has, and the pins in force. */
  readonly workshop: Workshop;
  readonly dropped: PlanProblem["dropped"];
}

/** What a plan and a budget have to keep to now: what was told of prices, of each depot, and of single repairs. */
export async function workshopNow(store: Store): Promise<WorkshopNow> {
  const [{ workshop }, setups, choices] = await Promise.all([
    workshopTold(store),
    depotSetups(store),
    choicesInForce(store),
  ]);
  const depots = [...setups].map(([depot, { setup }]) => [depot, depotOfWorkshop(setup)] as const);
  return {
    workshop: { ...workshop, depots: Object.fromEntries(depots), pins: pinsOf(choices) },
    dropped: droppedBy(choices),
  };
}

/** What was told of a depot, as the document has it; what nobody told is that of any depot. */
function depotOfWorkshop({ periods, retired: _, ...capacity }: DepotSetup): Workshop["depots"][string] {
  const told = Object.entries(capacity).filter(([, value]) => value !== null);
  return { ...Object.fromEntries(told), ...(periods.length === 0 ? {} : { periods }) };
}

const pinsOf = (choices: readonly PlanChoice[]): Workshop["pins"] =>
  choices.flatMap(({ unit, scope, date }) => (date === null ? [] : [{ unit, scope, date }]));

const droppedBy = (choices: readonly PlanChoice[]): PlanProblem["dropped"] =>
  choices
    .filter(({ kind }) => kind === "drop")
    .flatMap(({ unit, scope }) => [
      ...(scope === "bottom-end" ? [] : [{ unit, of: "topEnd" } as const]),
      ...(scope === "top-end" ? [] : [{ unit, of: "bottomEnd" } as const]),
    ]);
