import { finishStaging } from "../../db/comparison.ts";
import { knownFleet } from "../../db/fleet-known.ts";
import { discardImport } from "../../db/import-state.ts";
import { addImportIssues, beginImport, type ImportDetail, importDetail } from "../../db/imports.ts";
import { factsVersion } from "../../db/meta.ts";
import type { ImportOrigin } from "../../db/schema-imports.ts";
import { readSettings } from "../../db/settings.ts";
import { stageFacts } from "../../db/staging-facts.ts";
import type { Store } from "../../db/store.ts";
import { inOwnColumn } from "../../lib/intake/layout-rows.ts";
import { mergeDepots } from "../../lib/intake/merge-facts.ts";
import type { Layout } from "../../lib/layout/layout.ts";
import type { RowIssue } from "../../lib/schema/intake.ts";
import type { Settings } from "../../lib/schema/settings.ts";
import { lastDateTaken } from "./as-of.ts";
import { type ImportSource, inReadingOrder } from "./import-source.ts";
import { keepOriginals } from "./keep-originals.ts";
import { lostCylinders } from "./lost-cylinders.ts";
import { type Act, doerOf, type JobControl, progressOf } from "./progress.ts";
import { readSources } from "./read-sources.ts";
import { stageUnits } from "./stage-units.ts";
import { unitSpool } from "./unit-spool.ts";

const issuesAtATime = 1000;

/**
 * Reads files of any kinds, given together, into an import that waits to be committed or discarded: nothing of it is
 * visible. Memory does not grow with the files. Rows are judged as `assess` judges them, beside what the store knows of
 * their unit; the order of files and rows makes no difference. Gives the import with its counts and those of each file;
 * its issues and changed rows are asked of the store. Files that people gave are kept with it, byte for byte. A file that cannot be read as text is refused with an issue; one
 * whose bytes cannot be had, a cancel or any other failure takes the whole import back. `settings`: those that will come
 * with the import; left out, those in force tell which dates may be taken. `origin`: whether people gave files or filled
 * in a form. `id`: that the import gets; left out, a new one.
 */
export async function stageImport(
  store: Store,
  given: readonly ImportSource[],
  act: Act,
  control: JobControl = {},
  {
    settings,
    origin = "file",
    id,
  }: { settings?: Pick<Settings, "asOf" | "timeZone">; origin?: ImportOrigin; id?: string | undefined } = {},
): Promise<ImportDetail> {
  const sources = await inReadingOrder(given);
  const doer = doerOf(act);
  const files = sources.map(({ name, bytes }) => ({ name, bytes }));
  const importId = await beginImport(store, { ...doer, files, origin, ...(id === undefined ? {} : { id }) });
  const spool = unitSpool();
  const foreign = new Map<string, Layout>();
  const issues = issueWriter(store, importId);
  /** What rows are told once all of them are known, in the columns of their own file. */
  const tellJudged = (told: readonly RowIssue[]) =>
    issues.tell(told.map((issue) => inOwnColumn(issue, foreign.get(issue.file))));
  try {
    const looks = await keepOriginals(store, sources, { importId: origin === "file" ? importId : null }, control);
    // Read before all that rows are judged by, so that a commit made meanwhile has them judged again at theirs.
    const version = await factsVersion(store, store.q);
    const known = await knownFleet(store, { today: lastDateTaken(settings ?? (await readSettings(store)), act.now) });
    const read = await readSources(
      store,
      sources,
      { importId, known, spool, looks, foreign, tell: issues.tell },
      control,
    );
    for (const { file, model } of read.models) await stageFacts(store, importId, { models: { file, models: [model] } });
    const depots = mergeDepots(read.depots);
    await issues.tell(depots.issues);
    await stageFacts(store, importId, { depots: depots.depots });
    const ownModels = read.models.map(({ model }) => [model.id, model] as const);
    const models = {
      changed: new Map([...known.models, ...ownModels]),
      known: new Map([...ownModels, ...known.models]),
    };
    const changedEngines = await stageUnits(
      { store, importId, models, knownUnits: new Set(known.units.keys()), spool, read, tell: tellJudged },
      control,
    );
    await tellJudged(await lostCylinders(store, { models, known, read, changedEngines }));
    await issues.end();
    control.onProgress?.(progressOf("comparing"));
    await finishStaging(store, importId, { version });
    control.signal?.throwIfAborted();
    return (await importDetail(store, importId)) as ImportDetail;
  } catch (error) {
    await discardImport(store, importId, doer);
    throw error;
  } finally {
    spool.close();
  }
}

/** Writes issues some hundred at a time. */
function issueWriter(store: Store, importId: string) {
  let waiting: RowIssue[] = [];
  const write = async (atLeast: number) => {
    while (waiting.length >= atLeast) {
      await addImportIssues(store, importId, waiting.slice(0, issuesAtATime));
      waiting = waiting.slice(issuesAtATime);
    }
  };
  return {
    tell: async (issues: readonly RowIssue[]) => {
      for (const issue of issues) waiting.push(issue);
      await write(issuesAtATime);
    },
    end: () => write(1),
  };
}
