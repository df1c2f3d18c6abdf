import { randomUUID } from "node:crypto";
import { hostname } from "node:os";

const holder = globalThis as { borecastProcess?: string };

/**
 * The mark of this process on an import that it reads. On globalThis because the bundler may load this file more than
 * once; a random part tells it from an earlier process of the same number, as after every start of a container.
 */
export function processMark(): string {
  holder.borecastProcess ??= JSON.stringify([hostname(), process.pid, randomUUID()]);
  return holder.borecastProcess;
}

/** Whether the process that made the mark runs; null: it cannot be told, for it ran on another machine. */
export function isRunning(mark: string | null): boolean | null {
  if (mark === processMark()) return true;
  if (mark === null) return null;
  const [host, pid] = JSON.parse(mark) as [string, number, string];
  if (host !== hostname()) return null;
  if (pid === process.pid) return false;
  try {
    // No signal: only asks.
    process.kill(pid, 0);
    return true;
  } catch (error) {
    // It may run under another name, which is not for us to signal.
    return (error as NodeJS.ErrnoException).code === "EPERM";
  }
}
