import { spawn } from "node:child_process";
import { once } from "node:events";
import type { Readable } from "node:stream";
import { text } from "node:stream/consumers";
import { fileURLToPath } from "node:url";
import { z } from "zod";
import { commandFile } from "../../cli/setup/place.mjs";

const usageReporter = fileURLToPath(new URL("./report-usage.mjs", import.meta.url));

const usageSchema = z.object({ peakKib: z.number(), processorMicroseconds: z.number() });

export interface CommandUsage {
  readonly status: number | null;
  /** Of the process, from start to exit. */
  readonly seconds: number;
  /** Of all its threads. */
  readonly processorSeconds: number;
  /** Its peak resident memory. */
  readonly peakGb: number;
}

/** Runs the built command and measures its process. `output`: where its standard output goes; left out, nowhere. */
export async function commandUsage(
  args: readonly string[],
  { output, env = {} }: { readonly output?: number; readonly env?: Readonly<Record<string, string>> } = {},
): Promise<CommandUsage> {
  const start = performance.now();
  const child = spawn(process.execPath, ["--import", usageReporter, commandFile, ...args], {
    stdio: ["ignore", output ?? "ignore", "inherit", "pipe"],
    env: { ...process.env, ...env },
  });
  const usageJson = text(child.stdio[3] as Readable);
  const [status] = (await once(child, "exit")) as [number | null];
  const seconds = (performance.now() - start) / 1000;
  const usage = usageSchema.parse(JSON.parse(await usageJson));
  return { status, seconds, processorSeconds: usage.processorMicroseconds / 1e6, peakGb: (usage.peakKib * 1024) / 1e9 };
}
