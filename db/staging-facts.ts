import { and, eq, inArray } from "drizzle-orm";
import type { EngineModel } from "../lib/schema/engine-model.ts";
import type { IntakeChunk } from "../lib/schema/intake.ts";
import { forChunks } from "./chunks.ts";
import { type FactKind, type FactRow, factColumns, factKinds, keyOf } from "./fact-kinds.ts";
import { fileNumbers } from "./import-files.ts";
import { takeIds } from "./meta.ts";
import type { Schema } from "./schema.ts";
import { standing } from "./schema-facts.ts";
import { assertStaging, asText, type StagingConflict } from "./staging.ts";
import type { Q, Store } from "./store.ts";

/** Facts of one line, by kind; engine models need to be told the file that they came from. */
export type StagedFacts = Partial<Pick<IntakeChunk, "units" | "depots" | "repairs" | "meterReadings" | "checks">> & {
  readonly models?: { readonly file: string; readonly models: readonly EngineModel[] };
};

interface Incoming {
  readonly file: string;
  readonly line: number;
}

/** Stages facts other than tests in one transaction. A row that differs from another one of the import refuses both. */
export function stageFacts(store: Store, importId: string, facts: StagedFacts): Promise<StagingConflict[]> {
  const models = facts.models?.models.map((model) => ({
    engineModel: model.id,
    model,
    file: facts.models!.file,
    line: 1,
  }));
  const byKind: readonly [FactKind, readonly Incoming[] | undefined][] = [
    [factKinds.units, facts.units],
    [factKinds.depots, facts.depots],
    [factKinds.repairs, facts.repairs],
    [factKinds.meterReadings, facts.meterReadings],
    [factKinds.checks, facts.checks],
    [factKinds.models, models],
  ];
  return store.tx(async (q) => {
    await assertStaging(store, q, importId);
    const conflicts: StagingConflict[] = [];
    for (const [kind, rows] of byKind) {
      if (rows && rows.length > 0) conflicts.push(...(await stageKind(store, q, importId, kind, rows)));
    }
    return conflicts;
  });
}

/** All these tables have the columns of `FactRow`; the union of them is more than drizzle's types can follow. */
export const factTable = (store: Store, kind: FactKind) => store[kind.table] as unknown as Schema["depotFacts"];

async function stageKind(store: Store, q: Q, importId: string, kind: FactKind, facts: readonly Incoming[]) {
  const table = factTable(store, kind);
  const files = await fileNumbers(store, q, importId);
  const keys = facts.map((fact) => keyOf(fact, kind.key));
  const before = await forChunks([...new Set(keys)], (part) =>
    q
      .select()
      .from(table)
      .where(and(inArray(table.factKey, part), eq(table.importId, importId))),
  );
  const staged = new Map<string, FactRow>(before.map((row) => [row.factKey, row]));
  const inserted = new Map<string, FactRow>();
  const refused = new Set<string>();
  const conflicts: StagingConflict[] = [];
  let nextId = await takeIds(store, q, facts.length);
  for (const [i, fact] of facts.entries()) {
    const factKey = keys[i]!;
    const fileNo = await files.numberOf(fact.file);
    const row: FactRow = {
      ...fact,
      id: nextId++,
      importId,
      factKey,
      standing: standing.new,
      supersedesId: null,
      fileNo,
    };
    const other = staged.get(factKey);
    if (!other) {
      staged.set(factKey, row);
      inserted.set(factKey, row);
      continue;
    }
    const column =
      kind.content.find((c) => JSON.stringify(row[c] ?? null) !== JSON.stringify(other[c] ?? null)) ?? null;
    const refusedBefore = other.standing === standing.refused;
    conflicts.push({
      kind: refusedBefore ? "refused-before" : column === null ? "repeat" : "conflict",
      file: fact.file,
      line: fact.line,
      otherFile: files.nameOf(other.fileNo),
      otherLine: other.line,
      subject: String(row[kind.subject]),
      cylinder: typeof row["cylinder"] === "number" ? row["cylinder"] : null,
      column,
      value: column === null ? null : asText(row[column]),
      otherValue: column === null ? null : asText(other[column]),
    });
    if (refusedBefore || column === null) continue;
    staged.set(factKey, { ...other, standing: standing.refused });
    if (inserted.has(factKey)) inserted.set(factKey, { ...other, standing: standing.refused });
    else refused.add(factKey);
  }
  const columns = [...new Set([...factColumns, ...kind.key, ...kind.content])];
  await store.bulkInsert(q, table, columns, [...inserted.values()]);
  for (const key of refused) {
    await q
      .update(table)
      .set({ standing: standing.refused })
      .where(and(eq(table.factKey, key), eq(table.importId, importId)));
  }
  return conflicts;
}
