import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { expect, onTestFinished, test } from "vitest";
import { installationStamp, keepStamp, matchesLock } from "../../../cli/setup/packages.mjs";

const machine = { abi: "115", platform: "linux", arch: "x64" };
const stamp = installationStamp("lock", machine);

test.each([
  ["the same lock on the same machine", "lock", machine, true],
  ["another lock", "lock ", machine, false],
  ["another Node", "lock", { ...machine, abi: "127" }, false],
  ["another processor", "lock", { ...machine, arch: "arm64" }, false],
  ["another system", "lock", { ...machine, platform: "darwin" }, false],
])("%s: the stamp holds or not", (_title, lock, where, holds) => {
  expect(installationStamp(lock, where) === stamp).toBe(holds);
});

const lock = {
  packages: {
    "": { version: "0.1.0" },
    "node_modules/a": { version: "1.0.0" },
    "node_modules/a-for-another-machine": { version: "1.0.0", optional: true },
  },
};

test.each([
  ["all there but what is for another machine", { "node_modules/a": { version: "1.0.0" } }, true],
  [
    "more than the lock names",
    { "node_modules/a": { version: "1.0.0" }, "node_modules/b": { version: "2.0.0" } },
    true,
  ],
  ["one missing", {}, false],
  ["one of another version", { "node_modules/a": { version: "1.0.1" } }, false],
  [
    "an optional one of another version",
    { "node_modules/a": { version: "1.0.0" }, "node_modules/a-for-another-machine": { version: "0.9.0" } },
    false,
  ],
])("%s: the installation matches the lock or not", (_title, packages, matches) => {
  expect(matchesLock(lock, { packages })).toBe(matches);
});

test("a stamp that cannot be kept is no hindrance", () => {
  const folder = mkdtempSync(path.join(tmpdir(), "borecast-stamp-"));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  const file = path.join(folder, "stamp");
  keepStamp(file, stamp);
  expect(readFileSync(file, "utf8")).toBe(stamp);
  expect(() => keepStamp(path.join(file, "below a file"), stamp)).not.toThrow();
});
