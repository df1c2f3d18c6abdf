import { and, asc, eq, inArray } from "drizzle-orm";
import type { CheckFact, JudgementFact, MeterFact, RepairFact, TestFact, UnitFact } from "../lib/schema/facts.ts";
import { visibleFacts } from "./comparison-facts.ts";
import { type FactKind, type FactRow, factKinds, layered } from "./fact-kinds.ts";
import { tellsWhole } from "./schema-imports.ts";
import type { Store } from "./store.ts";
import { type TestLayer, toldByHeads } from "./test-layers.ts";
import { isTold } from "./visible.ts";

type Line = { readonly line: number };
type KnownTest = Pick<
  TestFact,
  "unit" | "date" | "test" | "attempt" | "instrument" | "meter" | "meterUnit" | "engineModel"
> &
  Line;

/** What stands of one unit, as far as later rows of it are judged by it: no readings of tests. */
export interface UnitHistory {
  /** null: no list of units names it. */
  readonly listed: Pick<UnitFact, "engineModel" | "meterUnit"> | null;
  readonly tests: readonly KnownTest[];
  readonly repairs: readonly (Pick<RepairFact, "date" | "scope" | "cylinders" | "meter"> & Line)[];
  readonly meterReadings: readonly (Pick<MeterFact, "date" | "meterReset" | "meter"> & Line)[];
  readonly checks: readonly (Pick<CheckFact, "date" | "check" | "cylinder" | "remarks" | "meter"> & Line)[];
  readonly judgements: readonly Omit<JudgementFact, "file">[];
}

type Mutable<T> = { -readonly [K in keyof T]: T[K] extends readonly (infer F)[] ? F[] : T[K] };

/** Histories by unit; units that nothing is known of are missing. Give some dozen units at a time. */
export async function unitHistories(store: Store, units: readonly string[]): Promise<Map<string, UnitHistory>> {
  const histories = new Map<string, Mutable<UnitHistory>>();
  const of = (unit: unknown): Mutable<UnitHistory> => {
    const name = String(unit);
    const found = histories.get(name);
    if (found !== undefined) return found;
    const none = { listed: null, tests: [], repairs: [], meterReadings: [], checks: [], judgements: [] };
    histories.set(name, none);
    return none;
  };
  const factsOf = async (kind: FactKind): Promise<FactRow[]> => {
    const rows = await visibleFacts(store, store.q, kind, { subjects: units });
    return [...rows.values()].map((layers) => ({ ...layers[0]!, ...layered(layers, kind.content) }));
  };
  // The tables' columns are the facts' fields, by the same names.
  for (const fact of await factsOf(factKinds.units)) of(fact["unit"]).listed = fact as unknown as UnitFact;
  for (const test of await knownTests(store, units)) of(test.unit).tests.push(test);
  for (const name of ["repairs", "meterReadings", "checks", "judgements"] as const) {
    for (const fact of await factsOf(factKinds[name])) of(fact["unit"])[name].push(fact as never);
  }
  return histories;
}

async function knownTests(store: Store, units: readonly string[]): Promise<KnownTest[]> {
  const { q, tests, imports } = store;
  const rows = await q
    .select({ test: tests, takeChanges: imports.takeChanges, origin: imports.origin })
    .from(tests)
    .innerJoin(imports, eq(imports.id, tests.importId))
    .where(and(inArray(tests.unit, [...units]), isTold(store, tests)))
    .orderBy(asc(tests.factKey), asc(imports.rank));
  const byKey = new Map<string, Pick<TestLayer, "test" | "takeChanges" | "whole">[]>();
  for (const { test, takeChanges, origin } of rows) {
    const head = { test, takeChanges, whole: tellsWhole(origin) };
    const heads = byKey.get(test.factKey);
    if (heads === undefined) byKey.set(test.factKey, [head]);
    else heads.push(head);
  }
  return [...byKey.values()].map((heads) => ({ ...heads[0]!.test, ...toldByHeads(heads) }));
}
