import { describe, expect, it } from "vitest";
import { noteWeeks, weekRuns } from "@/app/_ui/plan-papers/note-weeks.ts";
import { closedWeek, weeksOf } from "../../lib/plan/problem.ts";

describe("the weeks of a depot's note", () => {
  it("are those with work, closed or of a peak", () => {
    const weeks = weeksOf(5, (week) => (week === 1 ? closedWeek : week === 3 ? { peakShare: 0.4 } : {}));
    const load = weeks.map(({ bayDays, hours }, week) => ({
      depot: "Lowmarsh",
      week,
      bayDays: { used: week === 2 ? 1 : 0, has: bayDays },
      hours: { used: week === 2 ? 6 : 0, has: hours },
    }));
    expect(
      noteWeeks(load, weeks, "2026-11-02").map(({ start, isClosed, isPeak }) => [start, isClosed, isPeak]),
    ).toEqual([
      ["2026-11-09", true, false],
      ["2026-11-16", false, false],
      ["2026-11-23", false, true],
    ]);
  });

  it("that follow each other are joined, over a year's end too", () => {
    expect(weekRuns(["2026-12-21", "2026-12-28", "2027-01-04", "2027-02-01"])).toEqual([
      { from: "2026-12-21", to: "2027-01-04" },
      { from: "2027-02-01", to: "2027-02-01" },
    ]);
    expect(weekRuns([])).toEqual([]);
  });
});
