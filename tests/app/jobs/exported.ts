import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { onTestFinished } from "vitest";
import { commitImport } from "@/app/_jobs/commit-import.ts";
import { exportPieces } from "@/app/_jobs/export-store.ts";
import { readExportedFolder } from "@/app/_jobs/exported-folder.ts";
import { fileSource } from "@/app/_jobs/file-source.ts";
import { stageImport } from "@/app/_jobs/stage-import.ts";
import { allIssues } from "@/db/imports.ts";
import { keptAssessments } from "@/db/kept-assessments.ts";
import type { Store } from "@/db/store.ts";
import { settingsSchema } from "@/lib/schema/settings.ts";
import { act, newStore } from "./made-up-files.ts";

type Files = ReadonlyMap<string, string | Uint8Array>;

/** The whole store as `borecast export` writes it: texts and bytes by file. */
export async function exported(store: Store): Promise<Files> {
  const files = new Map<string, string | Uint8Array>();
  for await (const { file, content } of exportPieces(store)) {
    files.set(file, typeof content === "string" ? `${files.get(file) ?? ""}${content}` : content);
  }
  return files;
}

export function folderOf(files: Files): string {
  const folder = mkdtempSync(path.join(tmpdir(), "borecast-export-"));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  for (const [name, content] of files) {
    mkdirSync(path.dirname(path.join(folder, name)), { recursive: true });
    writeFileSync(path.join(folder, name), content);
  }
  return folder;
}

/** A new store with what the files hold; what is refused or told as a warning fails the test. */
export async function takenBack(files: Files): Promise<Store> {
  const { files: paths, along } = await readExportedFolder(folderOf(files));
  const store = await newStore();
  const sources = await Promise.all(paths.map(fileSource));
  const settings = settingsSchema.parse(along.settings);
  const { id } = await stageImport(store, sources, act, {}, { settings });
  const refused: string[] = [];
  for await (const issues of allIssues(store, id, { severity: "refused" })) refused.push(...issues.map((i) => i.words));
  if (refused.length > 0) throw new Error(`refused: ${refused.join("; ")}`);
  const outcome = await commitImport(store, id, { ...act, takeChanges: false, along });
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.error));
  return store;
}

/** Every assessment in force, as its bytes. */
export async function assessmentsOf(store: Store): Promise<string> {
  const all: unknown[] = [];
  for await (const some of keptAssessments(store)) all.push(...some);
  return JSON.stringify(all);
}
