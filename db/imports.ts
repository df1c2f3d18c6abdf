import { randomBytes } from "node:crypto";
import { and, asc, count, desc, eq, gt, inArray, isNull, ne, type SQL, sql } from "drizzle-orm";
import type { RowIssue } from "../lib/schema/intake.ts";
import type { ReadAs } from "../lib/schema/reading.ts";
import type { FileKind } from "../lib/schema/words.ts";
import { fileNumbers } from "./import-files.ts";
import { takeIds } from "./meta.ts";
import { processMark } from "./reader-process.ts";
import { remembered } from "./remembered.ts";
import type { Schema } from "./schema.ts";
import type { ImportOrigin } from "./schema-imports.ts";
import type { Q, Store } from "./store.ts";

export type ImportRow = Schema["imports"]["$inferSelect"];
export type ImportFileRow = Schema["importFiles"]["$inferSelect"];
export type ImportIssueRow = Schema["importIssues"]["$inferSelect"];
/** An import with the files that it read. */
export type ImportDetail = ImportRow & { readonly files: readonly ImportFileRow[] };

export interface ImportFileNews {
  readonly name: string;
  readonly kind?: FileKind | null;
  readonly readAs?: ReadAs | null;
  /** How its columns are read, as app/_jobs/file-layout.ts makes it. */
  readonly layout?: unknown;
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
  {
    id = newId(),
    by,
    at,
    files,
    origin = "file",
  }: {
    id?: string;
    by: string;
    at: string;
    files: readonly ImportFileNews[];
    origin?: ImportOrigin;
  },
): Promise<string> {
  return store.tx(async (q) => {
    const counts = { newRows: 0, knownRows: 0, changedRows: 0, refusedRows: 0, warnedRows: 0 };
    await q.insert(store.imports).values({
      id,
      state: "staging",
      origin,
      by,
      at,
      reader: processMark(),
      takeChanges: false,
      purged: false,
      ...counts,
    });
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
    const columns = [
      "id",
      "importId",
      "severity",
      "code",
      "file",
      "line",
      "column",
      "value",
      "entry",
      "words",
      "proposals",
    ];
    const rows = issues.map((issue) => ({ ...issue, id: id++, importId }));
    await store.bulkInsert(q, store.importIssues, columns, rows);
  });
}

/** The last imports, newest first; without those discarded. */
export const listImports = remembered(
  "imports",
  async (store: Store, { limit = 50 }: { limit?: number } = {}): Promise<ImportDetail[]> => {
    const { imports } = store;
    const rows = await store.q
      .select()
      .from(imports)
      .where(ne(imports.state, "discarded"))
      .orderBy(desc(imports.at), desc(imports.id))
      .limit(limit);
    return withFiles(store, rows);
  },
);

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

interface IssuePage {
  readonly offset: number;
  readonly limit: number;
  readonly severity?: RowIssue["severity"];
}

/** Issues of one import in the order of its files and lines, those of a file as a whole first; and how many there are. */
export async function importIssues(
  store: Store,
  importId: string,
  page: IssuePage,
): Promise<{ issues: ImportIssueRow[]; total: number }> {
  const issues = await issuePage(store, importId, page);
  const [row] = await store.q
    .select({ total: count() })
    .from(store.importIssues)
    .where(issuesOf(store, importId, page.severity));
  return { issues, total: row?.total ?? 0 };
}

/** One issue of an import; null: it has none of this id. */
export async function importIssue(store: Store, importId: string, id: number): Promise<ImportIssueRow | null> {
  const { q, importIssues: table } = store;
  const [row] = await q
    .select()
    .from(table)
    .where(and(eq(table.importId, importId), eq(table.id, id)));
  return row ?? null;
}

const issuesOf = ({ importIssues: table }: Store, importId: string, severity?: RowIssue["severity"]) =>
  and(eq(table.importId, importId), severity === undefined ? undefined : eq(table.severity, severity));

/** The query of `importIssues`; an index holds its order. */
export function issuePage(store: Store, importId: string, { offset, limit, severity }: IssuePage) {
  const { q, importIssues: table } = store;
  return q
    .select()
    .from(table)
    .where(issuesOf(store, importId, severity))
    .orderBy(asc(table.file), sql`${table.line} asc nulls first`, asc(table.id))
    .limit(limit)
    .offset(offset);
}

const issuesAtATime = 1000;

/**
 * All issues of an import in the order of `importIssues`, some thousand at a time. Each part goes on from the last issue
 * of the one before, so that a hundred thousand take no longer than a hundred thousand times one.
 */
export async function* allIssues(
  store: Store,
  importId: string,
  { severity }: Pick<IssuePage, "severity"> = {},
): AsyncGenerator<readonly ImportIssueRow[]> {
  const { q, importIssues: table } = store;
  const wanted = issuesOf(store, importId, severity);
  const part = (condition: SQL | undefined) =>
    q.select().from(table).where(condition).orderBy(asc(table.line), asc(table.id)).limit(issuesAtATime);
  const files = await q.selectDistinct({ file: table.file }).from(table).where(wanted).orderBy(asc(table.file));
  for (const { file } of files) {
    const ofFile = and(wanted, eq(table.file, file));
    for (let last = 0; ; ) {
      const issues = await part(and(ofFile, isNull(table.line), gt(table.id, last)));
      if (issues.length === 0) break;
      last = issues[issues.length - 1]!.id;
      yield issues;
    }
    for (let last = { line: -1, id: 0 }; ; ) {
      const issues = await part(and(ofFile, sql`(${table.line}, ${table.id}) > (${last.line}, ${last.id})`));
      const end = issues[issues.length - 1];
      if (end === undefined) break;
      last = { line: end.line ?? 0, id: end.id };
      yield issues;
    }
  }
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
