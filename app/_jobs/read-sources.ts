import { describeImportFile } from "../../db/imports.ts";
import type { Store } from "../../db/store.ts";
import { readFleetFile } from "../../lib/intake/read-file.ts";
import { fileIssue, words } from "../../lib/intake/words.ts";
import type { EngineModel } from "../../lib/schema/engine-model.ts";
import type { DepotFact } from "../../lib/schema/facts.ts";
import type { KnownFleet, RowIssue } from "../../lib/schema/intake.ts";
import { type ImportSource, watched } from "./import-source.ts";
import { breather, type JobControl, progressOf } from "./progress.ts";
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
  readonly tell: (issues: readonly RowIssue[]) => Promise<void>;
}

/**
 * Reads the files in their order: rows of units go to the spool, issues are told, and what became known of each file is
 * written down. Engine models that a file defines serve to judge the files after it.
 */
export async function readSources(
  store: Store,
  sources: readonly ImportSource[],
  { importId, known, spool, tell }: Reading,
  { onProgress, signal }: JobControl,
): Promise<ReadSources> {
  const breathe = breather(signal);
  const totalBytes = sources.every((s) => s.bytes !== null)
    ? sources.reduce((sum, s) => sum + (s.bytes ?? 0), 0)
    : null;
  const models = modelCollector();
  const depots: DepotFact[] = [];
  const refused = new Set<string>();
  let bytesBefore = 0;
  let rowsBefore = 0;
  for (const source of sources) {
    const file = source.name;
    const { pieces, bytes, sha256 } = watched(source);
    const judged = { models: new Map([...known.models, ...models.byId()]), today: known.today };
    let rows = 0;
    let kind: Parameters<typeof describeImportFile>[2]["kind"] = null;
    for await (const chunk of readFleetFile({ source: pieces, file, known: judged })) {
      if (chunk.fileRefused) refused.add(file);
      rows = chunk.rows;
      kind = chunk.kind;
      await tell([...chunk.issues, ...models.add(file, chunk.models)]);
      for (const depot of chunk.depots) depots.push(depot);
      await spool.add(chunk);
      onProgress?.(progressOf("reading", { bytes: bytesBefore + bytes(), totalBytes, rows: rowsBefore + rows }));
      await breathe();
    }
    const found = { kind, sha256: sha256(), bytes: bytes(), rows, refused: refused.has(file) };
    await describeImportFile(store, importId, { name: file, ...found });
    bytesBefore += bytes();
    rowsBefore += rows;
  }
  return { models: models.all(), depots: depots.filter((depot) => !refused.has(depot.file)), refused };
}

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
