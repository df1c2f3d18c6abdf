import { describe, expect, it } from "vitest";
import { eventsOf, type Fate } from "../../../lib/budget/events.ts";
import { never } from "../../../lib/budget/fates.ts";
import type { BudgetUnit } from "../../../lib/budget/types.ts";
import type { PlanScope, Work } from "../../../lib/schema/kept-plan.ts";
import { both, need, topEnd } from "../plan/problem.ts";
import { budgetOf, budgetUnit } from "./problem.ts";

const plan = budgetOf([]);
const needs = [need("topEnd", 50), need("bottomEnd", 50)];
const top = (crosses: number, fails = never): Fate => ({ of: "topEnd", crosses, fails });
const bottom = (crosses: number, fails = never): Fate => ({ of: "bottomEnd", crosses, fails });

function told(
  fates: readonly Fate[],
  booked: readonly { readonly scope: PlanScope; readonly week: number; readonly topEndPastLimit?: boolean }[] = [],
  more: Partial<BudgetUnit> = {},
): readonly string[] {
  const bookings = booked.map((one) => ({ unit: "V-1", ...one }));
  return eventsOf(budgetUnit("V-1", { needs, ...more }), bookings, fates, plan).map(
    ({ work, week, isPlanned, factor }) => `${work.scope} ${week} ${isPlanned ? "planned" : `failed ×${factor}`}`,
  );
}

describe("the repairs of a unit in one draw", () => {
  it("are made when they are booked, whether the limit was met by then or not", () => {
    expect(told([top(30), bottom(never)], [{ scope: "top-end", week: 10 }])).toEqual(["top-end 10 planned"]);
    expect(told([top(never), bottom(never)], [{ scope: "top-end", week: 10 }])).toEqual(["top-end 10 planned"]);
  });

  it("are made at the failure where that comes before, and the booking is then done with", () => {
    expect(told([top(5, 9.5), bottom(never)], [{ scope: "top-end", week: 10 }])).toEqual(["top-end 9.5 failed ×2"]);
    expect(told([top(5, 10.5), bottom(never)], [{ scope: "top-end", week: 10 }])).toEqual(["top-end 10 planned"]);
  });

  it("leave of a booking for both what has not failed", () => {
    expect(told([top(5, 9), bottom(40)], [{ scope: "both", week: 10 }])).toEqual([
      "top-end 9 failed ×2",
      "bottom-end 10 planned",
    ]);
  });

  it("follow a limit that nobody booked by some weeks, unless it fails first", () => {
    expect(told([top(30, 60), bottom(never)])).toEqual(["top-end 38 planned"]);
    expect(told([top(30, 33), bottom(never)])).toEqual(["top-end 33 failed ×2"]);
  });

  it("are made together where the second follows soon, and apart where it does not", () => {
    expect(told([top(30), bottom(60)])).toEqual(["both 38 planned"]);
    expect(told([top(30), bottom(90)])).toEqual(["top-end 38 planned", "bottom-end 98 planned"]);
    expect(told([top(30, 34), bottom(60)])).toEqual(["top-end 34 failed ×2", "bottom-end 68 planned"]);
  });

  it("take a spare engine for what no other work cures", () => {
    const exchange: Work = { ...both, scope: "exchange", spareOf: "petrol-4-a" };
    const more = { works: [topEnd, exchange] };
    expect(told([top(30, 31), bottom(never)], [], more)).toEqual(["top-end 31 failed ×2"]);
    expect(told([top(never), bottom(30, 31)], [], more)).toEqual(["exchange 31 failed ×2"]);
    expect(told([top(never), bottom(30)], [], more)).toEqual(["exchange 38 planned"]);
  });

  it("leave a top end alone that is not past its limit, where it is told so, and make the rest of the booking", () => {
    const only = (scope: PlanScope) => [{ scope, week: 10, topEndPastLimit: true }];
    expect(told([top(9), bottom(never)], only("top-end"))).toEqual(["top-end 10 planned"]);
    expect(told([top(11), bottom(never)], only("top-end"))).toEqual(["top-end 19 planned"]);
    expect(told([top(never), bottom(never)], only("top-end"))).toEqual([]);
    expect(told([top(80), bottom(20)], only("both"))).toEqual(["bottom-end 10 planned", "top-end 88 planned"]);
    expect(told([top(80), bottom(20)], only("bottom-end"))).toEqual(["bottom-end 10 planned", "top-end 88 planned"]);
    const exchange: Work = { ...both, scope: "exchange", spareOf: "petrol-4-a" };
    expect(told([top(80), bottom(20)], only("exchange"), { works: [topEnd, exchange] })).toEqual([
      "exchange 10 planned",
    ]);
  });

  it("end with the unit's sale", () => {
    expect(told([top(30), bottom(90)], [], { disposalWeek: 90 })).toEqual(["top-end 38 planned"]);
    expect(told([top(30, 32), bottom(never)], [], { disposalWeek: 31 })).toEqual([]);
  });
});
