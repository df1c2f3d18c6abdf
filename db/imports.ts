import { randomBytes } from "node:crypto";
import { and, asc, count, desc, eq, inArray, ne, sql } from "drizzle-orm";
import type { RowIssue } from "../lib/schema/intake.ts";
import type { FileKind } from "../lib/schema/words.ts";
import { fileNumbers } from "./import-files.ts";
import { takeIds } from "./meta.ts";
import type { Schema } from "./schema.ts";
import type { Q, Store } from "./store.ts";

export type ImportRow = Schema["imports"]["$inferSelect"];
export type ImportFileRow = Schema["importFiles"]["$inferSelect"];
export type ImportIssueRow = Schema["importIssues"]["$inferSelect"];
/** An import with the files that it read. */
export type ImportDetail = ImportRow & { readonly files: readonly ImportFileRow[] };

export interface ImportFileNews {
  readonly name: string;
  readonly kind?: FileKind | null;
  readonly sha256?: string | null;
  readonly bytes?: number | null;
  readonly rows?: number;
  readonly refused?: boolean;
}

/** Short, since every row of an import carries it; 72 bits never meet by chance. */
const newId = (): string => randomBytes(9).toString("base64url");

/** Opens an import; its rows stay invisible until it is committed. Gives its id: the one told, or a new one. */
export function beginImport(
  store: Store,
  { id = newId(), by, at, files }: { id?: string; by: string; at: string; files: readonly ImportFileNews[] },
): Promise<string> {
  return store.tx(async (q) => {
    const counts = { newRows: 0, knownRows: 0, changedRows: 0, refusedRows: 0, warnedRows: 0 };
    await q
      .insert(store.imports)
      .values({ id, state: "staging", by, at, takeChanges: false, purged: false, ...counts });
    for (const file of files) await noteFile(store, q, id, file);
    return id;
  });
}

/** Tells what became known of a file (kind, sha256, bytes, rows); a name not yet listed is added. */
export function describeImportFile(store: Store, importId: string, file: ImportFileNews): Promise<void> {
  return store.tx((q) => noteFile(store, q, importId, file));
}

async function noteFile(store: Store, q: Q, importId: string, file: ImportFileNews): Promise<void> {
  const fileNo = await (await fileNumbers(store, q, importId)).numberOf(file.name);
  const { importFiles } = store;
  const { name: _name, ...news } = file;
  if (Object.keys(news).length === 0) return;
  await q
    .update(importFiles)
    .set(news)
    .where(and(eq(importFiles.importId, importId), eq(importFiles.fileNo, fileNo)));
}

export function addImportIssues(store: Store, importId: string, issues: readonly RowIssue[]): Promise<void> {
  return store.tx(async (q) => {
    let id = issues.length === 0 ? 0 : await takeIds(store, q, issues.length);
    const columns = ["id", "importId", "severity", "code", "file", "line", "column", "value", "entry", "words"];
    const rows = issues.map((issue) => ({ ...issue, id: id++, importId }));
    await store.bulkInsert(q, store.importIssues, columns, rows);
  });
}

/** The last imports, newest first; without those discarded. */
export async function listImports(store: Store, { limit = 50 }: { limit?: number } = {}): Promise<ImportDetail[]> {
  const { imports } = store;
  const rows = await store.q
    .select()
    .from(imports)
    .where(ne(imports.state, "discarded"))
    .orderBy(desc(imports.at), desc(imports.id))
    .limit(limit);
  return withFiles(store, rows);
}

export async function importDetail(store: Store, importId: string): Promise<ImportDetail | null> {
  const { imports } = store;
  const rows = await store.q.select().from(imports).where(eq(imports.id, importId));
  return (await withFiles(store, rows))[0] ?? null;
}

async function withFiles({ q, importFiles }: Store, rows: readonly ImportRow[]): Promise<ImportDetail[]> {
  const ids = rows.map((row) => row.id);
  const files = await q
    .select()
    .from(importFiles)
    .where(inArray(importFiles.importId, ids))
    .orderBy(asc(importFiles.fileNo));
  return rows.map((row) => ({ ...row, files: files.filter((file) => file.importId === row.id) }));
}

/** Issues of one import in the order of its files and lines, those of a file as a whole first; and how many there are. */
export async function importIssues(
  store: Store,
  importId: string,
  { offset, limit, severity }: { offset: number; limit: number; severity?: RowIssue["severity"] },
): Promise<{ issues: ImportIssueRow[]; total: number }> {
  const { q, importIssues: table } = store;
  const wanted = and(eq(table.importId, importId), severity === undefined ? undefined : eq(table.severity, severity));
  const issues = await q
    .select()
    .from(table)
    .where(wanted)
    .orderBy(asc(table.file), sql`${table.line} asc nulls first`, asc(table.id))
    .limit(limit)
    .offset(offset);
  const [row] = await q.select({ total: count() }).from(table).where(wanted);
  return { issues, total: row?.total ?? 0 };
}

/** Earlier committed imports of a file with the same bytes, newest first: to say so before it is read again. */
export async function importsOfSameBytes(store: Store, sha256: string): Promise<ImportRow[]> {
  const { imports, importFiles } = store;
  const rows = await store.q
    .select({ row: imports })
    .from(importFiles)
    .innerJoin(imports, eq(imports.id, importFiles.importId))
    .where(and(eq(importFiles.sha256, sha256), eq(imports.state, "committed")))
    .orderBy(desc(imports.rank));
  return rows.map(({ row }) => row);
}
