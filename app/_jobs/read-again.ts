import { type ImportDetail, importDetail } from "../../db/imports.ts";
import type { Store } from "../../db/store.ts";
import type { ReadAs, ReadingChoice } from "../../lib/schema/reading.ts";
import { discardImport } from "./discard-import.ts";
import { type ImportSource, withChoices } from "./import-source.ts";
import { importErrorWords } from "./import-words.ts";
import { JobError } from "./job-registry.ts";
import { keptSources } from "./kept-sources.ts";
import type { Act, JobControl } from "./progress.ts";
import { stageImport } from "./stage-import.ts";

/**
 * Reads the files of an import that waits once more, as before but for what is said of their names, and `more` beside
 * them. Gives the import
 * that comes of it; the first one is discarded once that is there. Throws a `JobError` where it does not wait any more or
 * its files were not kept.
 */
export async function readAgain(
  store: Store,
  importId: string,
  {
    choices,
    more = [],
    ...act
  }: Act & { readonly choices: Readonly<Record<string, ReadingChoice>>; readonly more?: readonly ImportSource[] },
  control: JobControl = {},
): Promise<ImportDetail> {
  const before = await importDetail(store, importId);
  if (before === null) throw new JobError(importErrorWords({ code: "unknown-import", importId }));
  const { state } = before;
  if (state !== "staged") throw new JobError(importErrorWords({ code: "wrong-state", importId, state }));
  const sources = await keptSources(store, before);
  if (sources === null) throw new JobError("The files of this import were not kept. Give them again.");
  const read = before.files.map(({ name, readAs }) => [name, { ...choiceOf(readAs), ...choices[name] }] as const);
  const after = await stageImport(store, [...withChoices(sources, Object.fromEntries(read)), ...more], act, control);
  await discardImport(store, importId, act);
  return after;
}

/** What a file was read as, said as a choice: another look at it finds the same. */
function choiceOf(readAs: ReadAs | null): ReadingChoice {
  const { encoding, delimiter, sheet, corrections } = readAs ?? { encoding: null, delimiter: null, sheet: null };
  return {
    ...(encoding === null ? {} : { encoding }),
    ...(delimiter === null ? {} : { delimiter }),
    ...(sheet === null ? {} : { sheet }),
    ...(corrections === undefined ? {} : { corrections: [...corrections] }),
  };
}
