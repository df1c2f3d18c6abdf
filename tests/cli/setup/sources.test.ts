import { mkdirSync, mkdtempSync, renameSync, rmSync, utimesSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { afterEach, beforeEach, expect, test } from "vitest";
import { fingerprint } from "../../../cli/setup/sources.mjs";

let place: string;
const file = (name: string) => path.join(place, name);

beforeEach(() => {
  place = mkdtempSync(path.join(tmpdir(), "borecast-sources-"));
  mkdirSync(file("lib/sealing"), { recursive: true });
  writeFileSync(file("lib/sealing/orifice.ts"), "one");
  writeFileSync(file("lib/units.ts"), "two");
  writeFileSync(file("config.ts"), "three");
});

afterEach(() => rmSync(place, { recursive: true, force: true }));

const take = () => fingerprint(place, ["lib", "config.ts", "absent"]);

test("the same sources give the same word, touched or not", () => {
  const before = take();
  utimesSync(file("config.ts"), new Date(0), new Date(0));
  expect(take()).toBe(before);
});

test.each([
  ["changed", () => writeFileSync(file("lib/sealing/orifice.ts"), "other")],
  ["added", () => writeFileSync(file("lib/sealing/new.ts"), "")],
  ["removed", () => rmSync(file("lib/units.ts"))],
  ["renamed", () => renameSync(file("lib/units.ts"), file("lib/unit.ts"))],
  ["made at last", () => writeFileSync(file("absent"), "")],
])("a file %s gives another word", (_what, change) => {
  const before = take();
  change();
  expect(take()).not.toBe(before);
});

test("a file outside the places named does not count", () => {
  const before = take();
  writeFileSync(file("notes.txt"), "");
  expect(take()).toBe(before);
});
