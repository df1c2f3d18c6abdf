import { z } from "zod";
import { unitNames } from "../../db/assessments.ts";
import { depotsVersion } from "../../db/depots.ts";
import { repairFacts } from "../../db/facts.ts";
import { assessedVersion, factsVersion } from "../../db/meta.ts";
import { choicesInForce, endChoices, type PlanChoice } from "../../db/plan-choices.ts";
import { keepPlan, newestPlan, planInForce } from "../../db/plans.ts";
import { readSettings, settingsVersion } from "../../db/settings.ts";
import type { Store } from "../../db/store.ts";
import { workshopTold } from "../../db/workshop.ts";
import { daysBetween } from "../../lib/calendar.ts";
import { cures } from "../../lib/plan/cures.ts";
import { isNewRepair, repairKey } from "../../lib/plan/still-booked.ts";
import { planGap } from "../../lib/plan/types.ts";
import type { IsoDate } from "../../lib/schema/facts.ts";
import { type KeptPlan, planFormat } from "../../lib/schema/kept-plan.ts";
import { asOfDate } from "./as-of.ts";
import { fleetOutlooks } from "./fleet-outlooks.ts";
import { forecastVersion } from "./forecast-version.ts";
import { type Act, doerOf, type JobControl, progressOf } from "./progress.ts";
import { inWorker } from "./worker/in-worker.ts";
import type { RunTask } from "./worker/tasks.ts";
import { workshopNow } from "./workshop-now.ts";

/** Proven to cost at most this share more than the cheapest, or the best that is found in so long. */
export const planEffort = { gap: planGap, seconds: 60 } as const;

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

const basisSchema = z.looseObject({ chosen: z.unknown() });

/** A basis but for what people chose. */
export function withoutChoices(basis: string): string {
  const { chosen: _, ...rest } = basisSchema.parse(JSON.parse(basis));
  return JSON.stringify(rest);
}

/** What of a basis people chose. */
export const chosenIn = (basis: string): string => JSON.stringify(basisSchema.parse(JSON.parse(basis)).chosen);

/**
 * Makes the plan anew from the reports in force and puts it in force; gives its number, null where the fleet has no units. It keeps to
 * the pins; those whose repair was put on file since, or whose week has gone by, end first. Where another plan came into force
 * meanwhile it is made again, of what is in force by then: the later of two that ran at once would else undo what was chosen
 * between their beginnings.
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
  const asOf = asOfDate(await readSettings(store), act.now);
  await endPassed(store, asOf, act);
  const basis = await planBasis(store);
  const { workshop, dropped } = await workshopNow(store);
  const outlooks = await fleetOutlooks(store, units, control);
  control.onProgress?.(progressOf("planning"));
  const made = await run("plan", { outlooks, workshop, dropped, asOf, ...planEffort }, withSignal(control));
  const plan = {
    ...made,
    repairsKnown: await repairsKnown(
      store,
      made.bookings.map(({ unit }) => unit),
    ),
  };
  return (await keepPlan(store, { plan, workshop, basis, asOf, ...doerOf(act), seen })) ?? "overtaken";
}

/** What of a job's control concerns a task. */
export const withSignal = ({ signal }: JobControl): { readonly signal?: AbortSignal } =>
  signal === undefined ? {} : { signal };

/**
 * Ends the choices that hold no longer: of repairs that were put on file since (of one made in part, what is left is the plan's to
 * decide), and of weeks that have gone by.
 */
async function endPassed(store: Store, asOf: IsoDate, act: Act): Promise<void> {
  const choices = await choicesInForce(store);
  if (choices.length === 0) return;
  const planned = (await planInForce(store))?.asOf ?? asOf;
  const repairs = await repairFacts(store, [...new Set(choices.map(({ unit }) => unit))]);
  const isMade = (choice: PlanChoice): boolean => {
    const [since = planned] = [choice.at.slice(0, 10), planned].toSorted();
    const chosen = cures(choice.scope);
    const cured = repairs
      .filter((repair) => repair.unit === choice.unit && isNewRepair(repair, new Set(choice.known), since))
      .flatMap(({ scope }) => cures(scope));
    // A drop stands for what it leaves out; a pin has nothing of its own left once a part of it is made.
    return choice.date === null ? chosen.every((of) => cured.includes(of)) : chosen.some((of) => cured.includes(of));
  };
  const made = choices.filter(isMade);
  const passed = choices.filter(
    (choice) => !made.includes(choice) && choice.date !== null && daysBetween(choice.date, asOf) >= 7,
  );
  const idsOf = (some: readonly PlanChoice[]) => some.map(({ id }) => id);
  await endChoices(store, idsOf(made), { ...doerOf(act), because: "repaired" });
  await endChoices(store, idsOf(passed), { ...doerOf(act), because: "gone-by" });
}

/** Of some units, keys of the repairs that are on file. */
async function repairsKnown(store: Store, units: readonly string[]): Promise<KeptPlan["repairsKnown"]> {
  const known: Record<string, string[]> = Object.fromEntries(units.map((unit) => [unit, []]));
  for (const repair of await repairFacts(store, units)) known[repair.unit]?.push(repairKey(repair));
  return known;
}
