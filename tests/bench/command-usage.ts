import { spawn } from "node:child_process";
import { once } from "node:events";
import type { Readable } from "node:stream";
import { text } from "node:stream/consumers";
import { fileURLToPath } from "node:url";
import { z } from "zod";
import { commandFile } from "../../cli/setup/place.mjs";

export interface CommandUsage {
  readonly status: number | null;
  /** Of the process, from start to exit. */
  readonly seconds: number;
  /** Of all its threads; more than `seconds` where they work side by side, less where other programs were in the way. */
  readonly processorSeconds: number;
  /** Peak resident memory, bytes. */
  readonly peakBytes: number;
}

const usageReporter = fileURLToPath(new URL("./report-usage.mjs", import.meta.url));
const usageSchema = z.object({ peakKib: z.number(), processorMicroseconds: z.number() });

/** Runs the built command in a process of its own and tells what it took. `out`: a file that its output goes to. */
export async function commandUsage(
  args: readonly string[],
  { out, env = {} }: { readonly out: number | "ignore"; readonly env?: Readonly<Record<string, string>> },
): Promise<CommandUsage> {
  const start = performance.now();
  const child = spawn(process.execPath, ["--import", usageReporter, commandFile, ...args], {
    stdio: ["ignore", out, "inherit", "pipe"],
    env: { ...process.env, ...env },
  });
  const usageJson = text(child.stdio[3] as Readable);
  const [status] = (await once(child, "exit")) as [number | null];
  const seconds = (performance.now() - start) / 1000;
  const usage = usageSchema.parse(JSON.parse(await usageJson));
  return { status, seconds, processorSeconds: usage.processorMicroseconds / 1e6, peakBytes: usage.peakKib * 1024 };
}
