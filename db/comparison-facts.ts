import { setImmediate as breathe } from "node:timers/promises";
import { and, asc, eq, gt, inArray, ne, or } from "drizzle-orm";
import { chunkSize } from "./chunks.ts";
import { type FactKind, type FactRow, layered } from "./fact-kinds.ts";
import { type Standing, standing } from "./schema-facts.ts";
import { factTable } from "./staging-facts.ts";
import type { Q, Store } from "./store.ts";
import { isTold, undoneBelow } from "./visible.ts";

/** Sets the standing of an import's facts of one kind, some hundred to a transaction. */
export async function compareFacts(store: Store, importId: string, kind: FactKind): Promise<void> {
  const table = factTable(store, kind);
  let after = 0;
  for (;;) {
    const page: FactRow[] = await store.q
      .select()
      .from(table)
      .where(and(eq(table.importId, importId), gt(table.id, after)))
      .orderBy(asc(table.id))
      .limit(chunkSize);
    if (page.length === 0) return;
    after = page[page.length - 1]!.id;
    await store.tx((q) => comparePage(store, q, importId, kind, page));
    await breathe();
  }
}

async function comparePage(
  store: Store,
  q: Q,
  importId: string,
  kind: FactKind,
  page: readonly FactRow[],
): Promise<void> {
  const table = factTable(store, kind);
  const below = await visibleFacts(store, q, kind, { keys: page.map((row) => row.factKey), except: importId });
  for (const row of page) {
    const layers = below.get(row.factKey) ?? [];
    const top = layers[0];
    const same = top !== undefined && sameTold(kind, layers, [row, ...layers]);
    const compared = {
      standing: top === undefined ? standingAlone(row.standing) : same ? standing.known : standing.changed,
      supersedesId: top?.id ?? null,
    };
    if (compared.standing === row.standing && compared.supersedesId === row.supersedesId) continue;
    await q.update(table).set(compared).where(eq(table.id, row.id));
  }
}

/** How a row stands that nothing is known beside. */
export const standingAlone = (before: Standing): Standing =>
  before === standing.withChanges ? standing.withChanges : standing.new;

const sameTold = (kind: FactKind, a: readonly FactRow[], b: readonly FactRow[]): boolean =>
  JSON.stringify(layered(a, kind.content)) === JSON.stringify(layered(b, kind.content));

/**
 * What stands of one kind, by what it tells of, the row that stands first in front: by the same rule as `standingTest`,
 * of rows and not of readings.
 */
export async function visibleFacts(
  store: Store,
  q: Q,
  kind: FactKind,
  { keys, subjects, except }: { keys?: readonly string[]; subjects?: readonly string[]; except?: string } = {},
): Promise<Map<string, FactRow[]>> {
  const table = factTable(store, kind);
  const { imports } = store;
  const subject = (store[kind.table] as unknown as Record<string, typeof table.factKey>)[kind.subject]!;
  const rows = await q
    .select({ fact: table, takeChanges: imports.takeChanges })
    .from(table)
    .innerJoin(imports, eq(imports.id, table.importId))
    .where(
      and(
        isTold(store, table),
        // Where nothing below it is gone, such a row adds nothing.
        or(
          eq(table.standing, standing.new),
          and(ne(table.standing, standing.known), eq(imports.takeChanges, true)),
          undoneBelow(store, q, table),
        ),
        keys ? inArray(table.factKey, [...keys]) : undefined,
        subjects ? inArray(subject, [...subjects]) : undefined,
        except === undefined ? undefined : ne(imports.id, except),
      ),
    )
    .orderBy(asc(table.factKey), asc(imports.rank));
  const byKey = new Map<string, FactRow[]>();
  for (const { fact, takeChanges } of rows) {
    const below = byKey.get(fact.factKey);
    if (below === undefined) byKey.set(fact.factKey, [fact]);
    else if (takeChanges && !sameTold(kind, below, [fact, ...below])) below.unshift(fact);
  }
  return byKey;
}
