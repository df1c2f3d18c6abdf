import { spawnSync } from "node:child_process";
import { existsSync } from "node:fs";
import { createRequire } from "node:module";
import path from "node:path";
import { environment, inPackages, root } from "./place.mjs";
import { Refusal } from "./refusal.mjs";
import { run } from "./run.mjs";
import { programFinder } from "./toolchain.mjs";

/**
 * Names under which systems install a Chromium that Playwright can drive. First the one that draws for no screen: it takes
 * a fifth less time for the same tests.
 */
const systemNames = [
  "chromium-headless-shell",
  "chromium",
  "chromium-browser",
  "google-chrome",
  "google-chrome-stable",
];

/**
 * Picks the browser for the tests: the one that was named, Playwright's own, or the system's.
 * @param {{ given: string | undefined, playwrights: string, searchPath: string, works: (program: string) => boolean }} places
 *   `works` says whether a program is there and starts: a system's package may be a mere signpost to another store
 * @returns {string | undefined} the program's path; a named one that does not work is refused, not passed over
 */
export function chooseBrowser({ given, playwrights, searchPath, works }) {
  if (given) {
    if (works(given)) return given;
    throw new Refusal(`CHROMIUM_PATH names ${given}, which is no browser that starts.`);
  }
  const folders = searchPath.split(path.delimiter).filter(Boolean);
  const ofSystem = systemNames.flatMap((name) => folders.map((folder) => path.join(folder, name)));
  return [playwrights, ...ofSystem].find(works);
}

function starts(program) {
  return existsSync(program) && spawnSync(program, ["--version"], { stdio: "ignore", timeout: 30_000 }).status === 0;
}

/** The browser that is here, if any; needs Playwright to be installed. */
export function findBrowser() {
  const { chromium } = createRequire(path.join(root, "package.json"))("@playwright/test");
  return chooseBrowser({
    given: process.env.CHROMIUM_PATH,
    playwrights: chromium.executablePath(),
    searchPath: process.env.PATH ?? "",
    works: starts,
  });
}

async function installFromDistribution() {
  const isRoot = process.getuid?.() === 0;
  if (!isRoot || !programFinder(process.env.PATH ?? "")("apt-get")) return;
  const env = environment({ DEBIAN_FRONTEND: "noninteractive" });
  // Another installation may hold the package lock for a while: wait for it rather than fail.
  const wait = ["-o", "DPkg::Lock::Timeout=300"];
  await run("apt-get", [...wait, "update"], { cwd: root, env });
  // Not every release of a distribution has the first.
  for (const name of ["chromium-headless-shell", "chromium"]) {
    await run("apt-get", [...wait, "install", "-yq", "--no-install-recommends", name], { cwd: root, env });
    if (findBrowser()) return;
  }
}

/**
 * Finds a browser or installs one: Playwright's where its download can be reached, else the distribution's where we
 * may install packages.
 * @param {(line: string) => void} say
 * @returns {Promise<string>} the browser's path
 */
export async function ensureBrowser(say) {
  const here = findBrowser();
  if (here) return here;
  say("No browser here: installing one for the tests …");
  const playwright = inPackages("@playwright/test/cli.js");
  await run(process.execPath, [playwright, "install", "chromium"], { cwd: root, env: environment() });
  const downloaded = findBrowser();
  if (downloaded) return downloaded;
  await installFromDistribution();
  const installed = findBrowser();
  if (installed) return installed;
  throw new Refusal("No browser was found or could be installed: install Chromium, or set CHROMIUM_PATH to one.");
}
