import { and, eq, exists, inArray, lt, ne, or, sql } from "drizzle-orm";
import { alias } from "drizzle-orm/sqlite-core";
import type { Schema } from "./schema.ts";
import { standing } from "./schema-facts.ts";
import type { Q, Store } from "./store.ts";

type WithStanding = {
  readonly standing: Schema["depotFacts" | "meterReadings" | "readings" | "repairs" | "tests"]["standing"];
};
/** All tables of facts have these. */
type FactTable = Schema["depotFacts"];

/**
 * A row of a committed import, unless it holds only beside changes that were declined. Whatever such a row tells of is
 * known, be it from another row: the first import that told it always counts.
 */
export const isTold = ({ imports }: Store, row: WithStanding) =>
  and(eq(imports.state, "committed"), or(ne(row.standing, standing.withChanges), eq(imports.takeChanges, true)));

/**
 * Whether something that an import committed before told of the same is undone: then a row that only repeated, or whose
 * change was declined, may be what is left. Within a query over `table` and its imports.
 */
export function undoneBelow({ imports }: Store, q: Q, table: FactTable) {
  const below = alias(table, "below");
  const its = alias(imports, "below_import");
  return exists(
    q
      .select({ one: sql`1` })
      .from(below)
      .innerJoin(its, eq(its.id, below.importId))
      .where(and(eq(below.factKey, table.factKey), eq(its.state, "undone"), lt(its.rank, imports.rank))),
  );
}

/** A row said something once: its import was committed, also where that was undone since. */
export const wasEverVisible = ({ imports }: Store) => inArray(imports.state, ["committed", "undone"]);
