import type { ImportDetail } from "../../../db/imports.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { dateIn } from "../../_jobs/as-of.ts";

/** Who did what with an import, and when; oldest first. */
export function importHistory(
  detail: Pick<ImportDetail, "origin" | "at" | "by" | "committedAt" | "committedBy" | "undoneAt" | "undoneBy">,
  timeZone: string,
  f: Pick<Formats, "date">,
): string[] {
  const acts = [
    [detail.origin !== "file" ? "Entered" : "Read", detail.at, detail.by],
    ["Committed", detail.committedAt, detail.committedBy],
    ["Undone", detail.undoneAt, detail.undoneBy],
  ] as const;
  return acts.flatMap(([act, at, by]) =>
    at === null || by === null ? [] : [`${act} on ${f.date(dateIn(timeZone, new Date(at)))} by ${by}.`],
  );
}
