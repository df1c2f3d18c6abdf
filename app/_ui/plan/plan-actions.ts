"use server";

import { revalidatePath } from "next/cache";
import { z } from "zod";
import { appStore } from "../../../db/app-store.ts";
import { repairFacts } from "../../../db/facts.ts";
import { choicesInForce, chooseForUnit } from "../../../db/plan-choices.ts";
import { newestPlan, planInForce } from "../../../db/plans.ts";
import type { Choice } from "../../../lib/plan/amended.ts";
import { repairKey } from "../../../lib/plan/still-booked.ts";
import { planScopes } from "../../../lib/schema/workshop.ts";
import { unitInPlan } from "../../_jobs/plan-now.ts";
import { doerOf } from "../../_jobs/progress.ts";
import { startReplan } from "../../_jobs/replan.ts";
import { actingViewer } from "../acting.ts";
import { type Begun, notBegun, notUnderstood } from "../asking/begun.ts";

const choosing = z.tuple([
  z.string().min(1).max(400),
  z.array(z.object({ unit: z.string(), scope: z.enum(planScopes), date: z.iso.date().nullable() })).max(4),
  z.object({ plan: z.int(), choices: z.array(z.int()).max(20) }),
]);

/** What a person saw as they chose: the number of the plan in force, and ids of what was chosen for the unit before. */
export interface SeenPlan {
  readonly plan: number;
  readonly choices: readonly number[];
}

const madeAnew =
  "The plan was made anew since this page was opened, and what was asked for may cost otherwise in it. The page shows the new one now: look at it, then choose again; nothing was changed.";

/**
 * Keeps what a person wants of a unit's repairs: weeks in which they are pinned, or that they are dropped; none: the plan
 * decides again. Of a plan that the person did not see nothing is chosen. Gives a sentence that says why nothing was kept; null: it was.
 */
export async function choose(unit: string, chosen: readonly Choice[], seen: SeenPlan): Promise<string | null> {
  const asked = choosing.safeParse([unit, chosen, seen]);
  if (!asked.success || chosen.some((choice) => choice.unit !== unit)) return notUnderstood;
  const act = await actingViewer();
  if (typeof act === "string") return act;
  const store = await appStore();
  const plan = await planInForce(store);
  if (plan === null) return "There is no plan any more. Open the page anew.";
  if (plan.id !== seen.plan) return madeAnew;
  const of = await unitInPlan(store, plan, unit);
  const held = (await choicesInForce(store)).filter((choice) => choice.unit === unit);
  for (const { scope, date } of chosen) {
    if (date === null || held.some((choice) => choice.scope === scope && choice.date === date)) continue;
    const isPossible = of?.weeks.some((week) => week.scope === scope && week.start === date);
    if (!isPossible) return `${unit} can’t be booked for that week any more. Open the page anew and choose another.`;
  }
  const known = (await repairFacts(store, [unit])).map(repairKey);
  const asSeen = { seen: seen.choices, plan: seen.plan };
  if (!(await chooseForUnit(store, { unit, chosen, known, ...asSeen }, doerOf(act)))) {
    if ((await newestPlan(store)) !== seen.plan) return madeAnew;
    return `Somebody chose something else for ${unit} meanwhile. Open the page anew; nothing was changed.`;
  }
  revalidatePath("/plan");
  return null;
}

/** Begins to make the plan anew, round the pins that stand by now. */
export async function replan(): Promise<Begun> {
  const act = await actingViewer();
  if (typeof act === "string") return { ...notBegun, problem: act };
  return { ...notBegun, job: await startReplan(await appStore(), act) };
}
