import { budgetInputsOf, budgetOfToday } from "../../db/budgets.ts";
import { unitsNaming } from "../../db/connected.ts";
import { keepScenarioResult, scenariosTold } from "../../db/scenarios.ts";
import { readSettings } from "../../db/settings.ts";
import type { Store } from "../../db/store.ts";
import { readInputs } from "../../lib/budget/inputs.ts";
import { modelOfScenario } from "../../lib/budget/scenario-inputs.ts";
import { outlookOf } from "../../lib/plan/outlook-of.ts";
import type { UnitOutlook } from "../../lib/plan/problem-of.ts";
import type { EngineModel } from "../../lib/schema/engine-model.ts";
import type { IsoDate } from "../../lib/schema/facts.ts";
import type { NoScenario } from "../../lib/schema/scenario.ts";
import { tellDrawing } from "./budget-anew.ts";
import { eachUnit } from "./each-unit.ts";
import { fittedPools } from "./fit-pools.ts";
import { fleetKinds } from "./fleet-kinds.ts";
import { JobError } from "./job-registry.ts";
import { asFleetPools, keptPools, kindsDue } from "./kept-pools.ts";
import { planEffort, withSignal } from "./plan-anew.ts";
import type { Act, JobControl } from "./progress.ts";
import { inWorker } from "./worker/in-worker.ts";
import type { RunTask } from "./worker/tasks.ts";

/**
 * Reckons a what-if beside today's budget, from what that was drawn from and with its seed, and keeps what came of it.
 * Throws a JobError with a sentence where there is no budget yet, or nothing that the change could be made to.
 */
export async function runScenarioOf(
  store: Store,
  id: number,
  { now }: Pick<Act, "now">,
  control: JobControl = {},
  run: RunTask = inWorker(),
): Promise<void> {
  const [scenario] = (await scenariosTold(store)).filter((one) => one.id === id);
  if (scenario === undefined) throw new JobError("This what-if was withdrawn.");
  const budget = await budgetOfToday(store);
  const inputs = budget === null ? null : await budgetInputsOf(store, budget.id);
  const base = inputs === null ? null : readInputs(inputs);
  if (budget === null || inputs === null || base === null)
    throw new JobError("Today’s budget is not drawn yet. Look at the Budget page, and try again once it stands there.");
  const { change } = scenario;
  const model = modelOfScenario(base, change);
  if (!model.ok) throw new JobError(noScenarioWords(model.error));
  const reassessed = model.value === null ? [] : await reassessedUnder(store, model.value, base.asOf, control);
  const { seed, draws, basis } = budget;
  const told = await run(
    "scenario",
    { inputs, change, reassessed, seed, draws, ...planEffort },
    { tell: tellDrawing(control), ...withSignal(control) },
  );
  if (!told.ok) throw new JobError(noScenarioWords(told.error));
  await keepScenarioResult(store, id, { madeAt: now.toISOString(), basis, result: told.value });
}

/** The units of a model, assessed as if it were this one. Nothing is kept. */
async function reassessedUnder(
  store: Store,
  model: EngineModel,
  asOf: IsoDate,
  control: JobControl,
): Promise<UnitOutlook[]> {
  const change = { models: [model] };
  const settings = await readSettings(store);
  const { kinds, usualMeterUnits } = await fleetKinds(store, change);
  const due = kindsDue(kinds, await keptPools(store));
  const { pools } = await fittedPools(store, { asOf, kinds, usualMeterUnits, due, change }, control);
  const outlooks: UnitOutlook[] = [];
  await eachUnit(
    store,
    [...(await unitsNaming(store, { models: [model.id], depots: [] }))],
    { asOf, settings, pools: asFleetPools(pools), usualMeterUnits, change },
    { make: outlookOf, take: (outlook) => void outlooks.push(outlook) },
    control,
  );
  return outlooks.filter((outlook) => outlook.model.id === model.id);
}

/** Why a what-if cannot be reckoned, as a sentence. */
function noScenarioWords(why: NoScenario): string {
  switch (why.code) {
    case "unknown-model":
      return `No unit has an engine of the model ${why.engineModel}.`;
    case "no-such-limit":
      return `The engine model ${why.engineModel} has no such limit.`;
    case "limit-out-of-range":
      return `The limit of ${why.engineModel} would lie where none can: choose a smaller step.`;
    case "no-exchange":
      return `The engine model ${why.engineModel} tells no hours and parts of an exchange engine: give them on its page first.`;
    case "unknown-depot":
      return `No unit stands at ${why.depot}.`;
    case "month-outside":
      return `The month ${why.month} does not lie in the budget, as far as its forecasts reach.`;
  }
}
