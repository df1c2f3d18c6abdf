import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { ensureBrowser } from "../setup/browser.mjs";
import { ensureCommand, ensurePages } from "../setup/build.mjs";
import { environment, inPackages, nextProgram, root } from "../setup/place.mjs";
import { run } from "../setup/run.mjs";
import { countBrowserTests, countUnitTests, none, sum, trusting } from "./counts.mjs";

/** @typedef {import("./summary.mjs").Line} Line */
/** @typedef {{ name: string, title: string, run: (say: (line: string) => void) => Promise<Line[]> }} Step */

const biome = inPackages("@biomejs/biome/bin/biome");
const direction = ["--only=style/noRestrictedImports", "--only=style/noRestrictedGlobals", "--only=plugin"];

const node = async (program, args, env = {}) =>
  (await run(process.execPath, [program, ...args], { cwd: root, env: testEnvironment(env) })).status;

/** The tests choose their own mode and data: what the caller has set for the app must not reach them. */
function testEnvironment(more) {
  const { NODE_ENV: _mode, BORECAST_DATA: _data, PORT: _port, BORECAST_HOST: _host, ...env } = environment();
  return { ...env, ...more };
}

/** A step that is one check: it passes or fails as a whole. */
const check = (name, title, commands) => ({
  name,
  title,
  run: async (say) => {
    for (const command of commands) {
      if ((await command(say)) !== 0) return [{ name: title, counts: { ...none(), failed: 1 } }];
    }
    return [{ name: title, counts: { ...none(), passed: 1 } }];
  },
});

/** Runs a program that writes a JSON report; gives its exit status and the report, if it came to write one. */
async function withReport(program) {
  const folder = mkdtempSync(path.join(tmpdir(), "borecast-report-"));
  const file = path.join(folder, "report.json");
  try {
    const status = await program(file);
    return { status, report: existsSync(file) ? JSON.parse(readFileSync(file, "utf8")) : undefined };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** The folders of tests that vitest runs, and what each is called in the summary. */
const folderNames = {
  lib: "unit tests",
  app: "page tests",
  published: "published values",
  db: "database tests",
  cli: "command-line tests",
  fuzz: "fuzz tests",
  house: "house rules",
  "demo-data": "demo data",
  server: "server tests",
};

const vitestStep = (name, title, folders, { pages = false } = {}) => ({
  name,
  title,
  run: async (say) => {
    await ensureCommand();
    if (pages) await ensurePages(say);
    const where = folders.map((folder) => `tests/${folder}/`);
    const { status, report } = await withReport((file) =>
      node(inPackages("vitest/vitest.mjs"), [
        "run",
        ...where,
        "--reporter=default",
        "--reporter=json",
        `--outputFile.json=${file}`,
      ]),
    );
    const counted = report ? countUnitTests(report, path.join(root, "tests")) : new Map();
    const lines = [...counted].map(([folder, counts]) => ({ name: folderNames[folder] ?? `tests/${folder}`, counts }));
    const failed = lines.some(({ counts }) => counts.failed > 0);
    // A run may fail outside every test, as by an error that nobody caught.
    if (lines.length === 0 || (status !== 0 && !failed)) lines.push({ name: title, counts: { ...none(), failed: 1 } });
    return lines;
  },
});

/** Seconds that files of browser tests take, about: those of more than half a minute. Others count as so many. */
const browserSeconds = new Map([
  ["every-page", 280],
  ["every-unit-page", 170],
  ["budget", 130],
  ["recording", 84],
  ["addresses", 61],
  ["test-sheet", 61],
  ["fleet", 51],
  ["settings", 46],
  ["unit-facts", 46],
  ["unit-charts", 45],
  ["downloads", 43],
  ["record", 37],
  ["house-depots", 33],
]);
const otherSeconds = 20;

/**
 * Browser tests of one store follow each other, and wait more than they work: so several shares of their files run side by side,
 * each with a server and a store of its own. The longest files go first, each to the share that has least to do.
 */
const browserShareCount = 4;

function browserShares() {
  const folder = "tests/browser";
  const secondsOf = (name) => browserSeconds.get(path.basename(name, ".spec.ts")) ?? otherSeconds;
  const files = readdirSync(path.join(root, folder)).filter((name) => name.endsWith(".spec.ts"));
  const shares = Array.from({ length: browserShareCount }, () => ({ seconds: 0, files: [] }));
  for (const name of files.sort((a, b) => secondsOf(b) - secondsOf(a) || (a < b ? -1 : 1))) {
    const share = shares.reduce((least, one) => (one.seconds < least.seconds ? one : least));
    share.seconds += secondsOf(name);
    share.files.push(`${folder}/${name}`);
  }
  return shares.map((share) => share.files);
}

const browserStep = {
  name: "browser",
  title: "browser tests",
  run: async (say) => {
    const browser = await ensureBrowser(say);
    await ensureCommand();
    await ensurePages(say);
    const parts = await Promise.all(
      browserShares().map(async (files, i) => {
        const args = ["test", ...files, "--reporter=list,json", `--output=test-results/${i + 1}`];
        const { status, report } = await withReport((file) =>
          node(inPackages("@playwright/test/cli.js"), args, {
            CHROMIUM_PATH: browser,
            PLAYWRIGHT_JSON_OUTPUT_FILE: file,
          }),
        );
        return trusting(report ? countBrowserTests(report) : none(), status);
      }),
    );
    return [{ name: "browser tests", counts: sum(parts) }];
  },
};

/** What `npm test` does, in order. @type {Step[]} */
export const steps = [
  check("lint", "format and lint", [
    () =>
      node(biome, [
        "ci",
        "--error-on-warnings",
        "--skip=style/noRestrictedImports",
        "--skip=style/noRestrictedGlobals",
        "--skip=plugin",
      ]),
  ]),
  check("types", "types", [
    () => node(nextProgram, ["typegen"]),
    () => node(inPackages("typescript/bin/tsc"), ["--noEmit", "--incremental", "false"]),
  ]),
  check("direction", "dependency direction", [() => node(biome, ["lint", ...direction])]),
  check("unused", "unused code", [() => node(inPackages("knip/bin/knip.js"), ["--no-progress"])]),
  check("build", "build", [
    async (say) => {
      await ensureCommand();
      await ensurePages(say);
      return 0;
    },
  ]),
  // Those of the server wait more than they work, so that they run beside the others.
  vitestStep("tests", "tests", Object.keys(folderNames), { pages: true }),
  browserStep,
];

/** Parts of the step "tests", to be chosen by name. @type {Step[]} */
export const parts = [
  vitestStep("unit", "unit tests", ["lib", "app"]),
  ...["published", "db", "cli", "fuzz", "house", "demo-data"].map((folder) =>
    vitestStep(folder, folderNames[folder], [folder]),
  ),
  vitestStep("server", folderNames.server, ["server"], { pages: true }),
];
