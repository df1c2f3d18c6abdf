import { chmodSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { expect, test } from "vitest";
import { nodeRefusal } from "../../../cli/setup/node-version.mjs";
import { missingTools, programFinder, toolchainAdvice } from "../../../cli/setup/toolchain.mjs";

const having =
  (...programs: string[]) =>
  (program: string) =>
    programs.includes(program);

test("clang++ is a C++ compiler as good as g++", () => {
  expect(missingTools(having("python3", "make", "clang++"))).toEqual([]);
  expect(missingTools(having("python3", "make", "g++"))).toEqual([]);
});

test("every missing tool is named", () => {
  expect(missingTools(having("make"))).toEqual(["python3", "a C++ compiler"]);
});

test.each([
  ["linux", ["apt-get"], "sudo apt-get install python3 make g++"],
  ["linux", ["dnf"], "sudo dnf install python3 make gcc-c++"],
  ["linux", ["apk"], "apk add python3 make g++"],
  ["linux", [], "install python3, make and g++ (or clang)"],
  ["darwin", [], "xcode-select --install"],
])("on %s with %j the advice fits the system and is one line", (platform, programs, how) => {
  const advice = toolchainAdvice(["make"], { platform, has: having(...programs) });
  expect(advice).toContain(how);
  expect(advice).toContain("make cannot be found");
  expect(advice).not.toContain("\n");
});

test("a program counts only where it may be run", () => {
  const folder = mkdtempSync(path.join(tmpdir(), "borecast-path-"));
  try {
    writeFileSync(path.join(folder, "make"), "");
    chmodSync(path.join(folder, "make"), 0o755);
    writeFileSync(path.join(folder, "notes"), "");
    chmodSync(path.join(folder, "notes"), 0o644);
    const has = programFinder(["/no/such/folder", folder].join(path.delimiter));
    expect([has("make"), has("notes"), has("g++")]).toEqual([true, false, false]);
  } finally {
    rmSync(folder, { recursive: true });
  }
});

test.each([
  ["20.9.0", true],
  ["20.20.2", true],
  ["24.0.0", true],
  ["20.8.1", false],
  ["18.20.4", false],
])("Node %s is new enough: %s", (version, accepted) => {
  expect(nodeRefusal(version, "20.9")).toBe(
    accepted ? undefined : `Borecast needs Node 20.9 or newer; this is Node ${version}.`,
  );
});
