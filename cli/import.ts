import { commitImport } from "../app/_jobs/commit-import.ts";
import { discardImport } from "../app/_jobs/discard-import.ts";
import { layoutOfRow } from "../app/_jobs/file-layout.ts";
import type { ImportSource } from "../app/_jobs/import-source.ts";
import { importErrorWords } from "../app/_jobs/import-words.ts";
import { layoutNamed } from "../app/_jobs/kept-layouts.ts";
import { openQuestions } from "../app/_jobs/open-questions.ts";
import type { Act, JobControl } from "../app/_jobs/progress.ts";
import { stageImport } from "../app/_jobs/stage-import.ts";
import type { ComesAlong } from "../db/import-state.ts";
import { allIssues, type ImportDetail, type ImportFileRow } from "../db/imports.ts";
import { keptLayouts } from "../db/layouts.ts";
import { readSettings } from "../db/settings.ts";
import type { Store } from "../db/store.ts";
import { fieldWordsOf } from "../lib/layout/column-words.ts";
import { fieldsOfOneFile } from "../lib/layout/layout.ts";
import type { ReadingChoice } from "../lib/schema/reading.ts";
import { settingsSchema } from "../lib/schema/settings.ts";
import { numberWords, sentenceWords } from "../lib/wording.ts";
import { readArguments } from "./arguments.ts";
import { fileToRead } from "./files.ts";
import { exportedFolder, namesFolder } from "./import-folder.ts";
import { issueLine } from "./issue-lines.ts";
import { controlFor } from "./job-progress.ts";
import { orNearest } from "./nearest.ts";
import { personHere } from "./person.ts";
import { readingOptions, readReadingOptions } from "./reading-options.ts";
import { Refusal } from "./refusal.ts";
import { withStore } from "./store-command.ts";
import { table } from "./table.ts";
import { type ProgressLine, print, progressLine, tell } from "./terminal.ts";

/** `borecast import`: files into the database, as one import. */
export async function importFiles(args: readonly string[], now: Date): Promise<number> {
  const { values, positionals } = readArguments("import", args, {
    by: { type: "string" },
    "dry-run": { type: "boolean", default: false },
    "take-changes": { type: "boolean", default: false },
    layout: { type: "string" },
    ...readingOptions,
  });
  if (positionals.length === 0) throw new Refusal("No file was given. See borecast import --help");
  const by = values.by?.trim() ?? personHere();
  if (by === "") throw new Refusal("--by is empty; give your name.");
  const act = { by, now };
  const reading = readReadingOptions(values);
  const choice = { act, takeChanges: values["take-changes"], dryRun: values["dry-run"] };
  if (await namesFolder(positionals)) {
    return withStore(async (store, signal) => {
      const { files, along } = await exportedFolder(store, positionals[0] ?? "");
      return run(store, await sourcesOf(files), { ...choice, signal, along });
    });
  }
  const sources = await sourcesOf(positionals, reading);
  return withStore(async (store, signal) => {
    const read = values.layout === undefined ? sources : await byLayout(store, sources, values.layout);
    return run(store, read, { ...choice, signal });
  });
}

async function sourcesOf(files: readonly string[], choice: ReadingChoice = {}): Promise<ImportSource[]> {
  const sources: ImportSource[] = [];
  for (const file of files) {
    sources.push({ ...(await fileToRead(file)), choice });
  }
  return sources;
}

/** The files with the layout that they are to be read by. */
async function byLayout(store: Store, sources: readonly ImportSource[], name: string): Promise<ImportSource[]> {
  const layout = await layoutNamed(store, name);
  if (layout !== null) {
    for (const field of fieldsOfOneFile) {
      const value = layout.constants[field];
      if (value !== undefined) tell(`By the layout "${name}" the ${fieldWordsOf(field)} is "${value}" in all rows.`);
    }
    return sources.map((source) => ({ ...source, layout, layoutName: name }));
  }
  const names = (await keptLayouts(store)).map((row) => row.name);
  throw new Refusal(`There is no layout "${name}"${orNearest(name, names)} borecast layout list names them.`);
}

interface Run {
  readonly act: Act;
  readonly takeChanges: boolean;
  readonly dryRun: boolean;
  readonly signal: AbortSignal;
  /** What an exported folder holds beside facts. */
  readonly along?: ComesAlong;
}

