"use server";

import { revalidatePath } from "next/cache";
import { z } from "zod";
import { appStore } from "../../../db/app-store.ts";
import { depotOverviews } from "../../../db/depot-overview.ts";
import { changeDepot, depotHistory } from "../../../db/depots.ts";
import { blankDepotSetup, type DepotSetup } from "../../../lib/schema/depot.ts";
import { doerOf } from "../../_jobs/progress.ts";
import { actingViewer } from "../acting.ts";
import { notUnderstood } from "../asking/begun.ts";
import { decimalSignOf } from "../figures.ts";
import { viewerFormats } from "../viewer.ts";
import { type DepotFields, depotFieldsSchema, readDepotFields } from "./depot-form.ts";
import { type DepotOutcome, nothingKept } from "./depot-outcome.ts";
import { unknownDepot } from "./depot-words.ts";

const name = z.string().min(1).max(400);
const change = z.int().nullable();
const saving = z.tuple([name, depotFieldsSchema, change]);
const puttingBack = z.tuple([name, change, z.int()]);

/** Saves what the form says of a depot. `after`: the change that the person saw last; null: there was none. */
export async function saveDepot(depot: string, given: DepotFields, after: number | null): Promise<DepotOutcome> {
  const asked = saving.safeParse([depot, given, after]);
  if (!asked.success) return { ...nothingKept, problem: notUnderstood };
  const seen = (await depotHistory(await appStore(), depot)).find(({ id }) => id === after)?.setup;
  const sign = decimalSignOf((await viewerFormats()).preferences.numbers);
  const read = readDepotFields(asked.data[1], { sign, ...(seen === undefined ? {} : { seen }) });
  if (!read.ok) return { ...nothingKept, problems: read.problems };
  return keep(depot, read.setup, after);
}

/** Puts back what a change told of the depot; null: what was before the first one. */
export async function putBackDepot(depot: string, change: number | null, after: number): Promise<DepotOutcome> {
  if (!puttingBack.safeParse([depot, change, after]).success) return { ...nothingKept, problem: notUnderstood };
  const history = await depotHistory(await appStore(), depot);
  const setup = change === null ? blankDepotSetup : history.find(({ id }) => id === change)?.setup;
  if (setup === undefined) return { ...nothingKept, problem: "This change is not on the books any more." };
  return keep(depot, setup, after);
}

async function keep(depot: string, setup: DepotSetup, after: number | null): Promise<DepotOutcome> {
  const act = await actingViewer();
  if (typeof act === "string") return { ...nothingKept, problem: act };
  const store = await appStore();
  if (!(await depotOverviews(store)).some((known) => known.depot === depot)) {
    return { ...nothingKept, problem: unknownDepot(depot) };
  }
  const meanwhile = await changeDepot(store, depot, setup, { ...doerOf(act), after });
  const [latest] = await depotHistory(store, depot);
  revalidatePath("/depots", "layout");
  if (latest === undefined) throw new Error(`no change of the depot ${depot} is on file`);
  return meanwhile === null
    ? { ...nothingKept, saved: latest.id }
    : { ...nothingKept, meanwhile: { by: meanwhile.by, latest: latest.id } };
}
