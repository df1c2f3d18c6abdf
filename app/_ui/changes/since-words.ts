import type { Settings } from "../../../lib/schema/settings.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { whenWords } from "../when.ts";
import type { Since } from "./since.ts";

interface Telling {
  readonly settings: Pick<Settings, "timeZone">;
  readonly f: Formats;
}

/** "your last visit on 3 Aug 2026"; "3 Aug 2026" */
export const sinceWords = ({ by, fromBeginning, date }: Since, f: Formats): string =>
  by === "last-visit" && !fromBeginning ? `your last visit on ${f.date(date)}` : f.date(date);

/** Why it is looked back so far, and how several reasons are meant; `rows`: there are some to give reasons for. */
export function sinceNote(since: Since, { rows, settings, f }: Telling & { readonly rows: boolean }): string {
  const why = since.fromBeginning
    ? `The first forecasts were issued on ${whenWords(f, settings.timeZone, since.at)}; those in force are compared with them.`
    : since.by === "usual"
      ? "No earlier visit of yours is known here, so the last 30 days are shown."
      : since.by === "last-visit"
        ? `Your last visit ended on ${whenWords(f, settings.timeZone, since.at)}.`
        : "";
  const together = "Where several reasons are named they came together: how much each of them moved is not known.";
  return [why, rows ? together : ""].filter((words) => words !== "").join(" ");
}
