import { describe, expect, it } from "vitest";
import { canWait } from "../../../lib/plan/can-wait.ts";
import { lateCosts } from "../../../lib/plan/week-costs.ts";
import { bottomEnd, closedWeek, need, planUnit, problemOf, topEnd, weeksOf } from "./problem.ts";

const unit = planUnit("V-1", { needs: [need("topEnd", 20, 5)], works: [{ ...topEnd, leadDays: 0 }] });
const weeks = canWait(problemOf([unit]), "V-1");

describe("whether a unit can wait", () => {
  it("is told for every week, the cheapest of them at no extra cost", () => {
    expect(weeks.map(({ week }) => week)).toEqual(Array.from({ length: 52 }, (_, week) => week));
    expect(Math.min(...weeks.map(({ extra }) => extra))).toBe(0);
    const best = weeks.find(({ extra }) => extra === 0)?.week as number;
    expect(best).toBeGreaterThan(5);
    expect(best).toBeLessThan(25);
    // Too early and too late both cost more, and more the further off.
    for (const [a, b] of [
      [best - 5, best - 1],
      [best + 20, best + 5],
    ] as const)
      expect(weeks[a]?.extra).toBeGreaterThan(weeks[b]?.extra as number);
  });

  it("grows in risk: past the limit by then, failed by then, the second behind the first", () => {
    for (const [i, { pastLimit, failed }] of weeks.entries()) {
      expect(failed).toBeLessThanOrEqual(pastLimit);
      if (i > 0) expect(pastLimit).toBeGreaterThanOrEqual(weeks[i - 1]?.pastLimit as number);
    }
    expect(weeks[20]?.pastLimit).toBeCloseTo(0.5, 6);
    // What a failure costs, weighed by its chance, is what being late costs where running on costs nothing else.
    const [{ crossed }] = unit.needs as readonly [(typeof unit.needs)[number]];
    const late = lateCosts(crossed, { perWeek: 0, failurePerWeek: 0.05 }, 1_000);
    expect(weeks[40]?.failed).toBeCloseTo((late[40] as number) / 1_000, 12);
  });

  it("leaves out weeks in which the workshop is closed, and those after the unit is sold", () => {
    const closed = problemOf([{ ...unit, disposalWeek: 30 }], {
      depots: [{ depot: "Lowmarsh", weeks: weeksOf(64, (week) => (week < 3 ? closedWeek : {})) }],
    });
    expect(canWait(closed, "V-1").map(({ week }) => week)).toEqual(Array.from({ length: 27 }, (_, i) => i + 3));
  });

  it("tells why a week is dear: off the road while the workshop is closed, or in a peak", () => {
    const long = { ...topEnd, leadDays: 0, bayDays: 6, daysOff: 8 };
    const at = (more: object) =>
      problemOf([planUnit("V-4", { needs: [need("topEnd", 20, 5)], works: [long], ...more })], {
        depots: [
          {
            depot: "Lowmarsh",
            weeks: weeksOf(64, (week) => (week === 10 ? closedWeek : week === 20 ? { peakShare: 0.5 } : {})),
          },
        ],
      });
    const told = (more: object = {}) =>
      canWait(at(more), "V-4").flatMap(({ week, dearBy }) => (dearBy.length === 0 ? [] : [[week, ...dearBy]]));
    expect(told()).toEqual([
      [9, "closed"],
      [19, "peak"],
      [20, "peak"],
    ]);
    expect(told({ peakWeeks: new Set([30]), peakFactor: 2 }).slice(3)).toEqual([
      [29, "peak"],
      [30, "peak"],
    ]);
    expect(told({ peakFactor: 1 })).toEqual([[9, "closed"]]);
  });

  it("begins once parts can be there", () => {
    const later = planUnit("V-3", { needs: [need("topEnd", 20, 5)], works: [{ ...topEnd, leadDays: 11 }] });
    expect(canWait(problemOf([later]), "V-3")[0]?.week).toBe(3);
  });

  it("is told of each repair by itself, and of no unit that the plan does not have", () => {
    const scopes = canWait(problemOf([planUnit("V-2", { works: [topEnd, bottomEnd] })]), "V-2").map(
      ({ scope }) => scope,
    );
    expect(new Set(scopes)).toEqual(new Set(["top-end", "bottom-end"]));
    expect(canWait(problemOf([unit]), "V-9")).toEqual([]);
  });
});
