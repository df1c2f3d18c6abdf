import fc from "fast-check";
import loadHighs from "highs";
import { describe, expect, it } from "vitest";
import { canWait, costOfLeaving } from "../../../lib/plan/can-wait.ts";
import { cheapestFirstPlan, firstComePlan } from "../../../lib/plan/first-come.ts";
import { type FleetProgramme, fleetProgramme } from "../../../lib/plan/fleet-programme.ts";
import { makePlan, type Plan } from "../../../lib/plan/make-plan.ts";
import { Choice, costOf, isWithin } from "../../../lib/plan/programme.ts";
import type { PlanProblem, PlanUnit } from "../../../lib/plan/types.ts";
import { totalOf } from "../../../lib/plan/types.ts";
import { likelyWaiting, soldBefore } from "../../../lib/plan/waiting.ts";
import type { Work } from "../../../lib/schema/kept-plan.ts";
import { both, bottomEnd, closedWeek, need, never, planUnit, problemOf, topEnd, weeksOf } from "./problem.ts";

const highs = await loadHighs();
const exactly = { gap: 0, seconds: 60, clock: () => performance.now() / 1000, onProgress: () => true };
const planOf = (problem: PlanProblem) => makePlan(highs, problem, exactly);
const booked = ({ bookings }: Plan) => bookings.map(({ unit, scope, week }) => `${unit} ${scope} ${week}`);

/** All choices that cover every need within the capacities, one after the other: the least of their costs. */
function leastOfAll({ programme, options }: FleetProgramme): number {
  const byNeed = Array.from({ length: programme.needs }, (_, n) =>
    programme.options.flatMap(({ covers }, option) => (covers.includes(n) ? [option] : [])),
  );
  let least = Number.POSITIVE_INFINITY;
  const search = (taken: readonly number[], cost: number) => {
    if (cost >= least) return;
    const choice = new Choice(programme);
    for (const option of taken) choice.take(option);
    const open = byNeed.findIndex((_, n) => !choice.isCovered(n));
    if (open < 0) {
      least = cost;
      return;
    }
    for (const option of byNeed[open] as number[]) {
      if (choice.fits(option))
        search([...taken, option], cost + totalOf((options[option] as (typeof options)[number]).cost));
    }
  };
  search([], 0);
  return least;
}

