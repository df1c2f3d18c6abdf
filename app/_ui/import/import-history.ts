import type { ImportDetail } from "../../../db/imports.ts";
import { dateIn } from "../../_jobs/as-of.ts";
import { formatDate } from "../formats.ts";

/** Who did what with an import, and when; oldest first. */
export function importHistory(
  detail: Pick<ImportDetail, "at" | "by" | "committedAt" | "committedBy" | "undoneAt" | "undoneBy">,
  timeZone: string,
): string[] {
  const acts = [
    ["Read", detail.at, detail.by],
    ["Committed", detail.committedAt, detail.committedBy],
    ["Undone", detail.undoneAt, detail.undoneBy],
  ] as const;
  return acts.flatMap(([act, at, by]) =>
    at === null || by === null ? [] : [`${act} on ${formatDate(dateIn(timeZone, new Date(at)))} by ${by}.`],
  );
}
