import type { Proposal, RowIssue } from "../lib/schema/intake.ts";
import type { ReadAs } from "../lib/schema/reading.ts";
import type { FileKind } from "../lib/schema/words.ts";
import type { Vocabulary } from "./vocabulary.ts";

/**
 * `staging`: rows are coming in. `staged`: complete and compared, waits for a person. `committed`: its facts are
 * visible. `undone`: they were. `discarded`: they never will be.
 */
export const importStates = ["staging", "staged", "committed", "undone", "discarded"] as const;
export type ImportState = (typeof importStates)[number];

/**
 * `file`: read from files that somebody gave. `form`: what somebody changed on a page; its files carry what that was.
 * `correction`: such a change whose tests and readings are told whole: what is blank in them is blank, whatever was told.
 */
export type ImportOrigin = "file" | "form" | "correction";

/** Whether nothing told before shows through the blanks of the tests that an import tells. */
export const tellsWhole = (origin: ImportOrigin): boolean => origin === "correction";

/** Counters and the like that the store keeps about itself. */
export function metaTable(v: Vocabulary) {
  return v.table("meta", { name: v.key(), value: v.int().notNull() });
}

export function importTables(v: Vocabulary) {
  const imports = v.table(
    "imports",
    {
      id: v.key(),
      state: v.word<ImportState>().notNull(),
      origin: v.word<ImportOrigin>().notNull().default("file"),
      by: v.text().notNull(),
      at: v.instant().notNull(),
      /** Mark of the process that reads its files (db/reader-process.ts). */
      reader: v.text(),
      committedAt: v.instant(),
      committedBy: v.text(),
      undoneAt: v.instant(),
      undoneBy: v.text(),
      /** Place in the order of commits; a fact of a higher rank stands over one of a lower. */
      rank: v.int(),
      /** Whether rows that change what was known were taken at commit. */
      takeChanges: v.bool().notNull(),
      /** Version of the visible facts that the staged rows were compared with. */
      comparedVersion: v.int(),
      /** Its rows can never become visible, for it was discarded, and have been deleted. */
      purged: v.bool().notNull(),
      newRows: v.int().notNull(),
      knownRows: v.int().notNull(),
      changedRows: v.int().notNull(),
      refusedRows: v.int().notNull(),
      warnedRows: v.int().notNull(),
    },
    (t) => [v.index("imports_at").on(t.at), v.index("imports_state").on(t.state)],
  );

  const importFiles = v.table(
    "import_files",
    {
      importId: v
        .text()
        .notNull()
        .references(() => imports.id),
      fileNo: v.int().notNull(),
      name: v.text().notNull(),
      kind: v.word<FileKind>(),
      /** null: read before this was written down. */
      readAs: v.json<ReadAs>(),
      /** How the columns of a foreign file are read, as app/_jobs/file-layout.ts makes it; null: they are the contract's. */
      layout: v.json<unknown>(),
      sha256: v.text(),
      bytes: v.int(),
      rows: v.int().notNull(),
      /** None of its rows count, whatever could be read of it. */
      refused: v.bool().notNull().default(false),
      newRows: v.int().notNull(),
      knownRows: v.int().notNull(),
      changedRows: v.int().notNull(),
      refusedRows: v.int().notNull(),
      warnedRows: v.int().notNull(),
    },
    (t) => [
      v.primaryKey({ columns: [t.importId, t.fileNo] }),
      v.unique("import_files_name").on(t.importId, t.name),
      v.index("import_files_sha256").on(t.sha256),
    ],
  );

  const importIssues = v.table(
    "import_issues",
    {
      id: v.id(),
      importId: v
        .text()
        .notNull()
        .references(() => imports.id),
      severity: v.word<RowIssue["severity"]>().notNull(),
      code: v.text().notNull(),
      file: v.text().notNull(),
      line: v.int(),
      column: v.text(),
      value: v.text(),
      /** Tells the entries of a list without lines apart. */
      entry: v.text(),
      words: v.text().notNull(),
      /** null: none. */
      proposals: v.json<readonly Proposal[]>(),
    },
    (t) => [
      // The order in which issues are told, of all and of one severity: a page far down is found without sorting.
      v.index("import_issues_told").on(t.importId, t.file, t.line, t.id),
      v.index("import_issues_severity").on(t.importId, t.severity, t.file, t.line, t.id),
    ],
  );

  /** The file as it was given, byte for byte, in parts that fit into memory (db/import-originals.ts). */
  const importFileParts = v.table(
    "import_file_parts",
    {
      importId: v
        .text()
        .notNull()
        .references(() => imports.id),
      fileNo: v.int().notNull(),
      /** From 0, ascending. */
      part: v.int().notNull(),
      /** Deflated, each part for itself. */
      bytes: v.bytes().notNull(),
    },
    (t) => [v.primaryKey({ columns: [t.importId, t.fileNo, t.part] })],
  );

  /** How the columns of somebody's files are read (lib/layout). Each save is a version; the newest of a name holds. */
  const layouts = v.table(
    "layouts",
    {
      id: v.id(),
      name: v.text().notNull(),
      /** The header that it is recognised by, as lib/layout makes it. */
      header: v.text().notNull(),
      layout: v.json<unknown>().notNull(),
      by: v.text().notNull(),
      at: v.instant().notNull(),
      /** The name that this version took the place of; the versions before it have the new name since. null: the same. */
      renamedFrom: v.text(),
      /** It is not offered any more. */
      withdrawn: v.bool().notNull().default(false),
      /** Of a version that is withdrawn; null: before this was written down. */
      withdrawnAt: v.instant(),
      withdrawnBy: v.text(),
    },
    (t) => [v.index("layouts_name").on(t.name), v.index("layouts_header").on(t.header)],
  );

  return { imports, importFiles, importIssues, importFileParts, layouts };
}

export type ImportTables = ReturnType<typeof importTables>;
