import type { Progress } from "../../_jobs/progress.ts";
import { formatNumber } from "../formats.ts";

const megabytes = (bytes: number): string => formatNumber(bytes / 1_000_000, bytes < 10_000_000 ? 1 : 0);

/** How far a job is, in words, and as a share of its phase; null: the share is not known. */
export function progressWords(progress: Progress | null): { readonly says: string; readonly share: number | null } {
  if (progress === null) return { says: "Waits for its turn", share: null };
  const { phase, bytes, totalBytes, rows, units, totalUnits } = progress;
  const unitShare = totalUnits === null || totalUnits === 0 ? null : units / totalUnits;
  const ofUnits = totalUnits === null ? "" : `: ${formatNumber(units)} of ${formatNumber(totalUnits)} units`;
  switch (phase) {
    case "reading": {
      const size =
        totalBytes === null ? `${megabytes(bytes)} MB` : `${megabytes(bytes)} of ${megabytes(totalBytes)} MB`;
      const share = totalBytes === null || totalBytes === 0 ? null : bytes / totalBytes;
      return { says: `Reading: ${size}, ${formatNumber(rows)} ${rows === 1 ? "row" : "rows"}`, share };
    }
    case "checking":
      return { says: `Checking rows against each other${ofUnits}`, share: unitShare };
    case "comparing":
      return { says: "Comparing with what is known", share: null };
    case "committing":
      return { says: "Keeping the change, whole", share: null };
    case "fitting":
      return { says: `Learning from engines of the same model${ofUnits}`, share: unitShare };
    case "assessing":
      return { says: `Assessing${ofUnits}`, share: unitShare };
  }
}

/** Bytes sent of all files on their way to the server. */
export const sendingWords = (file: string, sent: number, total: number): string =>
  `Sending ${file}: ${megabytes(sent)} of ${megabytes(total)} MB`;
