import type { RowIssue } from "../lib/schema/intake.ts";
import type { FileKind } from "../lib/schema/words.ts";
import type { Schema } from "./schema.ts";
import type { Store } from "./store.ts";

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
}

/** Opens an import; its rows stay invisible until it is committed. Gives its id. */
export async function beginImport(
  store: Store,
  { id, by, at, files }: { id?: string; by: string; at: string; files: readonly ImportFileNews[] },
): Promise<string> {
  throw new Error("body follows");
}

/** Tells what became known of a file (kind, sha256, bytes, rows); a name not yet listed is added. */
export async function describeImportFile(store: Store, importId: string, file: ImportFileNews): Promise<void> {
  throw new Error("body follows");
}

export async function addImportIssues(store: Store, importId: string, issues: readonly RowIssue[]): Promise<void> {
  throw new Error("body follows");
}

/** The last imports, newest first. `limit` 50 unless told. */
export async function listImports(store: Store, { limit = 50 }: { limit?: number } = {}): Promise<ImportDetail[]> {
  throw new Error("body follows");
}

export async function importDetail(store: Store, importId: string): Promise<ImportDetail | null> {
  throw new Error("body follows");
}

/** Issues of one import in the order of its files and lines, and how many there are. */
export async function importIssues(
  store: Store,
  importId: string,
  { offset, limit, severity }: { offset: number; limit: number; severity?: RowIssue["severity"] },
): Promise<{ issues: ImportIssueRow[]; total: number }> {
  throw new Error("body follows");
}
