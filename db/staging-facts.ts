import type { EngineModel } from "../lib/schema/engine-model.ts";
import type { IntakeChunk } from "../lib/schema/intake.ts";
import { type FactKind, type FactRow, factColumns, factKinds, keyOf } from "./fact-kinds.ts";
import { fileNumbers } from "./import-files.ts";
import { takeIds } from "./meta.ts";
import type { Schema } from "./schema.ts";
import { standing } from "./schema-facts.ts";
import { assertStaging, type StagedWith } from "./staging.ts";
import type { Q, Store } from "./store.ts";

/** Facts of one line, by kind; engine models need to be told the file that they came from. */
export type StagedFacts = Partial<
  Pick<IntakeChunk, "units" | "depots" | "repairs" | "meterReadings" | "checks" | "judgements">
> & {
  readonly models?: { readonly file: string; readonly models: readonly EngineModel[] };
};

interface Incoming {
  readonly file: string;
  readonly line: number;
}

/**
 * Stages facts other than tests in one transaction. Intake settles before what rows say of each other: a fact told
 * twice in one import throws.
 */
export function stageFacts(
  store: Store,
  importId: string,
  facts: StagedFacts,
  { withChanges = new Set() }: StagedWith = {},
): Promise<void> {
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
    [factKinds.judgements, facts.judgements],
    [factKinds.models, models],
  ];
  return store.tx(async (q) => {
    await assertStaging(store, q, importId);
    for (const [kind, rows] of byKind) {
      if (rows && rows.length > 0) await stageKind(store, q, importId, kind, { rows, withChanges });
    }
  });
}

/** All these tables have the columns of `FactRow`; the union of them is more than drizzle's types can follow. */
export const factTable = (store: Store, kind: FactKind) => store[kind.table] as unknown as Schema["depotFacts"];

async function stageKind(
  store: Store,
  q: Q,
  importId: string,
  kind: FactKind,
  { rows: facts, withChanges }: { readonly rows: readonly Incoming[]; readonly withChanges: ReadonlySet<object> },
): Promise<void> {
  const files = await fileNumbers(store, q, importId);
  let nextId = await takeIds(store, q, facts.length);
  const rows: FactRow[] = [];
  for (const fact of facts) {
    rows.push({
      ...fact,
      id: nextId++,
      importId,
      factKey: keyOf(fact, kind.key),
      standing: withChanges.has(fact) ? standing.withChanges : standing.new,
      supersedesId: null,
      fileNo: await files.numberOf(fact.file),
    });
  }
  const columns = [...new Set([...factColumns, ...kind.key, ...kind.content])];
  await store.bulkInsert(q, factTable(store, kind), columns, rows);
}
