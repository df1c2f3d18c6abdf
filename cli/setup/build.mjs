import { chmodSync, existsSync, mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from "node:fs";
import path from "node:path";
import { commandFile, environment, nextProgram, pagesFolder, pagesName, root, workerFile } from "./place.mjs";
import { Refusal } from "./refusal.mjs";
import { run } from "./run.mjs";
import { fingerprint } from "./sources.mjs";

const shared = ["lib", "db", "package-lock.json", "tsconfig.json"];
const commandSources = [...shared, "cli", "app/_jobs"];
const pageSources = [
  ...shared,
  "app",
  "public",
  "instrumentation.ts",
  "instrumentation-node.ts",
  "next.config.ts",
  "postcss.config.cjs",
  "proxy.ts",
  "types.d.ts",
];

/** The mark of a finished build: written last, taken away before the next one begins. */
const mark = (folder) => path.join(folder, "borecast-sources");

const isCurrent = (folder, product, sources) =>
  existsSync(product) && existsSync(mark(folder)) && readFileSync(mark(folder), "utf8") === sources;

/**
 * Bundles a program with its packages to one file that node runs as it is: to find and read their hundreds of
 * files would take half of its start. What is compiled stays in node_modules.
 */
export async function bundle(source, target) {
  const { build } = await import("esbuild");
  const { outputFiles } = await build({
    entryPoints: [path.join(root, source)],
    absWorkingDir: root,
    bundle: true,
    write: false,
    platform: "node",
    format: "esm",
    target: "node20",
    external: ["better-sqlite3", "highs"],
    alias: { "@": root },
    // Packages in the older form of modules ask for others, and for Node's own, by `require`.
    banner: {
      js: '#!/usr/bin/env node\nimport { createRequire } from "node:module";\nconst require = createRequire(import.meta.url);',
    },
    logLevel: "silent",
  });
  // Written beside and moved, so that a command that runs meanwhile never sees half a file.
  const beside = `${target}.${process.pid}`;
  writeFileSync(beside, outputFiles[0].contents);
  chmodSync(beside, 0o755);
  renameSync(beside, target);
}

/** Brings the command line, and what the pages reckon in a thread beside them, up to date with the sources; a second or two. */
export async function ensureCommand() {
  const folder = path.dirname(commandFile);
  const sources = fingerprint(root, commandSources);
  if (isCurrent(folder, commandFile, sources) && existsSync(workerFile)) return;
  mkdirSync(folder, { recursive: true });
  rmSync(mark(folder), { force: true });
  try {
    await Promise.all([bundle("cli/borecast.ts", commandFile), bundle("app/_jobs/worker/main.ts", workerFile)]);
  } catch (error) {
    throw new Refusal(`The command line could not be built: ${error.message}`);
  }
  writeFileSync(mark(folder), sources);
}

/**
 * Builds the pages when their sources are not those of the last build.
 * @param {(line: string) => void} say
 */
export async function ensurePages(say) {
  const sources = fingerprint(root, pageSources);
  if (isCurrent(pagesFolder, path.join(pagesFolder, "BUILD_ID"), sources)) return;
  say("Building the pages (about a minute) …");
  rmSync(mark(pagesFolder), { force: true });
  if (pagesName !== ".next")
    writeFileSync(path.join(root, `tsconfig${pagesName}.json`), '{ "extends": "./tsconfig.json" }\n');
  const { status, output } = await run(process.execPath, [nextProgram, "build"], {
    cwd: root,
    env: environment({ NODE_ENV: "production" }),
    quiet: true,
  });
  if (status !== 0) throw new Refusal(`${output.trimEnd()}\nThe pages could not be built; the reason stands above.`);
  writeFileSync(mark(pagesFolder), sources);
}
