import { and, eq, inArray, or } from "drizzle-orm";
import type { Schema } from "./schema.ts";
import { standing } from "./schema-facts.ts";
import type { Store } from "./store.ts";

type WithStanding = { readonly standing: Schema["depotFacts" | "meterReadings" | "readings"]["standing"] };

/** A row counts while its import is committed; one that changes what was known, where changes were taken. */
export const isVisible = ({ imports }: Store, row: WithStanding) =>
  and(
    eq(imports.state, "committed"),
    or(eq(row.standing, standing.new), and(eq(row.standing, standing.changed), eq(imports.takeChanges, true))),
  );

/** A row said something once: its import was committed, also where that was undone since. */
export const wasEverVisible = ({ imports }: Store) => inArray(imports.state, ["committed", "undone"]);
