import { once } from "node:events";
import { printable } from "./printable.ts";

/** Writes to standard output, waiting while the reader is slower. */
export async function print(text: string): Promise<void> {
  if (!process.stdout.write(text)) await once(process.stdout, "drain");
}

/** Writes a line to standard error. */
export const tell = (line: string): void => {
  process.stderr.write(`${printable(line)}\n`);
};

export interface ProgressLine {
  /** Shows the words in place of those before. */
  readonly show: (words: string) => void;
  /** Takes the line away, so that other lines can be written. */
  readonly clear: () => void;
}

const shownEveryMs = 100;

/** One line on standard error that is written over again and again; nothing where that is no terminal. */
export function progressLine(): ProgressLine {
  if (!process.stderr.isTTY) return { show: () => undefined, clear: () => undefined };
  let shown = "";
  let last = Number.NEGATIVE_INFINITY;
  const write = (words: string) => {
    process.stderr.write(`\r${words.padEnd(shown.length)}`);
    shown = words;
  };
  return {
    show: (words) => {
      const now = performance.now();
      if (words === shown || now - last < shownEveryMs) return;
      last = now;
      write(words);
    },
    clear: () => {
      if (shown === "") return;
      write("");
      process.stderr.write("\r");
      shown = "";
    },
  };
}

/** A bar for the part done: "#####-----  50 %". */
export function bar(part: number): string {
  const width = 24;
  const filled = Math.round(Math.min(1, Math.max(0, part)) * width);
  return `${"#".repeat(filled)}${"-".repeat(width - filled)} ${String(Math.floor(100 * part)).padStart(3)} %`;
}
