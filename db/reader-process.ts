import { randomUUID } from "node:crypto";
import { readFileSync } from "node:fs";
import { hostname } from "node:os";

const holder = globalThis as { borecastProcess?: string };

/** Machine, number of the process, what is its alone, and when it began where the system tells. */
type Mark = readonly [host: string, pid: number, own: string, began?: string | null];

/**
 * The mark of this process on an import that it reads. On globalThis because the bundler may load this file more than
 * once; a random part tells it from an earlier process of the same number, as after every start of a container.
 */
export function processMark(): string {
  const mark: Mark = [hostname(), process.pid, randomUUID(), stateOf(process.pid)?.began ?? null];
  holder.borecastProcess ??= JSON.stringify(mark);
  return holder.borecastProcess;
}

/** Whether the process that made the mark runs; null: it cannot be told, for it ran on another machine. */
export function isRunning(mark: string | null): boolean | null {
  if (mark === processMark()) return true;
  if (mark === null) return null;
  const [host, pid, , began] = JSON.parse(mark) as Mark;
  if (host !== hostname()) return null;
  if (pid === process.pid) return false;
  const state = stateOf(pid);
  if (state?.hasEnded) return false;
  if (state && began && state.began !== began) return false;
  try {
    // No signal: only asks.
    process.kill(pid, 0);
    return true;
  } catch (error) {
    // It may run under another name, which is not for us to signal.
    return (error as NodeJS.ErrnoException).code === "EPERM";
  }
}

/**
 * What Linux tells of a process (proc_pid_stat(5)): when it began, in ticks since the machine did, which tells it from a
 * later one of the same number; and whether it has ended and only waits to be cleared away, for a signal still reaches
 * it then. undefined: nothing is told.
 */
function stateOf(pid: number): { readonly began: string | null; readonly hasEnded: boolean } | undefined {
  let line: string;
  try {
    line = readFileSync(`/proc/${pid}/stat`, "latin1");
  } catch {
    return undefined;
  }
  // The second field is the program's name in brackets, which may hold anything.
  const [state = "", ...fields] = line.slice(line.lastIndexOf(")") + 2).split(" ");
  const beganAt = 22 - 3 - 1;
  return { began: fields[beganAt] ?? null, hasEnded: state === "Z" || state === "X" };
}
