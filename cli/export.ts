import { type ExportPiece, exportPieces } from "../app/_jobs/export-store.ts";
import { numberWords } from "../lib/wording.ts";
import { readArguments } from "./arguments.ts";
import { type NewFolder, newFolder } from "./new-folder.ts";
import { Refusal } from "./refusal.ts";
import { withStore } from "./store-command.ts";
import { table } from "./table.ts";
import { bar, print, progressLine } from "./terminal.ts";

const see = "See borecast export --help";

/** `borecast export`: the whole database as files of the contract, in a folder that holds nothing yet. */
export async function exportStore(args: readonly string[]): Promise<number> {
  const { positionals } = readArguments("export", args, {});
  const [folder, another] = positionals;
  if (folder === undefined || folder === "") throw new Refusal(`No folder was given. ${see}`);
  if (another !== undefined) throw new Refusal(`One folder is written, but "${another}" was given as well. ${see}`);
  const entries = await withStore(async (store, signal) => {
    const into = await newFolder(folder);
    try {
      const written = await writePieces(exportPieces(store, signal), into);
      await into.finish();
      return written;
    } catch (error) {
      await into.takeBack();
      throw error;
    }
  });
  const rows = [...entries].map(([file, count]) => [file, numberWords(count)]);
  await print(`${table(["file", "entries"], rows, [1])}\nWritten to ${folder}.\n`);
  return 0;
}

/** Gives how many entries each file got, in the order in which the files were begun. */
async function writePieces(pieces: AsyncIterable<ExportPiece>, into: NewFolder): Promise<Map<string, number>> {
  const progress = progressLine();
  const entries = new Map<string, number>();
  try {
    for await (const piece of pieces) {
      if (typeof piece.content === "string") await into.append(piece.file, piece.content);
      else await into.put(piece.file, piece.content);
      if (piece.entries > 0) entries.set(piece.file, (entries.get(piece.file) ?? 0) + piece.entries);
      progress.show(`Writing  ${bar(piece.part)}`);
    }
    return entries;
  } finally {
    progress.clear();
  }
}
