import { setImmediate as breathe } from "node:timers/promises";
import { promisify } from "node:util";
import { deflate, inflate } from "node:zlib";
import { and, asc, eq } from "drizzle-orm";
import { fileNumbers } from "./import-files.ts";
import type { Store } from "./store.ts";

const pack = promisify(deflate);
const unpack = promisify(inflate);
/** The quickest: rows of tests shrink to some tenth by it, and a workbook, packed already, by none. */
const level = 1;

/** Files are kept in parts of about so many bytes. */
export const partLength = 1 << 20;

/** Keeps the next part of a file, as it was given; `part` counts from 0. */
export async function keepOriginalPart(
  store: Store,
  importId: string,
  { file, part, bytes }: { readonly file: string; readonly part: number; readonly bytes: Uint8Array },
): Promise<void> {
  const packed = await pack(bytes, { level });
  await store.tx(async (q) => {
    const fileNo = await (await fileNumbers(store, q, importId)).numberOf(file);
    await q.insert(store.importFileParts).values({ importId, fileNo, part, bytes: packed });
  });
}

/** The bytes of a file as it was given, part by part; none for a file that was not kept. */
export async function* originalParts(store: Store, importId: string, fileNo: number): AsyncGenerator<Buffer> {
  const { q, importFileParts: table } = store;
  for (let part = 0; ; part++) {
    const [row] = await q
      .select({ bytes: table.bytes })
      .from(table)
      .where(and(eq(table.importId, importId), eq(table.fileNo, fileNo), eq(table.part, part)));
    if (row === undefined) return;
    yield await unpack(row.bytes);
  }
}

/** Numbers of the files of an import that were kept. */
export async function originalsKept(
  { q, importFileParts: table }: Store,
  importId: string,
): Promise<ReadonlySet<number>> {
  const rows = await q
    .select({ fileNo: table.fileNo })
    .from(table)
    .where(and(eq(table.importId, importId), eq(table.part, 0)));
  return new Set(rows.map((row) => row.fileNo));
}

const partsAtATime = 8;

/** Deletes the kept files of an import, some parts at a time. */
export async function deleteOriginals(store: Store, importId: string): Promise<void> {
  const { importFileParts: table } = store;
  for (;;) {
    const parts = await store.q
      .select({ fileNo: table.fileNo, part: table.part })
      .from(table)
      .where(eq(table.importId, importId))
      .orderBy(asc(table.fileNo), asc(table.part))
      .limit(partsAtATime);
    if (parts.length === 0) return;
    await store.tx(async (q) => {
      for (const { fileNo, part } of parts) {
        await q.delete(table).where(and(eq(table.importId, importId), eq(table.fileNo, fileNo), eq(table.part, part)));
      }
    });
    await breathe();
  }
}
