import { accessSync, constants } from "node:fs";
import path from "node:path";

/** What compiles better-sqlite3: each line holds programs of which one will do, under the name that people know. */
const needed = [
  { name: "python3", anyOf: ["python3", "python"] },
  { name: "make", anyOf: ["make", "gmake"] },
  { name: "a C++ compiler", anyOf: ["g++", "c++", "clang++"] },
];

const inWords = new Intl.ListFormat("en-GB");

/** @param {string} searchPath as in PATH @returns {(program: string) => boolean} whether a program is to be found */
export function programFinder(searchPath) {
  const folders = searchPath.split(path.delimiter).filter(Boolean);
  return (program) =>
    folders.some((folder) => {
      try {
        accessSync(path.join(folder, program), constants.X_OK);
        return true;
      } catch {
        return false;
      }
    });
}

/** The tools that are missing, by name. @param {(program: string) => boolean} has */
export const missingTools = (has) => needed.filter(({ anyOf }) => !anyOf.some(has)).map(({ name }) => name);

/**
 * One line that says how to get a C++ toolchain.
 * @param {string[]} missing names from missingTools
 * @param {{ platform: string, has: (program: string) => boolean }} machine
 */
export function toolchainAdvice(missing, { platform, has }) {
  const how =
    platform === "darwin"
      ? "run: xcode-select --install"
      : has("apt-get")
        ? "run: sudo apt-get install python3 make g++"
        : has("dnf")
          ? "run: sudo dnf install python3 make gcc-c++"
          : has("apk")
            ? "run: apk add python3 make g++"
            : "install python3, make and g++ (or clang)";
  return `The database driver must be compiled here and ${inWords.format(missing)} cannot be found; ${how}, then start again.`;
}

/**
 * Whether a ready binary of better-sqlite3 lies where its installer looks for one.
 * @param {{ version: string, abi: string, platform: string, arch: string, env: Record<string, string | undefined> }} wanted
 */
export async function readyBinaryExists({ version, abi, platform, arch, env }) {
  // Behind a proxy only npm knows the way: let it try.
  if (env.HTTPS_PROXY || env.https_proxy || env.npm_config_https_proxy) return true;
  const host =
    env.npm_config_better_sqlite3_binary_host ?? "https://github.com/WiseLibs/better-sqlite3/releases/download";
  const file = `better-sqlite3-v${version}-node-v${abi}-${platform}-${arch}.tar.gz`;
  try {
    const answer = await fetch(`${host}/v${version}/${file}`, { method: "HEAD", signal: AbortSignal.timeout(5_000) });
    return answer.ok;
  } catch {
    return false;
  }
}
