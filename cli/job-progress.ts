import type { JobControl, Progress } from "../app/_jobs/progress.ts";
import { bar, type ProgressLine } from "./terminal.ts";

/** What a job is busy with, for the line that is written over. */
function progressWords({ phase, bytes, totalBytes, units, totalUnits }: Progress): string {
  const ofUnits = totalUnits === null || totalUnits === 0 ? "" : `  ${bar(units / totalUnits)}`;
  const ofBytes = totalBytes === null || totalBytes === 0 ? "" : `  ${bar(bytes / totalBytes)}`;
  switch (phase) {
    case "keeping":
      return `Keeping the files${ofBytes}`;
    case "reading":
      return `Reading${ofBytes}`;
    case "checking":
      return `Checking${ofUnits}`;
    case "comparing":
      return "Comparing with what is known …";
    case "committing":
      return "Committing …";
    case "gathering":
      return `Looking through sister engines${ofUnits}`;
    case "fitting":
      return `Learning from sister engines${ofUnits}`;
    case "assessing":
      return `Assessing${ofUnits}`;
    case "planning":
      return "Looking for the cheapest plan …";
    case "drawing":
      return `Drawing${ofUnits}`;
  }
}

export const controlFor = (progress: ProgressLine, signal: AbortSignal): JobControl => ({
  signal,
  onProgress: (p) => progress.show(progressWords(p)),
});
