import { setImmediate as breathe } from "node:timers/promises";
import { and, asc, desc, eq, gt, inArray, ne } from "drizzle-orm";
import { chunkSize } from "./chunks.ts";
import type { Overlaps } from "./comparison.ts";
import { type FactKind, type FactRow, layered } from "./fact-kinds.ts";
import { standing } from "./schema-facts.ts";
import { factTable } from "./staging-facts.ts";
import type { Q, Store } from "./store.ts";
import { isVisible } from "./visible.ts";

/** Sets the standing of an import's facts of one kind, some hundred to a transaction. */
export async function compareFacts(
  store: Store,
  importId: string,
  kind: FactKind,
  { overlaps }: { overlaps: Overlaps },
): Promise<void> {
  const table = factTable(store, kind);
  let after = 0;
  for (;;) {
    const page: FactRow[] = await store.q
      .select()
      .from(table)
      .where(and(eq(table.importId, importId), gt(table.id, after), ne(table.standing, standing.refused)))
      .orderBy(asc(table.id))
      .limit(chunkSize);
    if (page.length === 0) return;
    after = page[page.length - 1]!.id;
    await store.tx((q) => comparePage(store, q, importId, kind, page, overlaps));
    await breathe();
  }
}

async function comparePage(
  store: Store,
  q: Q,
  importId: string,
  kind: FactKind,
  page: readonly FactRow[],
  overlaps: Overlaps,
): Promise<void> {
  const table = factTable(store, kind);
  const below = await visibleFacts(store, q, kind, { keys: page.map((row) => row.factKey), except: importId });
  for (const row of page) {
    const layers = below.get(row.factKey) ?? [];
    const top = layers[0];
    const same = top !== undefined && sameTold(kind, layers, [row, ...layers]);
    const compared = {
      standing: top === undefined ? standing.new : same ? standing.known : standing.changed,
      supersedesId: top?.id ?? null,
    };
    if (top && same) overlaps.set(top.importId, (overlaps.get(top.importId) ?? 0) + 1);
    if (compared.standing === row.standing && compared.supersedesId === row.supersedesId) continue;
    await q.update(table).set(compared).where(eq(table.id, row.id));
  }
}

const sameTold = (kind: FactKind, a: readonly FactRow[], b: readonly FactRow[]): boolean =>
  JSON.stringify(layered(a, kind.content)) === JSON.stringify(layered(b, kind.content));

/** Visible rows of one kind by what they tell of, the one that stands first. */
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
    .select({ fact: table })
    .from(table)
    .innerJoin(imports, eq(imports.id, table.importId))
    .where(
      and(
        isVisible(store, table),
        keys ? inArray(table.factKey, [...keys]) : undefined,
        subjects ? inArray(subject, [...subjects]) : undefined,
        except === undefined ? undefined : ne(imports.id, except),
      ),
    )
    .orderBy(asc(table.factKey), desc(imports.rank));
  const byKey = new Map<string, FactRow[]>();
  for (const { fact } of rows) {
    const of = byKey.get(fact.factKey);
    if (of) of.push(fact);
    else byKey.set(fact.factKey, [fact]);
  }
  return byKey;
}
