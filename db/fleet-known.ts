import { and, asc, count, countDistinct, eq, exists, lt, max, notExists, or, sql } from "drizzle-orm";
import { alias } from "drizzle-orm/sqlite-core";
import type { EngineModel } from "../lib/schema/engine-model.ts";
import type { KnownFleet } from "../lib/schema/intake.ts";
import { visibleFacts } from "./comparison-facts.ts";
import { factKinds, layered } from "./fact-kinds.ts";
import type { Schema } from "./schema.ts";
import { standing } from "./schema-facts.ts";
import { factTable } from "./staging-facts.ts";
import type { Store } from "./store.ts";
import { isTold } from "./visible.ts";

type KnownUnit = KnownFleet["units"] extends ReadonlyMap<string, infer U> ? U : never;

/** What intake needs to judge rows: each unit's model and meter unit from its units file, else from its last test. */
export async function knownFleet(store: Store, { today }: { today: string | null }): Promise<KnownFleet> {
  const models = await visibleFacts(store, store.q, factKinds.models);
  const current = [...models.values()].map((layers) => layers[0]!["model"] as EngineModel);
  return { models: new Map(current.map((model) => [model.id, model])), units: await knownUnits(store), today };
}

async function knownUnits(store: Store): Promise<Map<string, KnownUnit>> {
  const known = new Map<string, KnownUnit>();
  for (const layers of (await visibleFacts(store, store.q, factKinds.units)).values()) {
    known.set(layers[0]!["unit"] as string, layered(layers, ["engineModel", "meterUnit"]) as unknown as KnownUnit);
  }
  for (const row of await testedUnits(store)) {
    const before = known.get(row.unit);
    known.set(row.unit, {
      engineModel: before?.engineModel ?? row.engineModel,
      meterUnit: before?.meterUnit ?? row.meterUnit,
    });
  }
  return known;
}

/** The newest first, so that the first one that says anything decides. */
function testedUnits(store: Store) {
  const { q, tests, imports } = store;
  const last = max(tests.date);
  const below = alias(tests, "below");
  const its = alias(imports, "below_import");
  // What a declined row says of its test counts only where nothing before it is left.
  const committedBelow = q
    .select({ one: sql`1` })
    .from(below)
    .innerJoin(its, eq(its.id, below.importId))
    .where(and(eq(below.factKey, tests.factKey), eq(its.state, "committed"), lt(its.rank, imports.rank)));
  return q
    .select({ unit: tests.unit, engineModel: tests.engineModel, meterUnit: tests.meterUnit, last })
    .from(tests)
    .innerJoin(imports, eq(imports.id, tests.importId))
    .where(
      and(
        isTold(store, tests),
        or(eq(tests.standing, standing.new), eq(imports.takeChanges, true), notExists(committedBelow)),
      ),
    )
    .groupBy(tests.unit, tests.engineModel, tests.meterUnit)
    .orderBy(
      sql`${last} desc`,
      sql`max(${imports.rank}) desc`,
      asc(tests.unit),
      asc(tests.engineModel),
      asc(tests.meterUnit),
    );
}

/** Every unit that any fact which stands names. Ascending. */
export async function factUnits(store: Store): Promise<string[]> {
  const { q, imports, tests } = store;
  const units = new Set<string>();
  const tested = await q
    .selectDistinct({ unit: tests.unit })
    .from(tests)
    .innerJoin(imports, eq(imports.id, tests.importId))
    .where(exists(toldReadings(store)));
  for (const row of tested) units.add(row.unit);
  for (const kind of Object.values(factKinds)) {
    if (kind.subject !== "unit") continue;
    const table = store[kind.table] as unknown as Schema["meterReadings"];
    const rows = await q
      .selectDistinct({ unit: table.unit })
      .from(table)
      .innerJoin(imports, eq(imports.id, table.importId))
      .where(isTold(store, table));
    for (const row of rows) units.add(row.unit);
  }
  return [...units].sort();
}

/** Readings of the test in the query around it, unless they came with changes that were declined. */
function toldReadings(store: Store) {
  const { q, readings, tests } = store;
  return q
    .select({ one: sql`1` })
    .from(readings)
    .where(and(eq(readings.testId, tests.id), isTold(store, readings)));
}

export interface FactCounts {
  readonly units: number;
  readonly tests: number;
  readonly readings: number;
  readonly repairs: number;
  readonly meterReadings: number;
  readonly checks: number;
  readonly judgements: number;
  readonly engineModels: number;
}

/** How much is known. A corrected reading counts once. */
export async function countFacts(store: Store): Promise<FactCounts> {
  const { q, imports, tests, readings } = store;
  const distinct = q
    .selectDistinct({ key: tests.factKey, cylinder: readings.cylinder })
    .from(readings)
    .innerJoin(tests, eq(tests.id, readings.testId))
    .innerJoin(imports, eq(imports.id, tests.importId))
    .where(isTold(store, readings))
    .as("distinct_readings");
  const [counted] = await q.select({ tests: countDistinct(distinct.key), readings: count() }).from(distinct);
  const facts = async (kind: (typeof factKinds)[keyof typeof factKinds]): Promise<number> => {
    const table = factTable(store, kind);
    const [row] = await q
      .select({ rows: countDistinct(table.factKey) })
      .from(table)
      .innerJoin(imports, eq(imports.id, table.importId))
      .where(isTold(store, table));
    return row?.rows ?? 0;
  };
  return {
    units: (await factUnits(store)).length,
    tests: counted?.tests ?? 0,
    readings: counted?.readings ?? 0,
    repairs: await facts(factKinds.repairs),
    meterReadings: await facts(factKinds.meterReadings),
    checks: await facts(factKinds.checks),
    judgements: await facts(factKinds.judgements),
    engineModels: await facts(factKinds.models),
  };
}
