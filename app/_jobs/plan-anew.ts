import { unitNames } from "../../db/assessments.ts";
import { depotsVersion } from "../../db/depots.ts";
import { repairFacts } from "../../db/facts.ts";
import { assessedVersion, factsVersion } from "../../db/meta.ts";
import { choicesInForce, endChoices } from "../../db/plan-choices.ts";
import { keepPlan, newestPlan, planInForce } from "../../db/plans.ts";
import { readSettings, settingsVersion } from "../../db/settings.ts";
import type { Store } from "../../db/store.ts";
import { workshopTold } from "../../db/workshop.ts";
import { cures } from "../../lib/plan/cures.ts";
import type { IsoDate, RepairFact } from "../../lib/schema/facts.ts";
import { planFormat } from "../../lib/schema/kept-plan.ts";
import { asOfDate } from "./as-of.ts";
import { fleetOutlooks } from "./fleet-outlooks.ts";
import { forecastVersion } from "./forecast-version.ts";
import { type Act, doerOf, type JobControl, progressOf } from "./progress.ts";
import { inWorker } from "./worker/in-worker.ts";
import type { RunTask } from "./worker/tasks.ts";
import { workshopNow } from "./workshop-now.ts";

/** Proven to cost at most this share more than the cheapest, or the best that is found in so long. */
export const planEffort = { gap: 0.001, seconds: 60 } as const;

/**
 * What a plan made now would be made from, but for the day: facts and how far the reports are up to date with them, settings, what
 * workshops have and cost, what people chose, and how this program forecasts and plans. As text that is compared as a whole.
 */
export async function planBasis(store: Store): Promise<string> {
  const [facts, assessed, settings, depots, workshop, choices] = await Promise.all([
    factsVersion(store, store.q),
    assessedVersion(store),
    settingsVersion(store),
    depotsVersion(store),
    workshopTold(store),
    choicesInForce(store),
  ]);
  const chosen = choices.map(({ id }) => id);
  return JSON.stringify({
    facts,
    assessed,
    settings,
    depots,
    workshop: workshop.id,
    chosen,
    forecast: forecastVersion,
    planFormat,
  });
}

/**
 * Makes the plan anew from the reports in force and puts it in force; gives its number, null where the fleet has no units. It keeps to
 * the pins; those whose repair was recorded since end first. Where another plan came into force meanwhile it is made again, of what
 * is in force by then: the later of two that ran at once would else undo what was chosen between their beginnings.
 */
export async function planAnew(
  store: Store,
  act: Act,
  control: JobControl = {},
  run: RunTask = inWorker(),
): Promise<number | null> {
  for (;;) {
    const made = await planOnce(store, act, control, run);
    if (made !== "overtaken") return made;
  }
}

/** The same, but where another plan came into force meanwhile nothing is kept. */
export async function planOnce(
  store: Store,
  act: Act,
  control: JobControl,
  run: RunTask,
): Promise<number | "overtaken" | null> {
  const units = await unitNames(store);
  if (units.length === 0) return null;
  const seen = await newestPlan(store);
  await endRepaired(store, act);
  const asOf = asOfDate(await readSettings(store), act.now);
  const basis = await planBasis(store);
  const { workshop, dropped } = await workshopNow(store);
  const outlooks = await fleetOutlooks(store, units, control);
  control.onProgress?.(progressOf("planning"));
  const plan = await run("plan", { outlooks, workshop, dropped, asOf, ...planEffort }, withSignal(control));
  return (await keepPlan(store, { plan, workshop, basis, asOf, ...doerOf(act), seen })) ?? "overtaken";
}

/** What of a job's control concerns a task. */
export const withSignal = ({ signal }: JobControl): { readonly signal?: AbortSignal } =>
  signal === undefined ? {} : { signal };

/** Ends the choices of repairs that were made: a repair that cures the same, recorded on or after the day it was chosen for. */
async function endRepaired(store: Store, act: Act): Promise<void> {
  const choices = await choicesInForce(store);
  if (choices.length === 0) return;
  const asOf = (await planInForce(store))?.asOf ?? null;
  const repairs = await repairFacts(store, [...new Set(choices.map(({ unit }) => unit))]);
  const done = choices.filter((choice) => {
    const since: IsoDate = earlier(choice.at.slice(0, 10), asOf);
    return repairs.some(
      (repair) => repair.unit === choice.unit && repair.date >= since && curesAll(repair, choice.scope),
    );
  });
  await endChoices(
    store,
    done.map(({ id }) => id),
    { ...doerOf(act), because: "repaired" },
  );
}

const earlier = (a: IsoDate, b: IsoDate | null): IsoDate => (b !== null && b < a ? b : a);

const curesAll = (repair: RepairFact, scope: Parameters<typeof cures>[0]): boolean => {
  const made = cures(repair.scope);
  return cures(scope).every((of) => made.includes(of));
};
