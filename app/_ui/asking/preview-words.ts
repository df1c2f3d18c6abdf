import type { WindowDates } from "../../../lib/schema/report.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import type { BandsPreview, ChangedUnit } from "../../_jobs/preview-bands.ts";

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

const when = (f: Formats, { status, p10, p50, p90 }: WindowDates): string => {
  if (status === "crossed") return "now";
  if (p50 !== null) return f.forecast(p50, p10, p90);
  if (p10 !== null) return `from ${f.month(p10)}, likely beyond the horizon`;
  return status === "too-few-tests" ? "too few tests" : "not foreseen";
};

/** When a unit's repairs would be likely instead: "top-end Jun 2028 → Mar 2027"; empty where neither would be told otherwise. */
export function windowMoves(f: Formats, { before, after }: ChangedUnit): readonly string[] {
  const parts = [
    ["top-end", before?.topEnd, after.topEnd],
    ["bottom-end", before?.bottomEnd, after.bottomEnd],
  ] as const;
  return parts.flatMap(([part, was, is]) => {
    const [old, next] = [was === undefined ? "not told" : when(f, was), when(f, is)];
    return old === next ? [] : [`${part} ${old} → ${next}`];
  });
}
