import { accessSync, constants, existsSync, rmSync, statSync, writeFileSync } from "node:fs";
import path from "node:path";
import { makeFolder } from "../../db/make-folder.mjs";
import { commandFile, environment, root } from "./place.mjs";
import { Refusal } from "./refusal.mjs";
import { run } from "./run.mjs";

/** The data folder, as an absolute path. @param {Record<string, string | undefined>} env */
export const dataFolder = (env) => path.resolve(root, env.BORECAST_DATA || "data");

const databaseIn = (folder) => path.join(folder, "borecast.db");

/** Stands from the first start until the demo fleet is in, so that a start cut short is made good by the next. */
const demoDueIn = (folder) => path.join(folder, "demo-fleet-due");

const reasons = {
  EACCES: "permission is denied",
  EPERM: "permission is denied",
  EROFS: "the disk is read-only",
  ENOSPC: "the disk is full",
  ENOENT: "no folder or file can be made at that place",
  ENOTDIR: "a part of that path is a file",
  EEXIST: "there is a file of that name",
};

/** Makes sure that the data folder exists and can be written to, or refuses. @param {string} folder */
export function requireWritable(folder) {
  try {
    makeFolder(folder);
    const probe = path.join(folder, `.probe-${process.pid}`);
    writeFileSync(probe, "");
    rmSync(probe);
    if (existsSync(databaseIn(folder))) accessSync(databaseIn(folder), constants.R_OK | constants.W_OK);
  } catch (error) {
    const reason = reasons[error.code] ?? error.message;
    throw new Refusal(
      `The data folder ${folder} cannot be written to: ${reason}. Set BORECAST_DATA to another folder.`,
    );
  }
  if (existsSync(databaseIn(folder)) && !statSync(databaseIn(folder)).isFile()) {
    throw new Refusal(
      `${databaseIn(folder)} should be the database and is not a file. Set BORECAST_DATA to another folder.`,
    );
  }
}

async function borecast(command, folder, quiet) {
  const env = environment({ BORECAST_DATA: folder });
  const { status, output } = await run(process.execPath, [commandFile, command], { cwd: root, env, quiet });
  if (status !== 0) throw new Refusal(output.trim() || `borecast ${command} ended with exit status ${status}.`);
}

/**
 * Brings the database to this version; refuses one from a newer version in the command's own words. Remembers
 * whether the demo fleet is still to come: only a new database gets it.
 * @param {string} folder @param {{ empty: boolean }} choice
 */
export async function migrate(folder, { empty }) {
  if (empty) rmSync(demoDueIn(folder), { force: true });
  else if (!existsSync(databaseIn(folder))) writeFileSync(demoDueIn(folder), "");
  await borecast("migrate", folder, true);
}

/** Loads the demo fleet when it is due. @param {string} folder @param {(line: string) => void} say */
export async function loadDemoWhenDue(folder, say) {
  if (!existsSync(demoDueIn(folder))) return;
  say("Loading the demo fleet …");
  await borecast("demo", folder, true);
  rmSync(demoDueIn(folder));
}
