import { and, asc, eq, isNull } from "drizzle-orm";
import type { ScenarioChange, ScenarioResult } from "../lib/schema/scenario.ts";
import { recordActivityWith } from "./activity.ts";
import { takeIds } from "./meta.ts";
import type { Store } from "./store.ts";

/** A what-if that somebody named. */
export interface Scenario {
  readonly id: number;
  readonly name: string;
  readonly change: ScenarioChange;
  readonly by: string;
  readonly at: string;
  /** What came of it when it was last reckoned; null: it never was. */
  readonly told: ScenarioTold | null;
}

export interface ScenarioTold {
  readonly madeAt: string;
  /** What the base was drawn from, as text that is compared as a whole. */
  readonly basis: string;
  readonly result: ScenarioResult;
}

/** The what-ifs that nobody withdrew, in the order in which they were named. */
export async function scenariosTold({ q, scenarios, scenarioResults }: Store): Promise<Scenario[]> {
  const rows = await q
    .select({ scenario: scenarios, told: scenarioResults })
    .from(scenarios)
    .leftJoin(scenarioResults, eq(scenarioResults.scenario, scenarios.id))
    .where(isNull(scenarios.withdrawnAt))
    .orderBy(asc(scenarios.id));
  return rows.map(({ scenario: { id, name, change, by, at }, told }) => ({
    id,
    name,
    change,
    by,
    at,
    told: told === null ? null : { madeAt: told.madeAt, basis: told.basis, result: told.result },
  }));
}

/** Keeps a what-if under a name; gives its number, null where another one has the name. */
export function nameScenario(
  store: Store,
  { name, change }: { readonly name: string; readonly change: ScenarioChange },
  { by, at }: { readonly by: string; readonly at: string },
): Promise<number | null> {
  const { scenarios } = store;
  return store.tx(async (q) => {
    const standing = await q.select({ name: scenarios.name }).from(scenarios).where(isNull(scenarios.withdrawnAt));
    if (standing.some((one) => one.name.toLowerCase() === name.toLowerCase())) return null;
    const id = await takeIds(store, q, 1);
    await q.insert(scenarios).values({ id, name, change, by, at });
    await recordActivityWith(store, q, { at, by, action: "scenario-named", about: name });
    return id;
  });
}

/** Keeps what came of a what-if, in place of what came of it before. */
export function keepScenarioResult(store: Store, scenario: number, told: ScenarioTold): Promise<void> {
  const { scenarioResults } = store;
  return store.tx(async (q) => {
    await q.delete(scenarioResults).where(eq(scenarioResults.scenario, scenario));
    await q.insert(scenarioResults).values({ scenario, ...told });
  });
}

/** Takes a what-if off the list; it stays in the store. False: there is none of this number, or it was withdrawn before. */
export function withdrawScenario(
  store: Store,
  id: number,
  { by, at }: { readonly by: string; readonly at: string },
): Promise<boolean> {
  const { scenarios } = store;
  return store.tx(async (q) => {
    const [row] = await q
      .select({ name: scenarios.name })
      .from(scenarios)
      .where(and(eq(scenarios.id, id), isNull(scenarios.withdrawnAt)));
    if (row === undefined) return false;
    await q.update(scenarios).set({ withdrawnAt: at, withdrawnBy: by }).where(eq(scenarios.id, id));
    await recordActivityWith(store, q, { at, by, action: "scenario-withdrawn", about: row.name });
    return true;
  });
}
