import { spawnSync } from "node:child_process";
import { copyFileSync, mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";

/** One line of source at a place in the tree, and whether the rules must refuse it. */
interface Case {
  file: string;
  line: string;
  refused: boolean;
}

const repository = path.resolve(import.meta.dirname, "../..");
const stages = [
  "layout",
  "intake",
  "sealing",
  "condition",
  "cause",
  "projection",
  "assess",
  "explain",
  "comparison",
  "track",
  "round",
  "plan",
  "budget",
];
const fileOfStage = (stage: string) => `lib/${stage}/made.ts`;

const refuse = (file: string, line: string): Case => ({ file, line, refused: true });
const accept = (file: string, line: string): Case => ({ file, line, refused: false });
const take = (source: string) => `import { NAME } from "${source}";`;
const takeType = (source: string) => `import type { NAME } from "${source}";`;

/** Every stage against every stage, by both spellings of the path, for values and for types. */
const stageOrder = stages.flatMap((from, i) =>
  stages
    .filter((to) => to !== from)
    .flatMap((to) => {
      const say = stages.indexOf(to) > i ? refuse : accept;
      return [
        say(fileOfStage(from), take(`../${to}/types.ts`)),
        say(fileOfStage(from), takeType(`@/lib/${to}/types.ts`)),
      ];
    }),
);

const libFiles = [...stages.map(fileOfStage), "lib/assess.ts", "lib/units.ts", "lib/result.ts", "lib/schema/made.ts"];
const outsideLib = [
  "@/app/_ui/band.tsx",
  "../../app/page.tsx",
  "@/cli/borecast.ts",
  "@/db/open.ts",
  "../../db/open.ts",
  "react",
  "react-dom/server",
  "next",
  "next/link",
  "@mantine/core",
  "recharts",
  "drizzle-orm",
  "drizzle-orm/sqlite-core",
  "better-sqlite3",
  "node:fs",
  "node:fs/promises",
];

const cases: Case[] = [
  ...stageOrder,
  ...libFiles.flatMap((file) => outsideLib.map((source) => refuse(file, take(source)))),
  ...libFiles.flatMap((file) => [
    refuse(file, takeType("@/db/open.ts")),
    accept(file, take("zod")),
    accept(file, take("@/lib/schema/words.ts")),
    accept(file, take("@/lib/statistics/quantile.ts")),
    accept(file, take("@/lib/units.ts")),
  ]),
  ...["lib/units.ts", "lib/schema/made.ts", "lib/statistics/made.ts"].flatMap((file) =>
    stages.map((stage) => refuse(file, takeType(`@/lib/${stage}/types.ts`))),
  ),
  refuse("lib/projection/made.ts", take("../assess.ts")),
  refuse("lib/sealing/made.ts", take("@/lib/assess.ts")),
  refuse("lib/cause/made.ts", take("../report.ts")),
  refuse("lib/cause/made.ts", takeType("@/lib/report.ts")),
  accept("lib/cause/made.ts", take("../schema/report.ts")),
  accept("lib/report.ts", take("./projection/types.ts")),
  refuse("lib/report.ts", take("./plan/types.ts")),
  refuse("lib/wording.ts", take("./plan/types.ts")),
  refuse("lib/calendar.ts", take("./intake/types.ts")),
  refuse("lib/glossary.ts", take("./intake/types.ts")),
  refuse("lib/edit-distance.ts", take("./layout/types.ts")),
  accept("lib/plan/made.ts", take("@/lib/assess.ts")),
  ...stages.map((stage) => refuse("lib/changes/made.ts", takeType(`@/lib/${stage}/types.ts`))),
  // The budget comes last, and may tell why it moved.
  ...stages.slice(0, -1).map((stage) => refuse(fileOfStage(stage), takeType("../changes/compare.ts"))),
  accept("lib/changes/made.ts", take("./window-move.ts")),
  accept("lib/changes/made.ts", takeType("../schema/changes.ts")),
  // A test sheet judges by the stages before the causes; no stage reads it.
  ...stages.map((stage, i) =>
    (i < stages.indexOf("cause") ? accept : refuse)("lib/test-entry/made.ts", take(`../${stage}/types.ts`)),
  ),
  ...stages.map((stage) => refuse(fileOfStage(stage), takeType("@/lib/test-entry/made.ts"))).slice(0, -1),
  ...outsideLib.map((source) => refuse("lib/test-entry/made.ts", take(source))),
  refuse("lib/sealing/made.ts", `export { NAME } from "@/db/open.ts";`),
  refuse("lib/sealing/made.ts", `export const NAME = await import("@/db/open.ts");`),

  refuse("db/made.ts", take("@/lib/condition/bands.ts")),
  refuse("db/made.ts", takeType("../lib/projection/types.ts")),
  refuse("db/made.ts", take("@/lib/assess.ts")),
  refuse("db/made.ts", take("@/app/page.tsx")),
  refuse("db/made.ts", take("../cli/borecast.ts")),
  refuse("db/made.ts", take("next/cache")),
  refuse("db/made.ts", take("react")),
  accept("db/made.ts", take("@/lib/schema/facts.ts")),
  accept("db/made.ts", take("../lib/schema/facts.ts")),
  accept("db/made.ts", take("drizzle-orm")),
  accept("db/made.ts", take("node:fs")),

  refuse("cli/made.ts", take("@/app/page.tsx")),
  refuse("cli/made.ts", take("drizzle-orm")),
  refuse("cli/made.ts", take("better-sqlite3")),
  refuse("cli/made.ts", take("react")),
  accept("cli/made.ts", take("@/db/open.ts")),
  accept("cli/made.ts", take("@/lib/assess.ts")),

  refuse("app/made.tsx", take("@/cli/borecast.ts")),
  refuse("app/made.tsx", take("drizzle-orm")),
  refuse("app/made.tsx", take("better-sqlite3")),
  accept("app/made.tsx", take("@/db/open.ts")),
  accept("app/made.tsx", take("@/lib/assess.ts")),
  accept("app/made.tsx", take("./_ui/made.client.tsx")),
  refuse("app/_ui/made.client.tsx", take("@/db/open.ts")),
  refuse("app/_ui/made.client.tsx", takeType("../../db/open.ts")),
  refuse("app/_ui/made.client.tsx", take("node:fs")),
  refuse("app/_ui/made.client.tsx", take("node:fs/promises")),
  refuse("app/_ui/made.client.tsx", take("better-sqlite3")),
  accept("app/_ui/made.client.tsx", take("@/lib/schema/words.ts")),

  refuse("lib/sealing/made.ts", "export const NAME = Date.now();"),
  refuse("lib/sealing/made.ts", "export const NAME = Date.now;"),
  refuse("lib/sealing/made.ts", "export const NAME = new Date();"),
  refuse("lib/sealing/made.ts", "export const NAME = Math.random();"),
  refuse("lib/sealing/made.ts", "export const NAME = process.env;"),
  refuse("lib/sealing/made.ts", "export const NAME = globalThis.process;"),
  refuse("lib/sealing/made.ts", "export const NAME = performance.now();"),
  refuse("lib/sealing/made.ts", `console.log("said");`),
  accept("lib/sealing/made.ts", `export const NAME = new Date("2026-06-30");`),
  accept("lib/sealing/made.ts", "export const NAME = Date.UTC(2026, 5, 30);"),
  accept("lib/sealing/made.ts", "export const NAME = Math.max(1, 2);"),
  accept("cli/made.ts", "export const NAME = new Date();"),
  refuse("lib/sealing/made.ts", `export type NAME = import("@/db/open.ts").Store;`),
  refuse("db/made.ts", `export type NAME = import("@/lib/plan/types.ts").Plan;`),
  refuse("lib/sealing/made.ts", "export const NAME: any = 1;"),
];

const files = [...new Set(cases.map(({ file }) => file))];
const casesOf = (file: string) => cases.filter((made) => made.file === file);
const watched = /noRestrictedImports|noRestrictedGlobals|noConsole|noExplicitAny|^plugin$/;

const tree = mkdtempSync(path.join(tmpdir(), "borecast-rules-"));
let refusedLines = new Map<string, Set<number>>();

/** Runs the project's own rules over a folder; gives the lines that they refuse, by file. */
function lint(directory: string): Map<string, Set<number>> {
  const biome = path.join(repository, "node_modules/@biomejs/biome/bin/biome");
  const options = ["lint", "--vcs-enabled=false", "--reporter=json", "--max-diagnostics=none", "."];
  const run = spawnSync(process.execPath, [biome, ...options], {
    cwd: directory,
    encoding: "utf8",
    maxBuffer: 2 ** 26,
  });
  const report = JSON.parse(run.stdout) as {
    diagnostics: { category: string; location: { path: string; start: { line: number } } }[];
  };
  const lines = new Map<string, Set<number>>();
  for (const { category, location } of report.diagnostics) {
    if (!watched.test(category)) continue;
    const file = location.path.split(path.sep).join("/");
    lines.set(file, (lines.get(file) ?? new Set()).add(location.start.line));
  }
  return lines;
}

beforeAll(() => {
  mkdirSync(path.join(tree, "tests/house"), { recursive: true });
  copyFileSync(path.join(repository, "biome.json"), path.join(tree, "biome.json"));
  for (const name of readdirSync(import.meta.dirname).filter((name) => name.endsWith(".grit"))) {
    copyFileSync(path.join(import.meta.dirname, name), path.join(tree, "tests/house", name));
  }
  for (const file of files) {
    mkdirSync(path.dirname(path.join(tree, file)), { recursive: true });
    const lines = casesOf(file).map(({ line }, index) => line.replace("NAME", `name${index}`));
    writeFileSync(path.join(tree, file), `${lines.join("\n")}\n`);
  }
  refusedLines = lint(tree);
});

afterAll(() => rmSync(tree, { recursive: true, force: true }));

test.each(files)("the house rules refuse what %s may not do, and nothing else", (file) => {
  const refused = casesOf(file).filter((_, index) => refusedLines.get(file)?.has(index + 1));
  expect(refused.map(({ line }) => line)).toEqual(
    casesOf(file).flatMap(({ line, refused }) => (refused ? [line] : [])),
  );
});
