import { describeImportFile } from "../../db/imports.ts";
import type { Store } from "../../db/store.ts";
import { readFleetFile } from "../../lib/intake/read-file.ts";
import { fileIssue, words } from "../../lib/intake/words.ts";
import { isWrittenOtherwise } from "../../lib/layout/contract-columns.ts";
import type { Layout } from "../../lib/layout/layout.ts";
import type { SuggestContext } from "../../lib/layout/suggestion.ts";
import type { EngineModel } from "../../lib/schema/engine-model.ts";
import type { DepotFact } from "../../lib/schema/facts.ts";
import type { IntakeChunk, KnownFleet, RowIssue } from "../../lib/schema/intake.ts";
import type { ReadAs } from "../../lib/schema/reading.ts";
import type { FileKind } from "../../lib/schema/words.ts";
import { contractLayout, type FileLayout, fileLayout } from "./file-layout.ts";
import type { ImportSource } from "./import-source.ts";
import type { Look } from "./look-through.ts";
import { breather, type JobControl, progressOf } from "./progress.ts";
import { readableText } from "./readable-text.ts";
import type { UnitSpool } from "./unit-spool.ts";

export interface ReadSources {
  /** Engine models that the files define, each once. */
  readonly models: readonly { readonly file: string; readonly model: EngineModel }[];
  /** As written, also several rows of one depot. */
  readonly depots: readonly DepotFact[];
  /** Files that do not count at all. What they gave may lie in the spool. */
  readonly refused: ReadonlySet<string>;
}

export interface Reading {
  readonly importId: string;
  readonly known: KnownFleet;
  readonly spool: UnitSpool;
  /** What was seen of each file, by its name. */
  readonly looks: ReadonlyMap<string, Look>;
  /** Gets the layouts of the files that are read by one, by their names. */
  readonly foreign: Map<string, Layout>;
  readonly tell: (issues: readonly RowIssue[]) => Promise<void>;
}

/**
 * Reads the files in their order: rows of units go to the spool, issues are told, and what became known of each file is
 * written down. Engine models that a file defines serve to judge the files after it.
 */
export async function readSources(
  store: Store,
  sources: readonly ImportSource[],
  { importId, known, spool, looks, foreign, tell }: Reading,
  { onProgress, signal }: JobControl,
): Promise<ReadSources> {
  const breathe = breather(signal);
  const totalBytes = [...looks.values()].reduce((sum, look) => sum + look.bytes, 0);
  const models = modelCollector();
  const depots: DepotFact[] = [];
  const refused = new Set<string>();
  let bytesBefore = 0;
  let rowsBefore = 0;
  for (const source of sources) {
    const file = source.name;
    const look = looks.get(file) as Look;
    const { bytes, ...text } = await readableText(source, look);
    // Models that files before this one define are known as well.
    const judged = { models: new Map([...known.models, ...models.byId()]), today: known.today };
    const context = contextOf({ ...known, models: judged.models });
    const columns = await fileLayout(store, source, { look, context });
    if (columns?.layout) foreign.set(file, columns.layout);
    let rows = 0;
    let kind: FileKind | null = null;
    let readAs: ReadAs | null = null;
    let needsLayout = false;
    for await (const chunk of readFleetFile({ ...text, file, known: judged, layout: columns?.layout ?? undefined })) {
      if (chunk.fileRefused) refused.add(file);
      rows = chunk.rows;
      ({ kind, readAs } = chunk);
      needsLayout ||= columns === null && chunk.issues.some(isCellOtherwise);
      await tell([...waiting(chunk, columns), ...models.add(file, chunk.models)]);
      for (const depot of chunk.depots) depots.push(depot);
      spool.add(chunk);
      onProgress?.(progressOf("reading", { bytes: bytesBefore + bytes(), totalBytes, rows: rowsBefore + rows }));
      await breathe();
    }
    // A file that was refused was not imported, and is not told as known when it comes again.
    const sha256 = refused.has(file) ? null : look.sha256;
    const isTests = kind === "tests-long" || kind === "tests-wide";
    const layout = needsLayout && isTests ? await contractLayout(store, source, { look, context }) : columns;
    const found = { kind, readAs, layout, sha256, bytes: look.bytes, rows, refused: refused.has(file) };
    await describeImportFile(store, importId, { name: file, ...found });
    bytesBefore += look.bytes;
    rowsBefore += rows;
  }
  return { models: models.all(), depots: depots.filter((depot) => !refused.has(depot.file)), refused };
}

/** Of a file with the contract's columns: a cell that is refused, though a layout would read it or ask. */
const isCellOtherwise = ({ severity, column, value }: RowIssue): boolean =>
  severity === "refused" && column !== null && value !== null && isWrittenOtherwise(column, value);

/** Why a file whose header is not the contract's was refused. */
const byHeader: ReadonlySet<string> = new Set(["kind-unknown", "columns-missing", "column-twice", "column-twice-more"]);

/** The issues of a chunk; of a foreign file that waits for an answer what is asked, in place of what the contract lacks. */
function waiting({ file, issues, readAs }: IntakeChunk, columns: FileLayout | null): readonly RowIssue[] {
  const asked = columns?.layout === null ? columns.questions.filter(({ needed }) => needed) : [];
  const others = issues.filter(({ code }) => !byHeader.has(code));
  if (asked.length === 0 || others.length === issues.length) return issues;
  const { sheet = null, sheets = [] } = readAs ?? {};
  const other = sheet !== null && sheets.length > 1 ? ` ${words.otherSheet(sheet, sheets)}` : "";
  const why = `${words.waits(asked.map((question) => question.words))}${other}`;
  return [...others, fileIssue("refused", "layout-open", { file }, why)];
}

/** What is known of the fleet, as it helps to tell the columns of a foreign file. */
const contextOf = ({ today, models, units }: KnownFleet): SuggestContext => ({
  today,
  models: new Set(models.keys()),
  units: new Map([...units].map(([unit, { meterUnit }]) => [unit, meterUnit])),
});

/** Two files that define one model differently: the later is refused, for nothing tells which is meant. */
function modelCollector() {
  const byId = new Map<string, { readonly file: string; readonly model: EngineModel }>();
  return {
    byId: (): [string, EngineModel][] => [...byId].map(([id, { model }]) => [id, model]),
    all: () => [...byId.values()],
    add: (file: string, models: readonly EngineModel[]): readonly RowIssue[] => {
      const issues: RowIssue[] = [];
      for (const model of models) {
        const first = byId.get(model.id);
        if (first === undefined) byId.set(model.id, { file, model });
        else if (JSON.stringify(first.model) !== JSON.stringify(model)) {
          const why = words.modelElsewhere(model.id, first.file);
          issues.push({ ...fileIssue("refused", "model-twice", { file }, why), column: "id", entry: model.id });
        }
      }
      return issues;
    },
  };
}