async function run(store: Store, sources: readonly ImportSource[], choice: Run): Promise<number> {
  const progress = progressLine();
  const control = controlFor(progress, choice.signal);
  const settings = settingsSchema.parse({ ...(await readSettings(store)), ...choice.along?.settings });
  const staged = await stageImport(store, sources, choice.act, control, { settings });
  progress.clear();
  try {
    return await tellAndTake(store, staged, choice, { progress, control });
  } finally {
    progress.clear();
    // However it ended, nobody would come for it; refused where the import is in.
    await discardImport(store, staged.id, choice.act);
  }
}

async function tellAndTake(
  store: Store,
  staged: ImportDetail,
  { act, takeChanges, dryRun, along }: Run,
  { progress, control }: { readonly progress: ProgressLine; readonly control: JobControl },
): Promise<number> {
  await tellIssues(store, staged.id);
  tellLayouts(staged);
  await print(`${summary(staged)}\n`);
  const isNews = staged.newRows > 0 || (takeChanges && staged.changedRows > 0);
  if (dryRun || !isNews) {
    await print(
      `${dryRun ? "A dry run: nothing was taken." : "Nothing new: nothing was taken."}${changesLeft(staged, takeChanges)}\n`,
    );
    return exitStatus(staged);
  }
  const outcome = await commitImport(store, staged.id, { ...act, takeChanges, ...(along && { along }) }, control);
  progress.clear();
  if (!outcome.ok) throw new Refusal(`${importErrorWords(outcome.error)} Nothing was taken.`);
  const { units, notAssessed, photosLeft } = outcome.value;
  const left = [...photosLeft, ...notAssessed];
  for (const words of left) tell(`${sentenceWords(words)}.`);
  await print(
    `Taken. ${numberWords(units)} ${units === 1 ? "unit was" : "units were"} assessed.${changesLeft(staged, takeChanges)}\n`,
  );
  return left.length > 0 ? 1 : exitStatus(staged);
}

/** As the contract has it for `assess`: 2 where no file could be used, so that nothing was done. */
function exitStatus({ refusedRows, files }: ImportDetail): number {
  if (files.every((file) => file.refused)) return 2;
  return refusedRows > 0 || files.some((file) => file.refused) ? 1 : 0;
}

const changesLeft = ({ changedRows }: ImportDetail, takeChanges: boolean): string =>
  changedRows === 0 || takeChanges
    ? ""
    : ` ${numberWords(changedRows)} ${changedRows === 1 ? "row changes" : "rows change"} what is known and ${changedRows === 1 ? "was" : "were"} left out; --take-changes takes them.`;

function summary(staged: ImportDetail): string {
  const header = ["file", "what it is", "rows", "new", "known", "changed", "refused", "warned"];
  const rows = staged.files.map((file) => [
    file.name,
    kindWords(file),
    ...[file.rows, file.newRows, file.knownRows, file.changedRows, file.refusedRows, file.warnedRows].map((n) =>
      numberWords(n),
    ),
  ]);
  return table(header, rows, [2, 3, 4, 5, 6, 7]);
}

function kindWords(file: ImportFileRow): string {
  if (openQuestions(file).length > 0) return "waits for an answer";
  return file.refused ? `${file.kind ?? "not readable"}, refused` : (file.kind ?? "");
}

/** What to do with files that a layout would read: those with open questions, and those whose cells are not the contract's. */
function tellLayouts({ files }: ImportDetail): void {
  for (const file of files) {
    const open = openQuestions(file);
    const told = layoutOfRow(file);
    const name = quoted(file.name);
    if (open.length > 0) {
      const start = open.some(({ code }) => code === "no-header")
        ? "names its first rows; with --header-row it suggests how they are read"
        : "shows each question with its answers, and --answer takes them";
      tell(`${file.name}: borecast layout suggest ${name} ${start}. ${keepAndRead(name)}`);
    } else if (told?.by === "contract") {
      const known = told.name === null ? "" : ` The kept layout "${told.name}" is of these headings.`;
      tell(`${file.name}: some of its refused cells can be read by a layout. ${keepAndRead(name)}${known}`);
    }
  }
}
const quoted = (name: string): string => (/^[\w./-]+$/.test(name) ? name : JSON.stringify(name));
const keepAndRead = (name: string): string =>
  `Keep one with borecast layout suggest ${name} --json > layout.json and borecast layout save NAME layout.json, then borecast import ${name} --layout NAME.`;

async function tellIssues(store: Store, importId: string): Promise<void> {
  for await (const issues of allIssues(store, importId)) for (const issue of issues) tell(issueLine(issue));
}
