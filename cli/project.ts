import { readFileSync } from "node:fs";
import path from "node:path";
import { fileURLToPath } from "node:url";
import { z } from "zod";

/**
 * The project's folder: one above this file, which lies in `cli` as a source and in `dist` when bundled. The working
 * folder may be anywhere.
 */
const projectFolder = path.resolve(path.dirname(fileURLToPath(import.meta.url)), "..");

export const demoFolder = path.join(projectFolder, "demo-data");

/** The database of this machine: in the folder BORECAST_DATA, else in the project's `data`. */
export function databaseFile(env: Readonly<Record<string, string | undefined>>): string {
  return path.join(path.resolve(projectFolder, env["BORECAST_DATA"] || "data"), "borecast.db");
}

/** "0.1.0" */
export function version(): string {
  const about: unknown = JSON.parse(readFileSync(path.join(projectFolder, "package.json"), "utf8"));
  return z.object({ version: z.string() }).parse(about).version;
}
