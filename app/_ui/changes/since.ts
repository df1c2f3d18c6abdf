import { historyBegins } from "../../../db/changes.ts";
import type { Store } from "../../../db/store.ts";
import { addDays } from "../../../lib/calendar.ts";
import type { IsoDate } from "../../../lib/schema/facts.ts";
import type { Settings } from "../../../lib/schema/settings.ts";
import { dateIn, startOfDate } from "../../_jobs/as-of.ts";
import { lastVisit } from "./last-visit.ts";

/** How far back one looks who was never here, or asks for nothing. */
const usualDays = 30;

export interface Since {
  /** The instant that is looked back to. */
  readonly at: string;
  /** Its date where the fleet is. */
  readonly date: IsoDate;
  readonly by: "last-visit" | "date" | "usual";
  /** The history begins later than what was asked for: it is looked back to its first assessments. null: there are none. */
  readonly fromBeginning: boolean;
}

/**
 * What "since" comes to: the last visit; else a date, from its first moment on; else some weeks ago, which also stands in
 * for a visit that there was not. Never after today, and never before the first assessment that was issued: there is nothing to compare with.
 */
export async function sinceOf(
  store: Store,
  asked: IsoDate | "last-visit",
  { settings, now }: { readonly settings: Pick<Settings, "timeZone">; readonly now: Date },
): Promise<Since> {
  const visit = asked === "last-visit" ? await lastVisit(now) : null;
  const today = dateIn(settings.timeZone, now);
  const wanted =
    asked !== "last-visit"
      ? startOfDate(settings.timeZone, asked > today ? today : asked)
      : (visit ?? startOfDate(settings.timeZone, addDays(today, -usualDays)));
  const begins = await historyBegins(store);
  const fromBeginning = begins !== null && begins > wanted.toISOString();
  const at = fromBeginning ? begins : wanted.toISOString();
  const by = asked !== "last-visit" ? "date" : visit === null ? "usual" : "last-visit";
  return { at, date: dateIn(settings.timeZone, new Date(at)), by, fromBeginning };
}
