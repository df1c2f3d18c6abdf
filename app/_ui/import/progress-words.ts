import { numberWords } from "../../../lib/wording.ts";
import type { Progress } from "../../_jobs/progress.ts";

const megabytes = (bytes: number): string => numberWords(bytes / 1_000_000, bytes < 10_000_000 ? 1 : 0);

/** What stands already while the assessments that follow from it are made. By the kind of the job. */
const standing: Readonly<Record<string, string>> = {
  commit: "The import is in and can be undone",
  undo: "The import is undone",
  settings: "The settings are in force",
  altitude: "The altitude is kept",
  save: "The change is kept and can be undone",
};

/**
 * How far a job is, in words, and as a share of its phase; null: the share is not known. `kind`: of the job, for one
 * that has done something before it comes to its last phases.
 */
export function progressWords(
  progress: Progress | null,
  kind = "",
): { readonly says: string; readonly share: number | null } {
  if (progress === null) return { says: "Waits for its turn", share: null };
  const { phase, bytes, totalBytes, rows, units, totalUnits } = progress;
  const unitShare = totalUnits === null || totalUnits === 0 ? null : units / totalUnits;
  const ofUnits = totalUnits === null ? "" : `: ${numberWords(units)} of ${numberWords(totalUnits)} units`;
  const size = totalBytes === null ? `${megabytes(bytes)} MB` : `${megabytes(bytes)} of ${megabytes(totalBytes)} MB`;
  const byteShare = totalBytes === null || totalBytes === 0 ? null : bytes / totalBytes;
  const stands = kind in standing ? `${standing[kind]}. ` : "";
  switch (phase) {
    case "keeping":
      return { says: `Keeping the files as they are: ${size}`, share: byteShare };
    case "reading":
      return { says: `Reading: ${size}, ${numberWords(rows)} ${rows === 1 ? "row" : "rows"}`, share: byteShare };
    case "checking":
      return { says: `Checking rows against each other${ofUnits}`, share: unitShare };
    case "comparing":
      return { says: "Comparing with what is known", share: null };
    case "committing":
      return { says: "Keeping the change, whole", share: null };
    case "gathering":
      return { says: `${stands}Looking through the engines of each model${ofUnits}`, share: unitShare };
    case "fitting":
      return {
        says: `${stands}Learning from engines of the same model${ofUnits.replace("units", "engines")}`,
        share: unitShare,
      };
    case "assessing": {
      const says = kind in standing ? `${standing[kind]}; its units are being assessed` : "Assessing";
      return { says: `${says}${ofUnits}`, share: unitShare };
    }
    case "planning":
      return { says: "Looking for the cheapest plan", share: null };
    case "drawing":
      return { says: "Drawing what may come", share: unitShare };
  }
}

/** Bytes sent of all files on their way to the server. */
export const sendingWords = (file: string, sent: number, total: number): string =>
  `Sending ${file}: ${megabytes(sent)} of ${megabytes(total)} MB`;
