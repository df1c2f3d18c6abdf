"use server";

import { z } from "zod";
import { appStore } from "../../../db/app-store.ts";
import { longestName } from "../../../lib/schema/longest-name.ts";
import { startJob } from "../../_jobs/job-registry.ts";
import { keepLayout } from "../../_jobs/kept-layouts.ts";
import { readAgain } from "../../_jobs/read-again.ts";
import { actingViewer } from "../acting.ts";
import { notUnderstood } from "../asking/begun.ts";
import { checkLayout } from "./check-layout.ts";
import { type LayoutOutcome, nothingRead } from "./layout-outcome.ts";

const askedSchema = z.object({
  importId: z.string().min(1).max(100),
  /** The name of the file within the import. */
  file: z.string().min(1).max(1_000),
  layout: z.unknown(),
  name: z.string().max(2 * longestName),
});

/**
 * Begins to read one file of a waiting import by a layout, and keeps the layout where it was given a name. The job's result
 * names the import that comes of it.
 */
export async function readByLayout(asked: z.input<typeof askedSchema>): Promise<LayoutOutcome> {
  const given = askedSchema.safeParse(asked);
  if (!given.success) return { ...nothingRead, problem: notUnderstood };
  const { importId, file } = given.data;
  const name = given.data.name.trim();
  const checked = checkLayout(given.data.layout);
  if (!checked.ok) return { ...nothingRead, problems: checked.problems, gaps: checked.gaps };
  const act = await actingViewer();
  if (typeof act === "string") return { ...nothingRead, problem: act };
  const store = await appStore();
  if (name !== "") {
    const kept = await keepLayout(store, { name, layout: checked.layout }, act);
    if (!kept.ok) return { ...nothingRead, problems: { name: `It cannot be kept: ${kept.error.join("; ")}.` } };
  }
  const layouts = { [file]: { layout: checked.layout, name: name === "" ? null : name } };
  const job = startJob("stage", async (control) => ({
    import: (await readAgain(store, importId, { ...act, choices: {}, layouts }, control)).id,
  }));
  return { ...nothingRead, job };
}
