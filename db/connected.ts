import { and, eq, exists, inArray, isNotNull, ne, or, sql } from "drizzle-orm";
import { forChunks } from "./chunks.ts";
import { factKinds } from "./fact-kinds.ts";
import type { Schema } from "./schema.ts";
import { standing } from "./schema-facts.ts";
import { factTable } from "./staging-facts.ts";
import type { Store } from "./store.ts";
import { undoneBelow, wasEverVisible } from "./visible.ts";

/** The tables that name an engine by its serial number, seen as what they share. */
const namingEngines = (store: Store) =>
  [store.tests, store.unitFacts, store.repairs] as unknown as readonly Schema["repairs"][];

/**
 * `units` and all that shared an engine with them, directly or over others. Ascending. Facts of undone imports count
 * too: a unit whose only link was undone needs a new assessment all the more.
 */
export async function unitsConnectedTo(store: Store, units: readonly string[]): Promise<string[]> {
  const connected = new Set(units);
  const seen = new Set<string>();
  let frontier = [...connected];
  while (frontier.length > 0) {
    const serials = (await serialsIn(store, frontier)).filter((serial) => !seen.has(serial));
    for (const serial of serials) seen.add(serial);
    frontier = (await unitsWith(store, serials)).filter((unit) => !connected.has(unit));
    for (const unit of frontier) connected.add(unit);
  }
  return [...connected].sort();
}

async function serialsIn(store: Store, units: readonly string[]): Promise<string[]> {
  const { q, imports } = store;
  const serials = new Set<string>();
  for (const table of namingEngines(store)) {
    const rows = await forChunks(units, (part) =>
      q
        .selectDistinct({ serial: table.engineSerial })
        .from(table)
        .innerJoin(imports, eq(imports.id, table.importId))
        .where(and(inArray(table.unit, part), isNotNull(table.engineSerial), wasEverVisible(store))),
    );
    for (const { serial } of rows) if (serial !== null) serials.add(serial);
  }
  return [...serials];
}

async function unitsWith(store: Store, serials: readonly string[]): Promise<string[]> {
  const { q, imports } = store;
  const units = new Set<string>();
  for (const table of namingEngines(store)) {
    const rows = await forChunks(serials, (part) =>
      q
        .selectDistinct({ unit: table.unit })
        .from(table)
        .innerJoin(imports, eq(imports.id, table.importId))
        .where(and(inArray(table.engineSerial, part), isNotNull(table.engineSerial), wasEverVisible(store))),
    );
    for (const { unit } of rows) units.add(unit);
  }
  return [...units];
}

/**
 * Units that an import says something new of, or what is left of an undone one, also over their depot or engine model. Ascending. The same before its
 * commit and after it was undone.
 */
export async function touchedUnits(store: Store, importId: string): Promise<string[]> {
  const { q, imports, tests, readings } = store;
  const told = q
    .select({ one: sql`1` })
    .from(readings)
    .where(and(eq(readings.testId, tests.id), ne(readings.standing, standing.known)));
  const tested = await q
    .selectDistinct({ unit: tests.unit })
    .from(tests)
    .innerJoin(imports, eq(imports.id, tests.importId))
    .where(
      and(
        eq(tests.importId, importId),
        or(
          eq(tests.standing, standing.changed),
          exists(told),
          undoneBelow(store, q, tests as unknown as Schema["depotFacts"]),
        ),
      ),
    );
  const units = new Set(tested.map((row) => row.unit));
  for (const kind of [
    factKinds.units,
    factKinds.repairs,
    factKinds.meterReadings,
    factKinds.checks,
    factKinds.judgements,
  ]) {
    for (const unit of await subjectsOf(store, importId, kind)) units.add(unit);
  }
  const depots = await subjectsOf(store, importId, factKinds.depots);
  const models = await subjectsOf(store, importId, factKinds.models);
  for (const unit of await unitsNaming(store, { depots, models })) units.add(unit);
  return [...units].sort();
}

/** Units of which any row names one of these depots or engine models, be it of an import that counts no more. */
export async function unitsNaming(
  { q, tests, unitFacts }: Store,
  { depots, models }: { readonly depots: readonly string[]; readonly models: readonly string[] },
): Promise<ReadonlySet<string>> {
  const units = new Set<string>();
  // Both tables name a depot and a model in columns of the same names.
  for (const table of [tests as unknown as typeof unitFacts, unitFacts]) {
    const ask = (column: typeof table.depot | typeof table.engineModel) => (part: string[]) =>
      q.selectDistinct({ unit: table.unit }).from(table).where(inArray(column, part));
    for (const { unit } of await forChunks(depots, ask(table.depot))) units.add(unit);
    for (const { unit } of await forChunks(models, ask(table.engineModel))) units.add(unit);
  }
  return units;
}

async function subjectsOf(
  store: Store,
  importId: string,
  kind: (typeof factKinds)[keyof typeof factKinds],
): Promise<string[]> {
  const { q, imports } = store;
  const table = factTable(store, kind);
  const rows = await q
    .select({ key: table.factKey })
    .from(table)
    .innerJoin(imports, eq(imports.id, table.importId))
    .where(and(eq(table.importId, importId), or(ne(table.standing, standing.known), undoneBelow(store, q, table))));
  // The subject is the first part of every key.
  return [...new Set(rows.map((row) => String((JSON.parse(row.key) as unknown[])[0])))];
}
