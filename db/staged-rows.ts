import { and, asc, eq, inArray, ne } from "drizzle-orm";
import type { EngineModel } from "../lib/schema/engine-model.ts";
import type { FleetFacts } from "../lib/schema/facts.ts";
import { type FactKindName, factKinds } from "./fact-kinds.ts";
import { factFrom, fileNames, testFact } from "./facts.ts";
import type { Schema } from "./schema.ts";
import { standing } from "./schema-facts.ts";
import { factTable } from "./staging-facts.ts";
import type { Store } from "./store.ts";
import { standingTest } from "./test-layers.ts";
import { readingsOf } from "./test-queries.ts";

export type StagedRows = Pick<FleetFacts, "units" | "tests" | "repairs" | "meterReadings" | "checks" | "judgements">;
const kinds = ["units", "repairs", "meterReadings", "checks", "judgements"] as const satisfies readonly FactKindName[];

/** Every unit that a row of the import tells of. Ascending. */
export async function stagedUnits(store: Store, importId: string): Promise<string[]> {
  const units = new Set<string>();
  for (const table of [store.tests, ...kinds.map((name) => store[factKinds[name].table])]) {
    // All these tables have a unit and an import.
    const its = table as unknown as Schema["tests"];
    const rows = await store.q.selectDistinct({ unit: its.unit }).from(its).where(eq(its.importId, importId));
    for (const { unit } of rows) units.add(unit);
  }
  return [...units].sort();
}

/** Engine models that the import defines. */
export async function stagedModels(
  { q, engineModelVersions: versions }: Store,
  importId: string,
): Promise<EngineModel[]> {
  const rows = await q.select({ model: versions.model }).from(versions).where(eq(versions.importId, importId));
  return rows.map(({ model }) => model);
}

/**
 * What the rows of an import say of units, as intake accepted them; without `takeChanges` not those that come with the
 * changes alone. Give some dozen units at a time.
 */
export async function stagedRows(
  store: Store,
  importId: string,
  { units, takeChanges }: { readonly units: readonly string[]; readonly takeChanges: boolean },
): Promise<StagedRows> {
  const { q, tests } = store;
  const fileOf = await fileNames(store, importId);
  const rows = await q
    .select()
    .from(tests)
    .where(and(eq(tests.importId, importId), inArray(tests.unit, [...units])))
    .orderBy(asc(tests.id));
  const readings = await readingsOf(store, q, rows);
  const staged = rows.flatMap((test) => {
    const found = standingTest([{ test, readings: readings.get(test.id) ?? [], rank: 0, takeChanges, whole: false }]);
    return found === null ? [] : [testFact(found, fileOf)];
  });
  const facts: Record<(typeof kinds)[number], Record<string, unknown>[]> = {
    units: [],
    repairs: [],
    meterReadings: [],
    checks: [],
    judgements: [],
  };
  for (const name of kinds) {
    const table = factTable(store, factKinds[name]);
    const { unit } = table as unknown as Schema["tests"];
    const found = await q
      .select()
      .from(table)
      .where(
        and(
          eq(table.importId, importId),
          inArray(unit, [...units]),
          takeChanges ? undefined : ne(table.standing, standing.withChanges),
        ),
      )
      .orderBy(asc(table.id));
    facts[name] = found.map((row) => factFrom(factKinds[name], [row], fileOf));
  }
  // A kind's key and content columns are its fact's fields, by the same names.
  return { ...facts, tests: staged } as unknown as StagedRows;
}
