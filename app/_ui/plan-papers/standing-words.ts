import type { UpkeepStanding } from "../../_jobs/upkeep.ts";

interface StandingWords {
  readonly says: string;
  /** Whether looking again will soon show something else. */
  readonly isSoon: boolean;
}

/** How the making of a fleet's first plan stands, in words. `when`: an instant as the viewer reads it. */
export function standingWords(standing: UpkeepStanding, when: (instant: Date) => string): StandingWords {
  switch (standing.state) {
    case "current":
      return { says: "A plan is made once units are on the books.", isSoon: false };
    case "making":
      return { says: "It is being made now. The page shows it when it is there.", isSoon: true };
    case "waiting":
      return {
        says:
          standing.until === "pause"
            ? "It is made in a few seconds, once nothing changes. The page shows it when it is there."
            : standing.until === "reports"
              ? "It is made once every unit is assessed for today, within the hour. The page shows it when it is there."
              : "It is made once the work that runs now, such as an import, is done. The page shows it when it is there.",
        isSoon: true,
      };
    case "failed":
      return {
        says: `It could not be made. ${standing.problem} It is tried again from ${when(standing.again)} on, or when facts or settings change.`,
        isSoon: false,
      };
  }
}
