import { importIssues } from "../../db/imports.ts";
import type { Store } from "../../db/store.ts";
import { meterResetInFile } from "../../lib/intake/words.ts";
import { contractCsv, factsOf, type Told, writtenKinds } from "../../lib/outtake/contract-csv.ts";
import type { EngineModel } from "../../lib/schema/engine-model.ts";
import { sentenceWords } from "../../lib/wording.ts";
import { type Committed, commitImport } from "./commit-import.ts";
import { discardImport } from "./discard-import.ts";
import type { ImportSource } from "./import-source.ts";
import { importErrorWords } from "./import-words.ts";
import { JobError } from "./job-registry.ts";
import type { Act, JobControl } from "./progress.ts";
import { stageImport } from "./stage-import.ts";
import { textSource } from "./text-source.ts";

/** What a person changed on a page. */
export interface FormFacts {
  /** What it is, as the history of imports tells it: "Engine model petrol-4-a". */
  readonly title: string;
  /** Each takes the place of the whole model of its id. */
  readonly models?: readonly EngineModel[];
  /** Facts of any kind, as a file of the contract would tell them. A depot without an altitude keeps the one that is known. */
  readonly told?: Told;
  /** Whether what is blank in its tests and their readings becomes blank; left out, what was told of it stays. */
  readonly tellsWhole?: boolean;
}

/**
 * Keeps what a person changed on a page as an import of its own: with who, when, a version, its undo, and a new
 * assessment of the units that it touches. `meanwhile` tells why not, where somebody changed the same since the person saw
 * it: asked when the rows were compared with what is known, and again whenever that changed before the commit. Throws a
 * `JobError` then, where nothing would change, or where it cannot be taken; nothing is kept. `id`: that the import gets; left
 * out, a new one.
 */
export async function commitFormImport(
  store: Store,
  facts: FormFacts,
  { meanwhile, id, ...act }: Act & { readonly meanwhile?: () => Promise<string | null>; readonly id?: string },
  control: JobControl = {},
): Promise<Committed & { readonly import: string }> {
  const refuseWhatChanged = async () => {
    const why = (await meanwhile?.()) ?? null;
    if (why !== null) throw new JobError(why);
  };
  const origin = facts.tellsWhole === true ? "correction" : "form";
  const staged = await stageImport(store, sourcesOf(facts), act, control, { origin, id });
  try {
    await refuseWhatChanged();
    if (staged.refusedRows > 0) throw new JobError(await firstRefusal(store, staged.id));
    if (staged.newRows + staged.changedRows === 0) {
      throw new JobError("Nothing differs from what is known already, so nothing was kept.");
    }
    const outcome = await commitImport(
      store,
      staged.id,
      { ...act, takeChanges: true, beforeJudging: refuseWhatChanged },
      control,
    );
    if (!outcome.ok) throw new JobError(importErrorWords(outcome.error));
    return { import: staged.id, ...outcome.value };
  } finally {
    // Refused where the import is in.
    await discardImport(store, staged.id, act);
  }
}

async function firstRefusal(store: Store, importId: string): Promise<string> {
  const { issues } = await importIssues(store, importId, { offset: 0, limit: 1, severity: "refused" });
  return `${sentenceWords(inForm(issues[0]?.words ?? "it cannot be taken"))}. Nothing was kept.`;
}

/** What is said of a row of a file, to somebody who filled in a form: without its place, and what to do where they are. */
const inForm = (words: string): string =>
  words.replace(/^line \d+(?:, [^:]+)?: /, "").replace(meterResetInFile, "record that first under New meter");

function sourcesOf({ title, models = [], told = {} }: FormFacts): readonly ImportSource[] {
  const sources: ImportSource[] = [];
  if (models.length > 0) sources.push(textSource(title, JSON.stringify({ schemaVersion: 1, engineModels: models })));
  for (const kind of writtenKinds) {
    if (factsOf(kind, told).length > 0) sources.push(textSource(title, contractCsv(kind, told)));
  }
  return sources;
}
