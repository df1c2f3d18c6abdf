import { type ImportDetail, type ImportFileRow, importDetail } from "../../db/imports.ts";
import type { Store } from "../../db/store.ts";
import type { Layout } from "../../lib/layout/layout.ts";
import type { ReadingChoice } from "../../lib/schema/reading.ts";
import { discardImport } from "./discard-import.ts";
import { layoutOfRow } from "./file-layout.ts";
import { type ImportSource, withChoices } from "./import-source.ts";
import { importErrorWords } from "./import-words.ts";
import { JobError } from "./job-registry.ts";
import { keptSources } from "./kept-sources.ts";
import type { Act, JobControl } from "./progress.ts";
import { stageImport } from "./stage-import.ts";

/**
 * Reads the files of an import that waits once more, as before but for what is said of their names, and `more` beside
 * them. Gives the import
 * that comes of it; the first one is discarded once that is there. Throws a `JobError` where it does not wait any more, by
 * the end of the reading at the latest, or its files were not kept; nothing comes of it then.
 */
export async function readAgain(
  store: Store,
  importId: string,
  {
    choices,
    layouts = {},
    more = [],
    ...act
  }: Act & {
    readonly choices: Readonly<Record<string, ReadingChoice>>;
    /** How the columns of files are read, by their names; `name`: under which that is kept. */
    readonly layouts?: Readonly<Record<string, ChosenLayout>>;
    readonly more?: readonly ImportSource[];
  },
  control: JobControl = {},
): Promise<ImportDetail> {
  const before = await importDetail(store, importId);
  if (before === null) throw new JobError(importErrorWords({ code: "unknown-import", importId }));
  const { state } = before;
  if (state !== "staged") throw new JobError(importErrorWords({ code: "wrong-state", importId, state }));
  const sources = await keptSources(store, before);
  if (sources === null) throw new JobError("The files of this import were not kept. Give them again.");
  const read = before.files.map((file) => [file.name, { ...choiceOf(file), ...choices[file.name] }] as const);
  const columnsAsBefore = Object.fromEntries(before.files.flatMap((file) => chosenBefore(file)));
  const again = withLayouts(withChoices(sources, Object.fromEntries(read)), { ...columnsAsBefore, ...layouts });
  const after = await stageImport(store, [...again, ...more], act, control);
  const given = await discardImport(store, importId, act);
  if (given.ok) return after;
  // Somebody else was quicker. Two imports of the same files would wait, each with half of what was put right.
  await discardImport(store, after.id, act);
  throw new JobError(
    "This import was read again, committed or discarded in another window meanwhile, so nothing was kept of this. Load the page again.",
  );
}

export interface ChosenLayout {
  readonly layout: Layout;
  readonly name: string | null;
}

/** A layout that a person chose for a file goes on; one that was kept or suggested is looked for anew. */
function chosenBefore(file: { readonly name: string; readonly layout: unknown }): [string, ChosenLayout][] {
  const told = layoutOfRow(file);
  return told?.by === "chosen" && told.layout !== null ? [[file.name, { layout: told.layout, name: told.name }]] : [];
}

const withLayouts = (
  sources: readonly ImportSource[],
  layouts: Readonly<Record<string, ChosenLayout>>,
): readonly ImportSource[] =>
  sources.map((source) => {
    const chosen = Object.hasOwn(layouts, source.name) ? layouts[source.name] : undefined;
    if (chosen === undefined) return source;
    return { ...source, layout: chosen.layout, ...(chosen.name === null ? {} : { layoutName: chosen.name }) };
  });

/** What a file was read as, said as a choice: another look at it finds the same. */
function choiceOf({ readAs, layout }: Pick<ImportFileRow, "readAs" | "layout">): ReadingChoice {
  const headings = layoutOfRow({ layout })?.headings ?? null;
  const { encoding, delimiter, sheet, corrections } = readAs ?? { encoding: null, delimiter: null, sheet: null };
  return {
    ...(encoding === null ? {} : { encoding }),
    ...(delimiter === null ? {} : { delimiter }),
    ...(sheet === null ? {} : { sheet }),
    ...(headings === null ? {} : { headings }),
    ...(corrections === undefined ? {} : { corrections: [...corrections] }),
  };
}
