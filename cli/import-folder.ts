import { readdir, stat } from "node:fs/promises";
import { type ExportedFolder, readExportedFolder } from "../app/_jobs/exported-folder.ts";
import { hasFacts } from "../db/facts.ts";
import type { Store } from "../db/store.ts";
import { Refusal } from "./refusal.ts";

/** Whether the one thing named is a folder; a name that leads nowhere is told later, as that of a file. */
export async function namesFolder(names: readonly string[]): Promise<boolean> {
  const [only] = names;
  if (only === undefined || names.length > 1) return false;
  return (await stat(only).catch(() => null))?.isDirectory() ?? false;
}

/**
 * The files and all else of an exported folder, for a database that holds nothing yet: settings, calendars and notes that
 * others gave meanwhile must not be overwritten.
 */
export async function exportedFolder(store: Store, folder: string): Promise<ExportedFolder> {
  if (await hasFacts(store)) {
    throw new Refusal(
      `The database holds facts already: a whole folder goes into a new one alone. To add what it holds, name its files: ${folder}/*.csv`,
    );
  }
  const exported = await readExportedFolder(folder);
  if (exported.files.length === 0) {
    const held = (await readdir(folder)).length;
    throw new Refusal(
      `${folder} holds ${held === 0 ? "nothing" : "no CSV file and no engine-models.json"}: nothing was taken.`,
    );
  }
  return exported;
}
