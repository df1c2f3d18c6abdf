import { depotSetups } from "../../db/depots.ts";
import { choicesInForce, type PlanChoice } from "../../db/plan-choices.ts";
import { readSettings } from "../../db/settings.ts";
import type { Store } from "../../db/store.ts";
import { pricesToldAt, workshopTold } from "../../db/workshop.ts";
import type { PlanProblem } from "../../lib/plan/types.ts";
import type { DepotSetup } from "../../lib/schema/depot.ts";
import type { IsoDate } from "../../lib/schema/facts.ts";
import type { Settings } from "../../lib/schema/settings.ts";
import type { Workshop } from "../../lib/schema/workshop.ts";
import { dateIn } from "./as-of.ts";

export interface WorkshopNow {
  /** With what each depot has, the pins in force, and the day of the prices; only where nobody ever told any has that none. */
  readonly workshop: Workshop;
  readonly dropped: PlanProblem["dropped"];
}

/** What a plan and a budget have to keep to now: what was told of prices, of each depot, and of single repairs. */
export async function workshopNow(store: Store): Promise<WorkshopNow> {
  const [told, pricesAt, settings, setups, choices] = await Promise.all([
    workshopTold(store),
    pricesToldAt(store),
    readSettings(store),
    depotSetups(store),
    choicesInForce(store),
  ]);
  const depots = [...setups].map(([depot, { setup }]) => [depot, depotOfWorkshop(setup)] as const);
  return {
    workshop: {
      ...told.workshop,
      priceDate: priceDateOf(told.workshop, pricesAt, settings),
      depots: Object.fromEntries(depots),
      pins: pinsOf(choices),
    },
    dropped: droppedBy(choices),
  };
}

/**
 * The day whose prices were told: that on which they last changed, where no other was named; what else was told since moves it not. Counted from each plan's own day
 * prices that nobody touched would fall behind, and a budget with them. A fleet that is told for a fixed day knows none after it.
 */
function priceDateOf(
  { priceDate }: Pick<Workshop, "priceDate">,
  at: string | null,
  { timeZone, asOf }: Pick<Settings, "timeZone" | "asOf">,
): IsoDate | null {
  if (priceDate !== null || at === null) return priceDate;
  const day = dateIn(timeZone, new Date(at));
  return asOf !== null && asOf < day ? asOf : day;
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
