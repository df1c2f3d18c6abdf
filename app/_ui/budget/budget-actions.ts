"use server";

import { revalidatePath } from "next/cache";
import { z } from "zod";
import { appStore } from "../../../db/app-store.ts";
import { freezeBudget, withdrawBudget } from "../../../db/budgets.ts";
import { scenariosTold, withdrawScenario } from "../../../db/scenarios.ts";
import { longestName } from "../../../lib/schema/longest-name.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { type Act, doerOf } from "../../_jobs/progress.ts";
import { giveUp, mostWaiting, nameAndReckon, reckon } from "../../_jobs/what-ifs.ts";
import { actingViewer } from "../acting.ts";
import { type Begun, notBegun, notUnderstood } from "../asking/begun.ts";
import { decimalSignOf } from "../figures.ts";
import { viewerFormats } from "../viewer.ts";
import { whatIfAddress } from "./address.ts";
import { readScenarioForm, scenarioFormSchema } from "./scenario-form.ts";

/** What became of the wish to freeze a budget. */
export interface FreezeOutcome {
  /** What was typed, so that it is not lost where it was refused. */
  readonly name: string;
  readonly problem: string | null;
  /** Name of the budget that was frozen last. */
  readonly frozen: string | null;
}

const frozenName = z.string().trim().min(1, "Give it a name.").max(longestName, "That name is too long.");
const numbered = z.coerce.number().int().positive();

const textOf = (form: FormData, field: string): string => {
  const value = form.get(field);
  return typeof value === "string" ? value : "";
};

/** Freezes today's budget, as the person saw it, under the name in the form. */
export async function freeze(before: FreezeOutcome, form: FormData): Promise<FreezeOutcome> {
  const name = textOf(form, "name");
  const refused = (problem: string): FreezeOutcome => ({ ...before, name, problem });
  const act = await actingViewer();
  if (typeof act === "string") return refused(act);
  const [parsed, seen] = [frozenName.safeParse(name), numbered.safeParse(textOf(form, "budget"))];
  if (!parsed.success) return refused(parsed.error.issues[0]?.message ?? notUnderstood);
  if (!seen.success) return refused(notUnderstood);
  const frozen = await freezeBudget(await appStore(), { seen: seen.data, name: parsed.data }, doerOf(act));
  if (frozen === "name-taken")
    return refused("A frozen budget has this name already. Choose another, or withdraw that one.");
  if (frozen === "other") {
    revalidatePath("/budget");
    return refused("The budget was drawn anew meanwhile, so nothing was frozen. Look at it, and freeze it again.");
  }
  revalidatePath("/budget");
  return { name: "", problem: null, frozen: parsed.data };
}

/** Withdraws the frozen budget in the form field `id`. Answers why it was not done, or null. */
export const withdrawFrozen = async (_before: string | null, form: FormData): Promise<string | null> =>
  withdraw(form, "/budget", async (id, act) => withdrawBudget(await appStore(), id, doerOf(act)));

/** Withdraws the what-if in the form field `id`. Answers why it was not done, or null. */
export const withdrawWhatIf = async (_before: string | null, form: FormData): Promise<string | null> =>
  withdraw(form, whatIfAddress, async (id, act) => {
    const store = await appStore();
    const isWithdrawn = await withdrawScenario(store, id, doerOf(act));
    giveUp(store, id);
    return isWithdrawn;
  });

async function withdraw(
  form: FormData,
  page: string,
  act: (id: number, by: Act) => Promise<boolean>,
): Promise<string | null> {
  const by = await actingViewer();
  if (typeof by === "string") return by;
  const id = numbered.safeParse(textOf(form, "id"));
  if (!id.success) return notUnderstood;
  const isDone = await act(id.data, by);
  revalidatePath(page);
  return isDone ? null : "It was withdrawn before.";
}

/**
 * Keeps a what-if under a name, and begins to reckon it. Without a job, but to be saved: it is on the list, where it says itself that
 * it is taken up later.
 */
export async function askWhatIf(asked: unknown): Promise<Begun> {
  const given = scenarioFormSchema.safeParse(asked);
  if (!given.success) return { ...notBegun, problem: notUnderstood };
  const act = await actingViewer();
  if (typeof act === "string") return { ...notBegun, problem: act };
  const f = await viewerFormats();
  const read = readScenarioForm(given.data, decimalSignOf(f.preferences.numbers));
  if (!read.ok) return { ...notBegun, problems: read.problems };
  const begun = await nameAndReckon(await appStore(), read, act);
  if (begun === "full") return { ...notBegun, problem: tooManyWords(f) };
  if (begun === "name-taken")
    return { ...notBegun, problems: { name: "A what-if has this name already. Choose another." } };
  return { ...notBegun, kind: "save", job: begun.job };
}

/** Reckons a what-if again, beside today's budget. */
export async function reckonWhatIf(id: number): Promise<Begun> {
  const act = await actingViewer();
  if (typeof act === "string") return { ...notBegun, problem: act };
  const store = await appStore();
  const known = await scenariosTold(store);
  if (!known.some((one) => one.id === id)) return { ...notBegun, problem: "This what-if was withdrawn." };
  const job = reckon(store, id, act);
  if (job === null) return { ...notBegun, problem: tooManyWords(await viewerFormats()) };
  return { ...notBegun, kind: "save", job };
}

/** Why no further what-if is begun. */
const tooManyWords = (f: Formats): string =>
  `${f.number(mostWaiting)} what-ifs are being reckoned or wait for their turn already, and no more may. Ask again once one of them is done.`;
