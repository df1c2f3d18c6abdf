import { statSync, writeFileSync } from "node:fs";
import path from "node:path";
import { expect, it } from "vitest";
import { makeFolder } from "@/db/make-folder.mjs";
import { openStore } from "@/db/store.ts";
import { temporaryFile } from "./made-up.ts";

it("makes every folder that is missing, and leaves one that is there", () => {
  const folder = path.join(path.dirname(temporaryFile()), "a", "b", "c");
  makeFolder(folder);
  makeFolder(folder);
  expect(statSync(folder).isDirectory()).toBe(true);
});

it("throws what the system says where none can be made", () => {
  const file = temporaryFile();
  writeFileSync(file, "");
  expect(() => makeFolder(path.join(file, "a", "b"))).toThrow(/ENOTDIR/);
});

it.skipIf(process.platform !== "linux")("does not go on for ever below /proc", async () => {
  expect(() => makeFolder("/proc/borecast/a/b")).toThrow(/ENOENT/);
  await expect(openStore("/proc/borecast/a/borecast.db")).rejects.toMatchObject({ code: "not-writable" });
});
