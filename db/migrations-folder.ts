import { existsSync, readFileSync, realpathSync } from "node:fs";
import path from "node:path";

/** Where the committed migrations lie. */
export const migrationsFolder = (): string => path.join(projectFolder(), "db", "migrations");

/**
 * The folder that holds package.json. The code may run as it stands, as a bundled command or inside the page server's
 * bundle, so its own address tells nothing: the project is looked for above the program that was started, then above
 * the working folder.
 */
export function projectFolder(): string {
  const program = process.argv[1];
  const starts = [program && existsSync(program) ? path.dirname(realpathSync(program)) : null, process.cwd()];
  for (const start of starts) {
    for (let folder = start; folder; folder = parentOf(folder)) {
      if (isProject(folder)) return folder;
    }
  }
  throw new Error("the folder db/migrations of the project was not found");
}

const parentOf = (folder: string): string | null => {
  const parent = path.dirname(folder);
  return parent === folder ? null : parent;
};

/** Another project may also keep its migrations in such a folder. */
function isProject(folder: string): boolean {
  const manifest = path.join(folder, "package.json");
  if (!existsSync(manifest) || !existsSync(path.join(folder, "db", "migrations", "meta", "_journal.json")))
    return false;
  return (JSON.parse(readFileSync(manifest, "utf8")) as { name?: unknown }).name === "borecast";
}
