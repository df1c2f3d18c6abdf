import { describe, expect, it } from "vitest";
import { downtimeCost, jobSpan } from "../../../lib/plan/job-span.ts";
import { bottomEnd, closedWeek, topEnd, weeksOf } from "./problem.ts";

describe("what a repair takes of each week", () => {
  it("stands in the bay on working days and off the road on all days", () => {
    const work = { bayDays: 8, labourHours: 40, daysOff: 16 };
    expect(jobSpan(work, weeksOf(4), 0)).toEqual([
      { week: 0, bayDays: 5, hours: 25, daysOff: 7 },
      { week: 1, bayDays: 3, hours: 15, daysOff: 7 },
      { week: 2, bayDays: 0, hours: 0, daysOff: 2 },
    ]);
  });

  it("begins in no closed week, and waits through one that comes in between", () => {
    const weeks = weeksOf(4, (week) => (week === 1 ? closedWeek : {}));
    expect(jobSpan(bottomEnd, weeks, 1)).toBeNull();
    const work = { bayDays: 7, labourHours: 70, daysOff: 9 };
    expect(jobSpan(work, weeks, 0)).toEqual([
      { week: 0, bayDays: 5, hours: 50, daysOff: 7 },
      { week: 1, bayDays: 0, hours: 0, daysOff: 7 },
      { week: 2, bayDays: 2, hours: 20, daysOff: 2 },
    ]);
  });

  it("stays off the road for as long as it stands in the bay", () => {
    const weeks = weeksOf(3, () => ({ openDays: 2 }));
    const span = jobSpan({ bayDays: 4, labourHours: 8, daysOff: 4 }, weeks, 0);
    expect(span?.map(({ bayDays }) => bayDays)).toEqual([2, 2]);
    expect(span?.map(({ daysOff }) => daysOff)).toEqual([4, 2]);
  });

  it("keeps its hours where it needs no bay, and is not possible beyond the weeks that are known", () => {
    expect(jobSpan({ bayDays: 0, labourHours: 3, daysOff: 0 }, weeksOf(2), 0)).toEqual([
      { week: 0, bayDays: 0, hours: 3, daysOff: 0 },
    ]);
    expect(jobSpan({ bayDays: 0, labourHours: 3, daysOff: 1 }, weeksOf(2), 1)).toEqual([
      { week: 1, bayDays: 0, hours: 3, daysOff: 1 },
    ]);
    expect(jobSpan(bottomEnd, weeksOf(2), 1)).toBeNull();
    expect(jobSpan(topEnd, weeksOf(2), 2)).toBeNull();
  });
});

describe("what the days off cost", () => {
  const weeks = weeksOf(4, (week) => (week === 1 ? { peakShare: 1 } : {}));
  const unit = { dayCost: 100, peakFactor: 2, peakWeeks: new Set<number>(), otherWork: [] };

  it("counts them dearer in peak weeks", () => {
    const span = jobSpan({ bayDays: 5, labourHours: 10, daysOff: 10 }, weeks, 0) ?? [];
    expect(downtimeCost(unit, weeks, span)).toBe(7 * 100 + 3 * 200);
  });

  it("leaves out the days on which the unit is in the workshop anyway", () => {
    const span = jobSpan({ bayDays: 5, labourHours: 10, daysOff: 10 }, weeks, 0) ?? [];
    const otherWork = [
      { week: 0, days: 2 },
      { week: 1, days: 5 },
      { week: 3, days: 7 },
    ];
    expect(downtimeCost({ ...unit, otherWork }, weeks, span)).toBe(5 * 100);
  });
});
