import type { Formats } from "../../../lib/viewing/formats.ts";
import type { BandsPreview } from "../../_jobs/preview-bands.ts";

/** What a change would do, in one or two sentences. */
export function previewFinding(f: Formats, { units, changes }: Pick<BandsPreview, "units" | "changes">): string {
  const moved = changes.filter(({ before, after }) => before?.band !== after.band).length;
  const windows = changes.length - moved;
  const ofAll = `of ${f.number(units)}`;
  const bands =
    moved === 0
      ? "No unit would change its band"
      : `${f.number(moved)} ${ofAll} units would change ${moved === 1 ? "its band" : "their band"}`;
  if (windows === 0) return `${bands}.`;
  const others = moved === 0 ? `${f.number(windows)} ${ofAll}` : `${f.number(windows)} more`;
  return `${bands}; ${others} would keep theirs and get another window.`;
}
