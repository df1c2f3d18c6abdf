import { eq, sql } from "drizzle-orm";
import { visibleFacts } from "./comparison-facts.ts";
import { factKinds } from "./fact-kinds.ts";
import { hasFacts } from "./facts.ts";
import type { Store } from "./store.ts";
import { isTold } from "./visible.ts";

/** How far a new installation has come. */
export interface KnownSoFar {
  /** Engine models known. */
  readonly engineModels: number;
  readonly hasTests: boolean;
  /** No import stands. */
  readonly isEmpty: boolean;
}

/** Which of the first steps are done: engine models are known, tests are in. Undone imports count no more. */
export async function knownSoFar(store: Store): Promise<KnownSoFar> {
  const { q, imports, tests } = store;
  const models = await visibleFacts(store, q, factKinds.models);
  const tested = await q
    .select({ one: sql`1` })
    .from(tests)
    .innerJoin(imports, eq(imports.id, tests.importId))
    .where(isTold(store, tests))
    .limit(1);
  return { engineModels: models.size, hasTests: tested.length > 0, isEmpty: !(await hasFacts(store)) };
}
