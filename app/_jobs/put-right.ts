import { type ImportDetail, type ImportIssueRow, importDetail, importIssue } from "../../db/imports.ts";
import type { Store } from "../../db/store.ts";
import type { CellCorrection } from "../../lib/schema/reading.ts";
import { layoutOfRow } from "./file-layout.ts";
import { JobError } from "./job-registry.ts";
import type { Act, JobControl } from "./progress.ts";
import { readAgain } from "./read-again.ts";

/** Whether the cell that an issue is about can be put right by hand: it is one cell of a refused row. */
export const canBePutRight = ({
  severity,
  line,
  column,
}: Pick<ImportIssueRow, "severity" | "line" | "column">): boolean =>
  severity === "refused" && line !== null && column !== null;

/** What a refused cell is to be read as. */
export interface CellSaid {
  readonly issue: number;
  readonly value: string;
}

/**
 * Reads the files of a waiting import once more with the cells of its issues as a person says; the files themselves stay
 * as they were given. `also`: further cells, so that all that was typed is read at once. Gives the import that comes of it;
 * the first one is discarded. Throws a `JobError` where an issue is not there any more or is of no such cell, the import
 * does not wait, or its files were not kept.
 */
export async function putRight(
  store: Store,
  importId: string,
  { issue, value, also = [], ...act }: Act & CellSaid & { readonly also?: readonly CellSaid[] | undefined },
  control: JobControl = {},
): Promise<ImportDetail> {
  const detail = await importDetail(store, importId);
  const corrections = new Map<string, CellCorrection[]>();
  for (const said of [{ issue, value }, ...also]) {
    const told = await importIssue(store, importId, said.issue);
    const file = detail?.files.find(({ name }) => name === told?.file);
    if (told === null || file === undefined) {
      throw new JobError("This row is not there any more. Look at the import again.");
    }
    const { line, column } = told;
    if (line === null || column === null || !canBePutRight(told)) {
      throw new JobError("This cannot be put right here. Mend the file and import it again.");
    }
    const isForeign = (layoutOfRow(file)?.layout ?? null) !== null;
    corrections.set(file.name, [
      ...(corrections.get(file.name) ?? file.readAs?.corrections ?? []),
      // A file that is read by a layout is corrected in its own cells, as it writes them.
      { line, column, was: told.value ?? "", value: said.value.trim(), ...(isForeign ? { typed: true as const } : {}) },
    ]);
  }
  const choices = Object.fromEntries([...corrections].map(([name, cells]) => [name, { corrections: cells }]));
  return readAgain(store, importId, { ...act, choices }, control);
}
