import type { DepotOverview } from "../../../db/depot-overview.ts";
import type { IsoDate } from "../../../lib/schema/facts.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { countWord, listWords, sentenceWords } from "../../../lib/wording.ts";
import { calendarNow } from "./depot-words.ts";

/** The finding of the list of depots: what is not known of them, else what their calendars say next. */
export function depotsFinding(f: Formats, depots: readonly DepotOverview[], asOf: IsoDate): string {
  if (depots.length === 0) return "Every depot is retired.";
  const all = depots.length === 1 ? "One depot" : `${sentenceWords(countWord(depots.length))} depots`;
  const unknown = depots.filter(({ altitudeM }) => altitudeM === null).map(({ depot }) => depot);
  const named = unknown.length > 3 ? [...unknown.slice(0, 2), `${countWord(unknown.length - 2)} more`] : unknown;
  const altitude =
    unknown.length === 0
      ? ""
      : ` The altitude of ${listWords(named)} is not known, so compression tested there is read as at sea level, with a wider error.`;
  const calendars = depots.map(
    ({ depot, change }) => [depot, calendarNow(f, change?.setup.periods ?? [], asOf)] as const,
  );
  const now = calendars.flatMap(([depot, { words, from }]) => (from === asOf ? [`${depot} is ${words}`] : []));
  const [next] = calendars.filter(([, { from }]) => from !== null).toSorted(([, a], [, b]) => compare(a.from, b.from));
  const calendar =
    now.length > 0
      ? listWords(now)
      : next === undefined
        ? "none has peak or closed weeks ahead"
        : `none is closed or at its peak now. Next: ${next[0]}, ${next[1].words}`;
  return `${all}; ${calendar}.${altitude}`;
}

const compare = (a: IsoDate | null, b: IsoDate | null): number => ((a ?? "") < (b ?? "") ? -1 : 1);
