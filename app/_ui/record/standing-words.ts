import type { RecordStanding } from "../../_jobs/track-record-upkeep.ts";

/** How the making of the track record stands, in words. `when`: an instant as the viewer reads it. */

interface StandingWords {
  /** The finding of a page that has no record to show. */
  readonly title: string;
  readonly says: string;
  /** Beside an older record; empty: it is up to date. */
  readonly beside: string;
  /** Whether looking again will soon show something else. */
  readonly isSoon: boolean;
}

export function standingWords(standing: RecordStanding, when: (instant: Date) => string): StandingWords {
  if (standing.state === "current") {
    return {
      title: "No forecast can be judged yet.",
      says: "A forecast takes three tests of a cylinder, and a later one shows how it turned out: four tests of one engine.",
      beside: "",
      isSoon: false,
    };
  }
  if (standing.state === "making") {
    return {
      title: "The track record is being made.",
      says: "Each past test is gone back to, and forecast with only what was known then. The page shows it when it is there.",
      beside: "Facts, settings or the forecast have changed since: the record is being made anew.",
      isSoon: true,
    };
  }
  if (standing.state === "waiting") {
    const then =
      standing.until === "pause"
        ? "in a few seconds, once nothing changes"
        : "once the work that runs now, such as an import, is done";
    return {
      title: "The track record is yet to be made.",
      says: `It is made ${then}. The page shows it when it is there.`,
      beside: `Facts, settings or the forecast have changed since: the record is made anew ${then}.`,
      isSoon: true,
    };
  }
  const again = `It is tried again from ${when(standing.again)} on, or when facts or settings change.`;
  return {
    title: "The track record could not be made.",
    says: `${standing.problem} ${again}`,
    beside: `Facts, settings or the forecast have changed since, and the record could not be made anew: this is the last one. ${standing.problem} ${again}`,
    isSoon: false,
  };
}
