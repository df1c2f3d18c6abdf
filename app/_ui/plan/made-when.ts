import type { UpkeepStanding } from "../../_jobs/upkeep.ts";

/**
 * When what is due is made, and what it waits for, in a sentence. `made`: "made", or "made anew" where there is one before; `when`: an
 * instant as the viewer reads it.
 */
export function madeWhenWords(
  standing: UpkeepStanding,
  { made, when }: { readonly made: "made" | "made anew"; readonly when: (instant: Date) => string },
): string {
  if (standing.state === "failed")
    return `${standing.problem} It is tried again from ${when(standing.again)} on, or when facts or settings change.`;
  if (standing.state === "waiting" && standing.until === "job-ended")
    return `It is ${made} once the work that runs now, such as an import, is done.`;
  if (standing.state === "waiting" && standing.until === "reports")
    return `It is ${made} once every unit is assessed for today’s facts and day, within the hour.`;
  return `It is ${made} in a few seconds.`;
}
