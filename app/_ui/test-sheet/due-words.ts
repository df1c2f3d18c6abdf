import type { IsoDate } from "../../../lib/schema/facts.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";

/** How far ahead units may be asked for, in weeks; 0: due now. */
export const weeksAhead = [0, 4, 8] as const;

/** How many units of a depot are due, as a sentence. */
export function dueFinding(
  f: Formats,
  told: {
    readonly depot: string;
    readonly total: number;
    readonly shown: number;
    readonly by: IsoDate;
    readonly weeks: number;
  },
): string {
  const { depot, total, shown, by, weeks } = told;
  const when = weeks === 0 ? "is due" : `falls due by ${f.date(by)}`;
  if (total === 0) return `No test at ${depot} ${when}.`;
  const units = total === 1 ? "the test of 1 unit" : `the test of ${f.number(total)} units`;
  const first = shown < total ? ` The first ${f.number(shown)} stand here.` : "";
  return `At ${depot} ${units} ${when}.${first}`;
}
