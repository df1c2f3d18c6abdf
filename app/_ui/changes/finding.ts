import type { ChangeCounts } from "../../../db/changes.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { listWords } from "../../../lib/wording.ts";

/**
 * "7 of 40 units changed since 3 Aug 2026: 3 got worse, 2 better." `since`: "3 Aug 2026", or with its reason; `depot`: the
 * one that alone is looked at, null where all are.
 */
export function changesFinding(
  { told: changed, worse, better, fleet }: ChangeCounts,
  told: { readonly units: number; readonly depot: string | null; readonly since: string; readonly f: Formats },
): string {
  const { units, depot, since, f } = told;
  const at = depot === null ? "" : ` at ${depot}`;
  if (changed === 0) return `Nothing changed${at} since ${since}.`;
  const ways = [
    worse > 0 ? `${f.number(worse)} got worse` : null,
    better > 0 ? `${f.number(better)} got better` : null,
    fleet > 0 ? `${f.number(fleet)} came or left` : null,
  ].filter((words) => words !== null);
  const what = `${f.number(changed)} of ${f.number(units)} ${units === 1 ? "unit" : "units"}${at} changed since ${since}`;
  return ways.length === 0 ? `${what}.` : `${what}: ${listWords(ways)}.`;
}
