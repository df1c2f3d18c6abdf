import type { ImportDetail } from "../../../db/imports.ts";

/** An import as the API tells it: what a program may rely on, not what the store happens to keep. */
export const importView = (detail: ImportDetail) => ({
  id: detail.id,
  state: detail.state,
  by: detail.by,
  at: detail.at,
  committedAt: detail.committedAt,
  committedBy: detail.committedBy,
  undoneAt: detail.undoneAt,
  undoneBy: detail.undoneBy,
  changesTaken: detail.state === "committed" || detail.state === "undone" ? detail.takeChanges : null,
  ...rowCounts(detail),
  files: detail.files.map((file) => ({
    name: file.name,
    /** Number within the import, by which the file can be had as it was given. */
    number: file.fileNo,
    kind: file.kind,
    readAs: file.readAs,
    sha256: file.sha256,
    bytes: file.bytes,
    rows: file.rows,
    refused: file.refused,
    ...rowCounts(file),
  })),
});

const rowCounts = (counted: ImportDetail | ImportDetail["files"][number]) => ({
  newRows: counted.newRows,
  knownRows: counted.knownRows,
  changedRows: counted.changedRows,
  refusedRows: counted.refusedRows,
  warnedRows: counted.warnedRows,
});
