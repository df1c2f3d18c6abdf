import { eq } from "drizzle-orm";
import type { Q, Store } from "./store.ts";

/** A new file has no rows counted yet. */
const noRows = {
  rows: 0,
  refused: false,
  newRows: 0,
  knownRows: 0,
  changedRows: 0,
  refusedRows: 0,
  warnedRows: 0,
} as const;

/** Numbers and names of an import's files, in both directions; a name not met before gets the next number. */
export async function fileNumbers(store: Store, q: Q, importId: string) {
  const { importFiles } = store;
  const rows = await q
    .select({ fileNo: importFiles.fileNo, name: importFiles.name })
    .from(importFiles)
    .where(eq(importFiles.importId, importId));
  const numbers = new Map(rows.map((row) => [row.name, row.fileNo]));
  const names = new Map(rows.map((row) => [row.fileNo, row.name]));
  return {
    nameOf: (fileNo: number): string => names.get(fileNo) ?? "",
    numberOf: async (name: string): Promise<number> => {
      const known = numbers.get(name);
      if (known !== undefined) return known;
      const fileNo = Math.max(0, ...names.keys()) + 1;
      await q.insert(importFiles).values({ importId, fileNo, name, ...noRows });
      numbers.set(name, fileNo);
      names.set(fileNo, name);
      return fileNo;
    },
  };
}
