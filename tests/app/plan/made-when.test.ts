import { describe, expect, it } from "vitest";
import { madeWhenWords } from "@/app/_ui/plan/made-when.ts";

const told = { made: "made anew", when: () => "10:00" } as const;

describe("when a plan is made anew", () => {
  it("names what it waits for, and promises seconds only where nothing stands before it", () => {
    const waiting = (until: "pause" | "job-ended" | "reports") => madeWhenWords({ state: "waiting", until }, told);
    expect(waiting("pause")).toBe("It is made anew in a few seconds.");
    expect(madeWhenWords({ state: "making" }, told)).toBe("It is made anew in a few seconds.");
    expect(waiting("reports")).toContain("once every unit is assessed");
    expect(waiting("job-ended")).toContain("once the work that runs now");
    for (const until of ["reports", "job-ended"] as const) expect(waiting(until)).not.toContain("seconds");
  });

  it("tells what failed, and when it is tried again", () => {
    const failed = { state: "failed", problem: "The disk is full.", again: new Date(0) } as const;
    expect(madeWhenWords(failed, told)).toBe(
      "The disk is full. It is tried again from 10:00 on, or when facts or settings change.",
    );
  });
});
