import { spawn } from "node:child_process";
import { once } from "node:events";
import { existsSync } from "node:fs";
import { hostname } from "node:os";
import { expect, it } from "vitest";
import { isRunning, processMark } from "@/db/reader-process.ts";

const markOf = (pid: number, ...began: readonly string[]) => JSON.stringify([hostname(), pid, "another", ...began]);

it("knows its own mark, and says nothing of a process on another machine", () => {
  expect(isRunning(processMark())).toBe(true);
  expect(isRunning(JSON.stringify([`${hostname()}-2`, process.pid, "another"]))).toBeNull();
  expect(isRunning(null)).toBeNull();
});

it("takes a mark of its own number for an earlier process", () => {
  expect(isRunning(markOf(process.pid))).toBe(false);
});

it("asks whether another process runs", async () => {
  const child = spawn(process.execPath, ["-e", "setInterval(() => {}, 1000)"]);
  await once(child, "spawn");
  const pid = child.pid as number;
  expect(isRunning(markOf(pid))).toBe(true);
  child.kill("SIGKILL");
  await once(child, "exit");
  expect(isRunning(markOf(pid))).toBe(false);
});

it.runIf(existsSync("/proc/self/stat"))("is not misled by a later process of the same number", () => {
  expect(isRunning(markOf(process.ppid, "1"))).toBe(false);
});

it.runIf(existsSync("/proc/self/stat"))("takes an ended process for ended that nobody has cleared away", async () => {
  // The shell starts a process that ends soon, and becomes meanwhile one that never asks how it ended.
  const child = spawn("sh", ["-c", "sleep 0.5 & echo $!; exec sleep 60"], { stdio: ["ignore", "pipe", "ignore"] });
  const [told] = (await once(child.stdout, "data")) as [Buffer];
  const pid = Number(told.toString());
  await expect.poll(() => isRunning(markOf(pid)), { timeout: 20_000 }).toBe(false);
  expect(existsSync(`/proc/${pid}`)).toBe(true);
  child.kill("SIGKILL");
  await once(child, "exit");
});
