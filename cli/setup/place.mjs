import path from "node:path";
import { fileURLToPath } from "node:url";

/** The folder that holds package.json. */
export const root = path.resolve(path.dirname(fileURLToPath(import.meta.url)), "../..");

/** The program of a package, to be run by node itself. @param {string} script its path within node_modules */
export const inPackages = (script) => path.join(root, "node_modules", script);

export const nextProgram = inPackages("next/dist/bin/next");

/** The name of the folder that the pages are built to; ".next-" and a word where two builds of one tree must not meet. */
export const pagesName = process.env.BORECAST_BUILD || ".next";
export const pagesFolder = path.join(root, pagesName);

/** The bundled command line. */
export const commandFile = path.join(root, "dist/cli.mjs");

/** The bundled program of a worker thread, which the pages start for what takes long. */
export const workerFile = path.join(root, "dist/worker.mjs");

/** The environment for whatever we start: no telemetry, ever. @param {NodeJS.ProcessEnv} more */
export const environment = (more = {}) => ({ ...process.env, NEXT_TELEMETRY_DISABLED: "1", ...more });
