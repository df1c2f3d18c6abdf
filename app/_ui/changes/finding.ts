import type { ChangeCounts } from "../../../db/changes.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { listWords } from "../../../lib/wording.ts";

/** "7 of 40 units changed since 3 Aug 2026: 3 got worse, 2 better." `since`: "3 Aug 2026", or with its reason. */
export function changesFinding(
  { told, worse, better, fleet }: ChangeCounts,
  { units, since, f }: { readonly units: number; readonly since: string; readonly f: Formats },
): string {
  if (told === 0) return `Nothing changed since ${since}.`;
  const ways = [
    worse > 0 ? `${f.number(worse)} got worse` : null,
    better > 0 ? `${f.number(better)} got better` : null,
    fleet > 0 ? `${f.number(fleet)} came or left` : null,
  ].filter((words) => words !== null);
  const what = `${f.number(told)} of ${f.number(units)} ${units === 1 ? "unit" : "units"} changed since ${since}`;
  return ways.length === 0 ? `${what}.` : `${what}: ${listWords(ways)}.`;
}
