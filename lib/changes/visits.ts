/** A visit ends when no page was asked for during this time. */
const visitEndsAfterMs = 30 * 60_000;

/** What is kept of a viewer's visits, as instants in milliseconds since 1970. */
export interface Visits {
  /** The last page of the visit before this one; null: this is the first. */
  readonly before: number | null;
  /** The last page of this one. */
  readonly latest: number;
}

/**
 * The visits after a page was asked for at `now`. "Since your last visit" is since `before`: what the viewer saw last
 * before this visit began.
 */
export function visitsAfter(kept: Visits | null, now: number): Visits {
  if (kept === null) return { before: null, latest: now };
  const goesOn = now - kept.latest <= visitEndsAfterMs;
  return { before: goesOn ? kept.before : kept.latest, latest: now };
}

/** As a cookie keeps it: "1785744000000.1785747600000"; a first visit begins with the dot. */
export const visitsText = ({ before, latest }: Visits): string => `${before ?? ""}.${latest}`;

const pattern = /^(\d{1,15})?\.(\d{1,15})$/;

/** Reads what `visitsText` wrote; null for anything else, and for a time that is yet to come. */
export function readVisits(text: string | undefined, now: number): Visits | null {
  const match = pattern.exec(text ?? "");
  if (match === null) return null;
  const latest = Number(match[2]);
  const before = match[1] === undefined ? null : Number(match[1]);
  return latest > now || (before !== null && before > latest) ? null : { before, latest };
}
