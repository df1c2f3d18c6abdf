import { cookies } from "next/headers";
import { readVisits, visitsAfter } from "../../../lib/changes/visits.ts";
import { visitsCookie } from "./visits-cookie.ts";

/**
 * When this viewer last looked at a page before this visit began; null: this is the first visit that is known of.
 * `now`: the time of the request. Whether or not proxy.ts has noted the request already, the answer is the same.
 */
export async function lastVisit(now: Date): Promise<Date | null> {
  const kept = readVisits((await cookies()).get(visitsCookie)?.value, now.getTime());
  const { before } = visitsAfter(kept, now.getTime());
  return before === null ? null : new Date(before);
}
