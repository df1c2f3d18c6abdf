import { readVisits, visitsAfter, visitsText } from "../../../lib/changes/visits.ts";

/** The cookie that keeps when this viewer's last two visits were. */
export const visitsCookie = "borecast-visits";

const yearSeconds = 365 * 24 * 3600;

/** The cookie after a page was asked for at `now` (ms since 1970), given what it was. */
export const notedVisit = (kept: string | undefined, now: number) =>
  ({
    name: visitsCookie,
    value: visitsText(visitsAfter(readVisits(kept, now), now)),
    maxAge: yearSeconds,
    httpOnly: true,
    sameSite: "lax",
    path: "/",
  }) as const;
