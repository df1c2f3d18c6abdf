import { describe, expect, it } from "vitest";
import { standingWords } from "@/app/_ui/record/standing-words.ts";

const when = (instant: Date) => instant.toISOString().slice(11, 16);

describe("how the making of the track record stands", () => {
  it("is told apart: waiting for a pause or for other work, being made, could not be made", () => {
    const pause = standingWords({ state: "waiting", until: "pause" }, when);
    const job = standingWords({ state: "waiting", until: "job-ended" }, when);
    const making = standingWords({ state: "making" }, when);
    const again = new Date("2026-06-30T08:05:00.000Z");
    const failed = standingWords({ state: "failed", problem: "The disk is full.", again }, when);
    expect(pause.says).toContain("in a few seconds");
    expect(job.says).toContain("such as an import");
    expect(making.title).toBe("The track record is being made.");
    expect(failed.title).toBe("The track record could not be made.");
    for (const words of [failed.says, failed.beside]) {
      expect(words).toContain("The disk is full.");
      expect(words).toContain("again from 08:05 on");
    }
    // A page that will look the same in two seconds does not ask again.
    expect([pause, job, making, failed].map(({ isSoon }) => isSoon)).toEqual([true, true, true, false]);
  });

  it("of a record that is up to date says nothing beside it", () => {
    expect(standingWords({ state: "current" }, when)).toMatchObject({ beside: "", isSoon: false });
  });
});
