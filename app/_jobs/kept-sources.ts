import { originalParts, originalsKept } from "../../db/import-originals.ts";
import type { ImportDetail } from "../../db/imports.ts";
import type { Store } from "../../db/store.ts";
import type { ImportSource } from "./import-source.ts";

/** The files of an import as they were given, to be read again; null: not all of them were kept. */
export async function keptSources(store: Store, detail: ImportDetail): Promise<readonly ImportSource[] | null> {
  const kept = await originalsKept(store, detail.id);
  if (detail.files.length === 0 || !detail.files.every((file) => kept.has(file.fileNo))) return null;
  return detail.files.map(({ fileNo, name, bytes }) => ({
    name,
    bytes,
    open: () => originalParts(store, detail.id, fileNo),
  }));
}
