import type { IsoDate } from "../../../lib/schema/facts.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { reaches } from "../round/address.ts";

/** How far ahead units may be asked for, in weeks, as the test round has it; 0: due now. */
export const weeksAhead = reaches.map((days) => days / 7);

/** How many units of a depot are to be tested, as a sentence. */
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
  const when = weeks === 0 ? "now" : `by ${f.date(by)}`;
  if (total === 0) return `At ${depot} no unit is to be tested ${when}.`;
  const units = total === 1 ? "1 unit is" : `${f.number(total)} units are`;
  const first = shown < total ? ` The sheets of the first ${f.number(shown)} stand here.` : "";
  return `At ${depot} ${units} to be tested ${when}.${first}`;
}
