"use server";

import { revalidatePath } from "next/cache";
import { appStore } from "../../../db/app-store.ts";
import { changeDepot, depotHistory } from "../../../db/depots.ts";
import { blankDepotSetup, type DepotSetup } from "../../../lib/schema/depot.ts";
import { doerOf } from "../../_jobs/progress.ts";
import { actingViewer } from "../acting.ts";
import type { FieldProblems } from "../asking/field-problems.ts";
import { type DepotFields, depotFieldsSchema, readDepotFields } from "./depot-form.ts";

export interface DepotOutcome {
  /** The change that is in force now; null: nothing was written, and `problem` or `problems` say why. */
  readonly saved: number | null;
  readonly problem: string | null;
  readonly problems: FieldProblems;
  /** Somebody saved the depot meanwhile; `latest` is that change. */
  readonly meanwhile: { readonly by: string; readonly latest: number } | null;
}

const nothing: DepotOutcome = { saved: null, problem: null, problems: {}, meanwhile: null };

/** Saves what the form says of a depot. `after`: the change that the person saw last; null: there was none. */
export async function saveDepot(depot: string, given: DepotFields, after: number | null): Promise<DepotOutcome> {
  const fields = depotFieldsSchema.safeParse(given);
  if (!fields.success)
    return { ...nothing, problem: "The form is not understood. Load the page again; nothing was changed." };
  const read = readDepotFields(fields.data);
  if (!read.ok) return { ...nothing, problems: read.problems };
  return keep(depot, read.setup, after);
}

/** Puts back what a change told of the depot; null: what was before the first one. */
export async function putBackDepot(depot: string, change: number | null, after: number): Promise<DepotOutcome> {
  const history = await depotHistory(await appStore(), depot);
  const setup = change === null ? blankDepotSetup : history.find(({ id }) => id === change)?.setup;
  if (setup === undefined) return { ...nothing, problem: "This change is not on the books any more." };
  return keep(depot, setup, after);
}

async function keep(depot: string, setup: DepotSetup, after: number | null): Promise<DepotOutcome> {
  const act = await actingViewer();
  if (typeof act === "string") return { ...nothing, problem: act };
  const store = await appStore();
  const meanwhile = await changeDepot(store, depot, setup, { ...doerOf(act), after });
  const [latest] = await depotHistory(store, depot);
  revalidatePath("/depots", "layout");
  if (latest === undefined) throw new Error(`no change of the depot ${depot} is on file`);
  return meanwhile === null
    ? { ...nothing, saved: latest.id }
    : { ...nothing, meanwhile: { by: meanwhile.by, latest: latest.id } };
}
