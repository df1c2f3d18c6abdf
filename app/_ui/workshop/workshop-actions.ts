"use server";

import { isDeepStrictEqual } from "node:util";
import { revalidatePath } from "next/cache";
import { z } from "zod";
import { appStore } from "../../../db/app-store.ts";
import type { Store } from "../../../db/store.ts";
import { changeWorkshop, type DepotTold, workshopTold, workshopToldBy } from "../../../db/workshop.ts";
import { unknownNames } from "../../../lib/plan/unknown-names.ts";
import { workshopCautions } from "../../../lib/plan/workshop-cautions.ts";
import type { Workshop } from "../../../lib/schema/workshop.ts";
import { doerOf } from "../../_jobs/progress.ts";
import { fileOfStore, fleetKnown, knownNames } from "../../_jobs/workshop-file.ts";
import { actingViewer, askedElsewhere, isAskedFromHere } from "../acting.ts";
import { notUnderstood } from "../asking/begun.ts";
import { setupChanges } from "../depots/depot-words.ts";
import { decimalSignOf } from "../figures.ts";
import { viewerFormats } from "../viewer.ts";
import type { WorkshopFields } from "./workshop-fields.ts";
import { fieldAt, parsedFields, readWorkshopFields, workshopFieldsSchema } from "./workshop-form.ts";
import {
  type LookedAtFile,
  largestWorkshopFile,
  nothingKept,
  type SeenBefore,
  type WorkshopOutcome,
} from "./workshop-outcome.ts";
import { workshopChanges } from "./workshop-words.ts";

const change = z.int().min(0);
const saving = z.tuple([workshopFieldsSchema, change, z.boolean()]);
const puttingBack = z.tuple([change, change]);
const fileText = z.string().max(largestWorkshopFile);
const keepingFile = z.tuple([
  fileText,
  z.object({ after: change, depots: z.array(z.tuple([z.string(), z.int().nullable()])) }),
]);

/**
 * Saves what the form says. `after`: the change that the person saw last; 0: there was none. What may hardly be meant is asked back
 * before it is saved, unless `isMeant` says that it is.
 */
export async function saveWorkshop(given: WorkshopFields, after: number, isMeant: boolean): Promise<WorkshopOutcome> {
  const asked = saving.safeParse([given, after, isMeant]);
  if (!asked.success) return { ...nothingKept, problem: notUnderstood };
  const fields = parsedFields(asked.data[0]);
  const store = await appStore();
  const seen = await workshopToldBy(store, after);
  if (seen === null) return { ...nothingKept, problem: notUnderstood };
  const f = await viewerFormats();
  const read = readWorkshopFields(fields, { seen, sign: decimalSignOf(f.preferences.numbers) });
  if (!read.ok) return { ...nothingKept, problems: read.problems };
  const unknown = unknownNames(read.workshop, await knownNames(store));
  if (unknown.length > 0) {
    const problems = unknown.map(({ path, message }) => [fieldAt(fields, path), message]);
    // Of two in one field the first is told.
    return { ...nothingKept, problems: Object.fromEntries(problems.toReversed()) };
  }
  if (isDeepStrictEqual(read.workshop, seen)) {
    return { ...nothingKept, problem: "Nothing is changed: every field says what is in force." };
  }
  const changes = workshopChanges(f, seen, read.workshop);
  const known = await fleetKnown(store, new Date());
  const before = workshopCautions(seen, known);
  const cautions = workshopCautions(read.workshop, known).filter((caution) => !before.includes(caution));
  if (cautions.length > 0 && !isMeant) return { ...nothingKept, cautions, changes, isAskedBack: true };
  return { ...(await keep(store, read.workshop, after)), changes };
}

/** Puts back what a change told; 0: the defaults, which held before the first one. */
export async function putBackWorkshop(to: number, after: number): Promise<WorkshopOutcome> {
  if (!puttingBack.safeParse([to, after]).success) return { ...nothingKept, problem: notUnderstood };
  const store = await appStore();
  const workshop = await workshopToldBy(store, to);
  if (workshop === null) return { ...nothingKept, problem: "This change is not on the books any more." };
  const [unknown] = unknownNames(workshop, await knownNames(store));
  if (unknown !== undefined) return { ...nothingKept, problem: `${unknown.message} Nothing was put back.` };
  return keep(store, workshop, after);
}

/** What a file would change; nothing is kept. */
export async function lookAtWorkshopFile(text: string): Promise<LookedAtFile> {
  const nothing = { changes: [], pins: 0, seen: { after: 0, depots: [] } };
  if (!(await isAskedFromHere())) return { ...nothing, problem: askedElsewhere };
  const asked = fileText.safeParse(text);
  if (!asked.success) return { ...nothing, problem: notUnderstood };
  const store = await appStore();
  const [told, file, f] = await Promise.all([workshopTold(store), fileOfStore(store, asked.data), viewerFormats()]);
  if (typeof file === "string") return { ...nothing, problem: file };
  const depots = file.depots.flatMap(({ depot, setup, before }) =>
    setupChanges(f, before, setup).map((words) => ({ column: `Depot ${depot}`, before: null, after: words })),
  );
  return {
    problem: null,
    changes: [...workshopChanges(f, told.workshop, file.workshop), ...depots],
    pins: file.pins,
    seen: { after: told.id, depots: file.depots.map(({ depot, after }) => [depot, after]) },
  };
}

/** Keeps what a file says, where nothing changed since it was looked at. */
export async function keepWorkshopFile(text: string, seen: SeenBefore): Promise<WorkshopOutcome> {
  const asked = keepingFile.safeParse([text, seen]);
  if (!asked.success) return { ...nothingKept, problem: notUnderstood };
  const [given, { after, depots: known }] = asked.data;
  const store = await appStore();
  const file = await fileOfStore(store, given);
  if (typeof file === "string") return { ...nothingKept, problem: file };
  const before = new Map(known);
  const depots = file.depots.map(({ depot, setup }) => ({ depot, setup, after: before.get(depot) ?? null }));
  return keep(store, file.workshop, after, depots);
}

async function keep(
  store: Store,
  workshop: Workshop,
  after: number,
  depots: readonly DepotTold[] = [],
): Promise<WorkshopOutcome> {
  const act = await actingViewer();
  if (typeof act === "string") return { ...nothingKept, problem: act };
  const meanwhile = await changeWorkshop(store, workshop, { ...doerOf(act), after, depots });
  const { id } = await workshopTold(store);
  revalidatePath("/settings/workshop");
  if (depots.length > 0) revalidatePath("/depots", "layout");
  return meanwhile === null
    ? { ...nothingKept, saved: id, cautions: workshopCautions(workshop, await fleetKnown(store, new Date())) }
    : { ...nothingKept, meanwhile: { by: meanwhile.by, latest: id } };
}
