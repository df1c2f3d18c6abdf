import { keptAsOf, unitNames } from "../../db/assessments.ts";
import { budgetBasis, keepBudget } from "../../db/budgets.ts";
import { choicesInForce } from "../../db/plan-choices.ts";
import { planInForce } from "../../db/plans.ts";
import { readSettings } from "../../db/settings.ts";
import type { Store } from "../../db/store.ts";
import { usualDraws } from "../../lib/budget/draws.ts";
import { keptInputs } from "../../lib/budget/inputs.ts";
import { mondayOnOrAfter } from "../../lib/calendar.ts";
import { asOfDate } from "./as-of.ts";
import { budgetInputsNow } from "./budget-inputs.ts";
import { planBasis, planOnce, withSignal } from "./plan-anew.ts";
import { planNow } from "./plan-now.ts";
import { type Act, type JobControl, progressOf } from "./progress.ts";
import { thinPlans } from "./thin-plans.ts";
import { inWorker } from "./worker/in-worker.ts";
import type { RunTask } from "./worker/tasks.ts";
import { workshopNow } from "./workshop-now.ts";

/** The same one for all budgets: what differs between two of them is then not chance. */
const budgetSeed = 1;

/** Who made a plan or a budget that nobody asked for. */
export const programName = "Borecast";

/** Counted up where a budget of the same things comes out otherwise, or is kept in another form. */
const budgetFormat = 3;

/**
 * Whether a plan is to be made without anybody asking: there is none; or nobody has a hand in it, it was made by the program and
 * nothing is pinned, and something has changed or a week has gone by. Any other one is a person's, and stays until a person replans.
 */
export async function isPlanDue(store: Store, now: Date): Promise<boolean> {
  const plan = await planInForce(store);
  if (plan === null) return true;
  if (plan.by !== programName || (await choicesInForce(store)).length > 0) return false;
  const asOf = asOfDate(await readSettings(store), now);
  return plan.basis !== (await planBasis(store)) || mondayOnOrAfter(asOf) !== plan.plan.firstMonday;
}

async function basisNow(store: Store, now: Date): Promise<string> {
  const asOf = asOfDate(await readSettings(store), now);
  const plan = (await isPlanDue(store, now)) ? null : ((await planInForce(store))?.id ?? null);
  // Drawn while a new day's reports were being made, it would else count as drawn from them.
  const reportsAsOf = await keptAsOf(store);
  return JSON.stringify({ of: await planBasis(store), asOf, reportsAsOf, plan, budgetFormat });
}

/** What today's budget is to be drawn from, where that is not what it was drawn from; null: it is up to date, or the fleet is empty. */
export async function budgetDue(store: Store, now: Date): Promise<string | null> {
  if ((await unitNames(store)).length === 0) return null;
  const basis = await basisNow(store, now);
  return (await budgetBasis(store)) === basis ? null : basis;
}

/**
 * Draws today's budget under the plan in force, which is made first where there is none, and keeps it. False: the fleet has no units.
 * What was repaired since the plan was made is booked no longer.
 */
export async function budgetAnew(
  store: Store,
  act: Act,
  control: JobControl = {},
  run: RunTask = inWorker(),
): Promise<boolean> {
  const units = await unitNames(store);
  if (units.length === 0) return false;
  // Where a person's plan came into force meanwhile, that one stays.
  while (await isPlanDue(store, act.now)) {
    if ((await planOnce(store, act, control, run)) === "overtaken") continue;
    await thinPlans(store, programName);
    break;
  }
  const plan = await planNow(store, act.now);
  if (plan === null) return false;
  const basis = await basisNow(store, act.now);
  const told = await budgetInputsNow(store, units, { plan, now: await workshopNow(store) }, control);
  const inputs = keptInputs(told);
  const [seed, draws] = [budgetSeed, usualDraws(units.length)];
  const document = await run("budget", { inputs, seed, draws }, { tell: tellDrawing(control), ...withSignal(control) });
  const at = act.now.toISOString();
  const { asOf } = plan;
  await keepBudget(store, { plan: plan.row.id, asOf, by: act.by, basis, seed, draws, at, document, inputs });
  return true;
}

/** Passes on how far the drawing is. */
export const tellDrawing =
  ({ onProgress }: JobControl) =>
  (share: number | null): void =>
    onProgress?.(progressOf("drawing", { units: Math.round((share ?? 0) * 100), totalUnits: 100 }));
