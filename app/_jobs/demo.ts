import { readdir } from "node:fs/promises";
import path from "node:path";
import { hasFacts } from "../../db/facts.ts";
import { listImports } from "../../db/imports.ts";
import type { Store } from "../../db/store.ts";
import { type Committed, commitImport } from "./commit-import.ts";
import { demoAlong, demoName, readDemoHouse, tellDemoDepots } from "./demo-house.ts";
import { discardImport } from "./discard-import.ts";
import { fileSource } from "./file-source.ts";
import type { ImportSource } from "./import-source.ts";
import { importErrorWords } from "./import-words.ts";
import { JobError } from "./job-registry.ts";
import type { Act, JobControl } from "./progress.ts";
import { reassessDay } from "./reassess-day.ts";
import { stageImport } from "./stage-import.ts";

/**
 * Loads the demo fleet from its folder through the same intake as anyone's files. Where facts are known already, nothing
 * is changed, but assessments that an earlier call did not come to are made good. May be ended at any moment and called
 * again. Gives what was committed; null: facts were there.
 */
export async function loadDemo(
  store: Store,
  folder: string,
  now: Date,
  control: JobControl = {},
): Promise<Committed | null> {
  const act: Act = { by: demoName, now };
  if (await hasFacts(store)) {
    await tellDemoDepots(store, folder, act);
    await reassessDay(store, act, control);
    return null;
  }
  for (const { id, by, state } of await listImports(store)) {
    if (by === demoName && (state === "staging" || state === "staged")) await discardImport(store, id, act);
  }
  const house = await readDemoHouse(folder);
  const { id } = await stageImport(store, await demoFiles(folder), act, control, { settings: house.settings });
  try {
    // The settings and calendars come with the rows or not at all: a load cut short must not leave its date behind.
    const outcome = await commitImport(
      store,
      id,
      { ...act, takeChanges: false, along: await demoAlong(store, house) },
      control,
    );
    if (outcome.ok) return outcome.value;
    throw new JobError(`The demo fleet was not loaded. ${importErrorWords(outcome.error)}`);
  } finally {
    // Refused where the import is in.
    await discardImport(store, id, act);
  }
}

/** The CSV files of the folder and its engine models, ascending by name. */
async function demoFiles(folder: string): Promise<ImportSource[]> {
  const names = (await readdir(folder)).filter((name) => name.endsWith(".csv") || name === "engine-models.json");
  return Promise.all(names.sort().map((name) => fileSource(path.join(folder, name))));
}