describe("the plan", () => {
  it("is the cheapest of all schedules, on small fleets", () => {
    const unit = fc.record({
      top: fc.integer({ min: -5, max: 30 }),
      bottom: fc.integer({ min: -5, max: 60 }),
      dayCost: fc.integer({ min: 0, max: 30_000 }),
      failurePerWeek: fc.double({ min: 0, max: 0.3, noNaN: true }),
    });
    fc.assert(
      fc.property(fc.array(unit, { minLength: 1, maxLength: 3 }), fc.integer({ min: 2, max: 6 }), (units, bayDays) => {
        const problem = problemOf(
          units.map(({ top, bottom, dayCost, failurePerWeek }, i) =>
            planUnit(`U-${i}`, {
              needs: [need("topEnd", top), need("bottomEnd", bottom)],
              dayCost,
              runningOn: { perWeek: 3_000, failurePerWeek, damage: 20_000 },
            }),
          ),
          {
            weeks: 5,
            depots: [{ depot: "Lowmarsh", weeks: weeksOf(8, (week) => (week === 3 ? closedWeek : { bayDays })) }],
          },
        );
        const plan = planOf(problem);
        expect(plan.cost).toBeCloseTo(leastOfAll(fleetProgramme(problem)), 3);
        expect(plan.bound).toBeLessThanOrEqual(plan.cost + 1e-6);
        expect(plan.cost).toBeLessThanOrEqual(plan.firstComeCost + 1e-6);
      }),
      { numRuns: 25, seed: 5 },
    );
  });

  it("lets two units that are due in the same weeks follow each other where there is one bay", () => {
    const units = ["H-1", "H-4"].map((name) => planUnit(name, { needs: [never("topEnd"), need("bottomEnd", 20, 4)] }));
    const weeks = planOf(problemOf(units)).bookings.map(({ week }) => week);
    expect(weeks).toHaveLength(2);
    expect(Math.abs((weeks[0] as number) - (weeks[1] as number))).toBeGreaterThanOrEqual(1);
  });

  it("goes before weeks in which the workshop is closed, and out of the peak", () => {
    const unit = planUnit("H-1", { needs: [never("topEnd"), need("bottomEnd", 20, 4)], peakFactor: 5 });
    const free = planOf(problemOf([unit])).bookings[0]?.week as number;
    const around = (at: (week: number) => object) =>
      planOf(problemOf([unit], { depots: [{ depot: "Lowmarsh", weeks: weeksOf(64, at) }] })).bookings[0]?.week;
    const closed = around((week) => (Math.abs(week - free) <= 3 ? closedWeek : {})) as number;
    expect(Math.abs(closed - free)).toBeGreaterThan(3);
    const peak = around((week) => (Math.abs(week - free) <= 1 ? { peakShare: 1 } : {})) as number;
    expect(Math.abs(peak - free)).toBeGreaterThan(1);
  });

  it("opens an engine once where both classes fall due near each other, and twice where they lie far apart", () => {
    const near = planUnit("V-1", { needs: [need("topEnd", 15, 4), need("bottomEnd", 20, 4)] });
    const far = planUnit("V-2", { needs: [need("topEnd", 4, 2), need("bottomEnd", 48, 2)] });
    const roomy = {
      depots: [{ depot: "Lowmarsh", weeks: weeksOf(64, () => ({ bayDays: 50, hours: 500, builderHours: 500 })) }],
    };
    expect(planOf(problemOf([near], roomy)).bookings.map(({ scope }) => scope)).toEqual(["both"]);
    const cheapTop: Work = { ...topEnd, labour: 8_000, parts: 9_000, daysOff: 2 };
    const apart = planOf(problemOf([{ ...far, works: [cheapTop, bottomEnd, both] }], roomy));
    expect(apart.bookings.map(({ scope }) => scope)).toEqual(["top-end", "bottom-end"]);
  });

  it("has a unit in for one work at a time: works that would meet are made together or kept apart", () => {
    // Both ends are due in one week, and each alone costs nothing but the work; together it would cost twice as much.
    const dear: Work = { ...both, labour: 2 * both.labour, parts: 2 * both.parts };
    const needs = [need("topEnd", 20, 1), need("bottomEnd", 20, 1)];
    const apart = planUnit("V-1", { needs, works: [topEnd, bottomEnd, dear] });
    const roomy = { depots: [{ depot: "Lowmarsh", weeks: weeksOf(64, () => ({ bayDays: 50, hours: 500 })) }] };
    const weeksIn = (plan: Plan) =>
      plan.bookings.map(({ span }) => span.flatMap(({ week, daysOff }) => (daysOff > 0 ? [week] : [])));
    const plan = planOf(problemOf([apart], roomy));
    expect(plan.bookings.map(({ scope }) => scope).toSorted()).toEqual(["bottom-end", "top-end"]);
    const [first, second] = weeksIn(plan);
    expect(first?.filter((week) => second?.includes(week))).toEqual([]);
    // Around a pin as well; two pins at once are kept, and told.
    const pins = [{ unit: "V-1", scope: "top-end", week: 20 }] as const;
    const [pinned, beside] = weeksIn(planOf(problemOf([apart], { ...roomy, pins }))).toSorted(
      (a, b) => a.length - b.length,
    );
    expect(pinned).toEqual([20]);
    expect(beside).not.toContain(20);
    const twice = [...pins, { unit: "V-1", scope: "bottom-end", week: 20 }] as const;
    expect(planOf(problemOf([apart], { ...roomy, pins: twice })).overloads).toEqual([
      { resource: { kind: "unit", unit: "V-1", week: 20 }, capacity: 1, used: 2 },
    ]);
  });

  it("hurries nothing because prices grow", () => {
    const unit = planUnit("V-1", { needs: [need("topEnd", 86, 10), need("bottomEnd", 10_000, 1)] });
    const near = planUnit("V-2", { needs: [need("topEnd", 20, 4), never("bottomEnd")] });
    const plan = (growth: number) =>
      booked(planOf(problemOf([unit, near], { prices: { priceDate: "2026-09-07", labour: growth, parts: growth } })));
    expect(plan(0).map((words) => words.split(" ").slice(0, 2))).toEqual([["V-2", "top-end"]]);
    expect(plan(0.5)).toEqual(plan(0));
  });

  it("begins nothing before its parts can be there", () => {
    const late: Work = { ...bottomEnd, leadDays: 26 };
    const unit = planUnit("B-1", { needs: [need("bottomEnd", -20, 4)], works: [late] });
    expect(booked(planOf(problemOf([unit])))).toEqual(["B-1 bottom-end 6"]);
  });

  it("books nothing that is not foreseen, nor what is sold before it pays", () => {
    const sound = planUnit("S-1");
    const sold = planUnit("S-2", { needs: [never("topEnd"), need("bottomEnd", 30, 4)], disposalWeek: 33 });
    const plan = planOf(problemOf([sound, sold]));
    expect(plan.bookings).toEqual([]);
    expect(plan.notFitted).toEqual([]);
  });

  it("counts the chance of what waits until its unit is sold alone, and tells what is sold before", () => {
    const sold = planUnit("S-2", { needs: [never("topEnd"), need("bottomEnd", 48, 6)], disposalWeek: 30 });
    const [of] = planOf(problemOf([sold])).waiting.filter((one) => one.of === "bottomEnd");
    expect(of?.chance).toBeLessThan(0.01);
    expect(of?.sold?.ifKept).toBeGreaterThan(0.6);
    expect(of?.sold?.start).toBe("2027-04-05");
    expect(soldBefore(of === undefined ? [] : [of])).toHaveLength(1);
    expect(likelyWaiting(of === undefined ? [] : [of], [])).toEqual([]);
  });

  it("times the repair of a unit that is sold later as of any other, and leaves what later plans may do", () => {
    const sold = (mean: number, disposalWeek: number) =>
      planUnit("S", { needs: [need("topEnd", mean, 2)], works: [topEnd], disposalWeek });
    const weeksBooked = (unit: PlanUnit) => planOf(problemOf([unit])).bookings.map(({ week }) => week);
    expect(weeksBooked(sold(120, 150))).toEqual([]);
    expect(weeksBooked(sold(80, 150))).toEqual([]);
    const [kept] = weeksBooked({ ...sold(30, 150), disposalWeek: null });
    for (const disposalWeek of [50, 150]) {
      const [week] = weeksBooked(sold(30, disposalWeek));
      expect(Math.abs((week ?? Number.NaN) - (kept ?? Number.NaN))).toBeLessThanOrEqual(1);
    }
  });

  it("leaves both ends of a unit that is sold to be repaired together, as far as they are repaired before the sale at all", () => {
    const needs = [need("topEnd", 80, 2), need("bottomEnd", 84, 2)];
    const saved = (disposalWeek: number) => {
      const problem = problemOf([planUnit("S", { needs, disposalWeek, dayCost: 10_000 })]);
      const { topEnd: top, bottomEnd: bottom } = costOfLeaving(problem, "S");
      if (top === null || bottom === null) throw new Error("it may need both");
      return totalOf(top) + totalOf(bottom) - planOf(problem).nothingBookedCost;
    };
    const priced = (scope: string) => {
      const at = canWait(problemOf([planUnit("S", { needs, dayCost: 10_000 })]), "S").find(
        (one) => one.scope === scope,
      );
      if (at === undefined) throw new Error("it has no such work");
      return at.cost.work + 10_000 * at.work.daysOff;
    };
    const together = priced("top-end") + priced("bottom-end") - priced("both");
    expect(together).toBeGreaterThan(0);
    // Years before the sale both are put right; just before it neither is.
    expect(saved(150)).toBeCloseTo(together, 0);
    expect(saved(86)).toBeLessThan(0.01 * together);
    expect(saved(40)).toBeCloseTo(0, 6);
  });

  it("says what found no room, when it would be best, and what that costs", () => {
    const units = ["A", "B", "C"].map((name) =>
      planUnit(name, { needs: [need("bottomEnd", 2, 2)], works: [bottomEnd] }),
    );
    const problem = problemOf(units, {
      weeks: 4,
      depots: [{ depot: "Lowmarsh", weeks: weeksOf(8, (week) => (week < 3 ? { bayDays: 0 } : {})) }],
    });
    const plan = planOf(problem);
    expect(plan.bookings).toHaveLength(1);
    expect(plan.notFitted.map(({ unit, scope, bestWeek }) => `${unit} ${scope} ${bestWeek}`)).toEqual([
      expect.stringMatching(/ bottom-end 3$/),
      expect.stringMatching(/ bottom-end 3$/),
    ]);
    expect(plan.notFitted.every(({ extra }) => extra > 0)).toBe(true);
  });

  it("says so too where there is never room, and of one class that would be booked where both were left", () => {
    const unit = planUnit("A", { needs: [need("topEnd", 2, 2), need("bottomEnd", 70, 10)] });
    const depots = [{ depot: "Lowmarsh", weeks: weeksOf(64, () => ({ bayDays: 0 })) }];
    const plan = planOf(problemOf([unit], { depots }));
    expect(plan.bookings).toEqual([]);
    expect(plan.notFitted.map(({ of, scope }) => [...of, scope])).toEqual([["topEnd", "top-end"]]);
    expect(plan.waiting.map(({ of }) => of)).toEqual(["bottomEnd"]);
    // What it costs is what the plan would save with room for it.
    const roomy = planOf(problemOf([unit]));
    expect(roomy.bookings.map(({ scope, week }) => `${scope} ${week}`)).toEqual([
      `top-end ${plan.notFitted[0]?.bestWeek}`,
    ]);
    expect(plan.notFitted[0]?.extra).toBeCloseTo(plan.cost - roomy.cost, 3);
  });

  it("keeps pins where they are, plans around them, and says where they take more than there is", () => {
    const units = ["A", "B", "C"].map((name) => planUnit(name, { needs: [never("topEnd"), need("bottomEnd", 20, 4)] }));
    const pins = [
      { unit: "A", scope: "bottom-end", week: 9 },
      { unit: "B", scope: "bottom-end", week: 9 },
      { unit: "X", scope: "top-end", week: 9 },
      { unit: "C", scope: "exchange", week: 9 },
    ] as const;
    const plan = planOf(problemOf(units, { pins }));
    expect(booked(plan).slice(0, 2)).toEqual(["A bottom-end 9", "B bottom-end 9"]);
    expect(plan.bookings.map(({ isPinned }) => isPinned)).toEqual([true, true, false]);
    expect(plan.overloads).toEqual([
      { resource: { kind: "bay-days", depot: "Lowmarsh", week: 9 }, capacity: 5, used: 10 },
      { resource: { kind: "hours", depot: "Lowmarsh", week: 9 }, capacity: 60, used: 76 },
      { resource: { kind: "builder-hours", depot: "Lowmarsh", week: 9 }, capacity: 40, used: 76 },
    ]);
    expect(plan.impossible.map(({ pin, why }) => `${pin.unit} ${why}`)).toEqual(["X unit", "C work"]);
  });

  it("is told against booking nothing at all: pins and drops move nothing of that", () => {
    const units = ["A", "B"].map((name) =>
      planUnit(name, { needs: [need("topEnd", 30, 4), need("bottomEnd", 34, 4)] }),
    );
    const free = planOf(problemOf(units));
    const pinned = planOf(problemOf(units, { pins: [{ unit: "A", scope: "both", week: 2 }] }));
    const dropped = planOf(problemOf(units, { dropped: [{ unit: "B", of: "topEnd" }] }));
    expect(pinned.cost).toBeGreaterThan(free.cost);
    expect(pinned.nothingBookedCost).toBeCloseTo(free.nothingBookedCost, 6);
    expect(dropped.nothingBookedCost).toBeCloseTo(free.nothingBookedCost, 6);
    // Nowhere to work: what the plan then costs is what booking nothing costs.
    const nowhere = { depots: [{ depot: "Lowmarsh", weeks: weeksOf(64, () => closedWeek) }] };
    expect(free.nothingBookedCost).toBeCloseTo(planOf(problemOf(units, nowhere)).cost, 6);
  });

  it("keeps no pin of what is sold by then, nor a second one of what the first puts right", () => {
    const needs = [need("topEnd", 20, 4), need("bottomEnd", 30, 4)];
    const units = [planUnit("A", { needs }), planUnit("S", { needs, disposalWeek: 9 })];
    const pins = [
      { unit: "A", scope: "both", week: 12 },
      { unit: "A", scope: "top-end", week: 6 },
      { unit: "S", scope: "top-end", week: 9 },
    ] as const;
    const plan = planOf(problemOf(units, { pins }));
    expect(plan.bookings.filter(({ isPinned }) => isPinned).map(({ scope }) => scope)).toEqual(["top-end"]);
    expect(plan.impossible.map(({ pin, why }) => `${pin.unit} ${pin.week} ${why}`)).toEqual(["S 9 sold", "A 12 twice"]);
  });

  it("takes what fits to the last hour, whatever the sums of shares are off by", () => {
    // 3 × 6.1 h in a week: 18.299999999999997, and the same work asks for 18.3.
    const work: Work = { ...topEnd, labourHours: 18.3, bayDays: 3, leadDays: 0 };
    const unit = planUnit("A", { needs: [need("topEnd", -20, 4)], works: [work] });
    const depots = [{ depot: "Lowmarsh", weeks: weeksOf(64, () => ({ hours: 6.1 + 6.1 + 6.1 })) }];
    expect(6.1 + 6.1 + 6.1).toBeLessThan(18.3);
    expect(booked(planOf(problemOf([unit], { depots })))).toEqual(["A top-end 0"]);
  });

  it("plans no work where nobody works, even if it takes no day", () => {
    const work: Work = { ...topEnd, bayDays: 0, daysOff: 0 };
    const unit = planUnit("A", { needs: [need("topEnd", -20, 4)], works: [work] });
    const depots = [{ depot: "Lowmarsh", weeks: weeksOf(64, () => ({ hours: 0 })) }];
    expect(booked(planOf(problemOf([unit], { depots })))).toEqual([]);
    expect(booked(planOf(problemOf([unit])))).toEqual(["A top-end 1"]);
  });

  it("leaves what a person dropped, alone and with the other class", () => {
    const unit = planUnit("V-1", { needs: [need("topEnd", 15, 4), need("bottomEnd", 20, 4)] });
    const plan = planOf(problemOf([unit], { dropped: [{ unit: "V-1", of: "bottomEnd" }] }));
    expect(plan.bookings.map(({ scope }) => scope)).toEqual(["top-end"]);
  });

  it("keeps units of a group from being out together", () => {
    const units = ["A", "B"].map((name) =>
      planUnit(name, { depot: name, needs: [need("topEnd", 20, 2)], works: [topEnd], groups: ["Route 4"] }),
    );
    const depots = ["A", "B"].map((depot) => ({ depot, weeks: weeksOf(64) }));
    const weeks = (mostOut: Record<string, number>) =>
      new Set(planOf(problemOf(units, { depots, mostOut })).bookings.map(({ week }) => week)).size;
    expect(weeks({})).toBe(1);
    expect(weeks({ "Route 4": 1 })).toBe(2);
  });

  it("puts in a spare engine where one is there, and not the same one twice before it is back", () => {
    const exchange: Work = {
      ...both,
      scope: "exchange",
      labour: 60_000,
      labourHours: 12,
      bayDays: 2,
      daysOff: 2,
      needsBuilder: false,
      spareOf: "petrol-4-a",
    };
    const units = ["A", "B"].map((name) =>
      planUnit(name, { needs: [never("topEnd"), need("bottomEnd", 10, 2)], works: [bottomEnd, exchange] }),
    );
    const scopes = (count: number, turnaroundWeeks: number) =>
      planOf(problemOf(units, { spares: { "petrol-4-a": { count, turnaroundWeeks } } })).bookings.map(
        ({ scope }) => scope,
      );
    expect(scopes(2, 100)).toEqual(["exchange", "exchange"]);
    expect(scopes(1, 100).toSorted()).toEqual(["bottom-end", "exchange"]);
    expect(scopes(0, 100)).toEqual(["bottom-end", "bottom-end"]);
    const bought = { count: 0, turnaroundWeeks: 100, more: { count: 2, fromWeek: 8 } };
    expect(planOf(problemOf(units, { spares: { "petrol-4-a": bought } })).bookings).toMatchObject([
      { scope: "exchange", week: 8 },
      { scope: "exchange", week: 8 },
    ]);
    expect(planOf(problemOf(units)).bookings.map(({ scope }) => scope)).toEqual(["bottom-end", "bottom-end"]);
  });

  it("is stopped by whoever asks, with a plan that is no dearer than first come, first served", () => {
    const units = Array.from({ length: 60 }, (_, i) =>
      planUnit(`U-${i}`, { needs: [need("topEnd", 5 + (i % 30)), need("bottomEnd", 10 + ((7 * i) % 40))] }),
    );
    const plan = makePlan(highs, problemOf(units), {
      gap: 0,
      seconds: 60,
      clock: () => performance.now() / 1000,
      onProgress: () => false,
    });
    expect(plan.isCut).toBe(true);
    expect(plan.cost).toBeLessThanOrEqual(plan.firstComeCost);
    expect(plan.bound).toBeLessThanOrEqual(plan.cost);
  });
});

describe("plans without a solver", () => {
  it("cover every need once and keep to what there is", () => {
    const units = Array.from({ length: 40 }, (_, i) =>
      planUnit(`U-${i}`, { needs: [need("topEnd", 5 + (i % 30)), need("bottomEnd", 10 + ((7 * i) % 40))] }),
    );
    const fleet = fleetProgramme(problemOf(units));
    for (const plan of [firstComePlan(fleet), cheapestFirstPlan(fleet)]) {
      expect(isWithin(fleet.programme, plan)).toBe(true);
      expect([...plan].some((option) => fleet.options[option]?.work !== null)).toBe(true);
      expect(costOf(fleet.programme, plan)).toBeGreaterThan(0);
    }
  });
});
