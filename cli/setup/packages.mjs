import { spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { existsSync, readFileSync, writeFileSync } from "node:fs";
import path from "node:path";
import { environment, root } from "./place.mjs";
import { Refusal } from "./refusal.mjs";
import { run } from "./run.mjs";
import { missingTools, programFinder, readyBinaryExists, toolchainAdvice } from "./toolchain.mjs";

/**
 * Names one installation: these packages, compiled for this Node on this kind of machine.
 * @param {string} lockText package-lock.json
 * @param {{ abi: string, platform: string, arch: string }} machine
 */
export function installationStamp(lockText, { abi, platform, arch }) {
  const lock = createHash("sha256").update(lockText).digest("hex");
  return `${lock} node-abi-${abi} ${platform}-${arch}\n`;
}

/**
 * Whether what npm says it has installed is what the lock file asks for. Packages for other kinds of machine are
 * optional and may be absent; what lies there beyond the lock does no harm.
 * @param {{ packages: Record<string, { version?: string, optional?: boolean }> }} lock package-lock.json
 * @param {{ packages: Record<string, { version?: string }> }} installed node_modules/.package-lock.json
 */
export function matchesLock(lock, installed) {
  return Object.entries(lock.packages).every(([where, wanted]) => {
    if (where === "") return true;
    const found = installed.packages[where];
    return found === undefined ? wanted.optional === true : found.version === wanted.version;
  });
}

const machine = { abi: process.versions.modules, platform: process.platform, arch: process.arch };
const lockFile = path.join(root, "package-lock.json");
const installedFile = path.join(root, "node_modules/.package-lock.json");
const stampFile = path.join(root, "node_modules/.borecast-installation");

/** The driver's binary fits one Node version, so only loading it tells whether it is there. */
function driverLoads() {
  const program = "new (require('better-sqlite3'))(':memory:').close()";
  return spawnSync(process.execPath, ["-e", program], { cwd: root, stdio: "ignore" }).status === 0;
}

async function requireToolchain(lock) {
  const has = programFinder(process.env.PATH ?? "");
  const missing = process.platform === "win32" ? [] : missingTools(has);
  if (missing.length === 0) return;
  const version = lock.packages["node_modules/better-sqlite3"].version;
  if (await readyBinaryExists({ version, ...machine, env: process.env })) return;
  throw new Refusal(toolchainAdvice(missing, { platform: process.platform, has }));
}

function npmCommand() {
  const npm = process.env.npm_execpath;
  if (npm?.endsWith("npm-cli.js")) return { command: process.execPath, before: [npm] };
  return { command: process.platform === "win32" ? "npm.cmd" : "npm", before: [] };
}

/**
 * Installs from the lock file where the packages are missing, are others, or were compiled for another Node.
 * @param {(line: string) => void} say
 */
export async function ensurePackages(say) {
  const lockText = readFileSync(lockFile, "utf8");
  const stamp = installationStamp(lockText, machine);
  if (existsSync(stampFile) && readFileSync(stampFile, "utf8") === stamp) return;
  const lock = JSON.parse(lockText);
  const present = existsSync(installedFile) && matchesLock(lock, JSON.parse(readFileSync(installedFile, "utf8")));
  if (!(present && driverLoads())) {
    await requireToolchain(lock);
    say("Installing packages (a few minutes the first time) …");
    const { command, before } = npmCommand();
    // With NODE_ENV=production npm would leave out what builds the pages.
    const { status } = await run(command, [...before, "ci", "--include=dev"], { cwd: root, env: environment() });
    if (status !== 0) throw new Refusal("The packages could not be installed; npm says why above.");
    if (!driverLoads()) throw new Refusal("The database driver was installed but does not load; npm says why above.");
  }
  keepStamp(stampFile, stamp);
}

/**
 * Spares the next start the comparing. Where it cannot be written, as on a read-only disk, that start compares again.
 * @param {string} file @param {string} stamp
 */
export function keepStamp(file, stamp) {
  try {
    writeFileSync(file, stamp);
  } catch {}
}
