import { readdirSync } from "node:fs";
import path from "node:path";
import { expect, test } from "vitest";
import { parts, steps } from "@/cli/testing/steps.mjs";

const tests = path.resolve(import.meta.dirname, "..");

test("every folder that has unit tests is run by npm test", () => {
  const named = new Set(["lib", "app", ...[...steps, ...parts].map(({ name }: { name: string }) => name)]);
  const files = readdirSync(tests, { recursive: true, encoding: "utf8" }).filter((file) => /\.test\.tsx?$/.test(file));
  const folders = new Set(files.map((file) => file.split(path.sep)[0] ?? ""));
  expect([...folders].filter((folder) => !named.has(folder))).toEqual([]);
});
