"use server";

import { revalidatePath } from "next/cache";
import { appStore } from "../../../db/app-store.ts";
import { knowsUnit } from "../../../db/assessments.ts";
import { addNote, setNoteWithdrawn } from "../../../db/notes.ts";
import { readSettings } from "../../../db/settings.ts";
import { noteSchema } from "../../../lib/schema/note.ts";
import { lastDateTaken } from "../../_jobs/as-of.ts";
import { doerOf } from "../../_jobs/progress.ts";
import { actingViewer } from "../acting.ts";
import { notUnderstood } from "../asking/begun.ts";
import { unitAddress } from "../unit-address.ts";

export interface NoteOutcome {
  /** What was sent, so that nothing typed is lost where it was refused. */
  readonly given: { readonly text: string; readonly date: string } | null;
  readonly problems: { readonly text?: string; readonly date?: string; readonly form?: string };
  /** Counts up with each note kept. */
  readonly kept: number;
}

const textOf = (form: FormData, field: string): string => {
  const value = form.get(field);
  return typeof value === "string" ? value : "";
};

/** Keeps a note about the unit in the form field `unit`, with `text` and `date`. */
export async function writeNote(before: NoteOutcome, form: FormData): Promise<NoteOutcome> {
  const given = { text: textOf(form, "text"), date: textOf(form, "date") };
  const refused = (problems: NoteOutcome["problems"]) => ({ ...before, given, problems });
  const act = await actingViewer();
  if (typeof act === "string") return refused({ form: act });
  const store = await appStore();
  const parsed = noteSchema(lastDateTaken(await readSettings(store), act.now)).safeParse(given);
  if (!parsed.success) {
    return refused(
      Object.fromEntries(parsed.error.issues.toReversed().map(({ path, message }) => [String(path[0]), message])),
    );
  }
  const unit = textOf(form, "unit");
  if (!(await knowsUnit(store, unit))) return refused({ form: "No unit of this number is on the books any more." });
  await addNote(store, unit, parsed.data, doerOf(act));
  revalidatePath(unitAddress(unit));
  return { given: null, problems: {}, kept: before.kept + 1 };
}

/** Withdraws the note in the form field `note`, or puts it back where `withdrawn` is `no`. Answers why it was not done, or null. */
export async function changeNote(_before: string | null, form: FormData): Promise<string | null> {
  const act = await actingViewer();
  if (typeof act === "string") return act;
  const id = Number(textOf(form, "note"));
  if (!Number.isSafeInteger(id)) return notUnderstood;
  const withdrawn = textOf(form, "withdrawn") !== "no";
  await setNoteWithdrawn(await appStore(), { id, withdrawn }, doerOf(act));
  revalidatePath(unitAddress(textOf(form, "unit")));
  return null;
}
