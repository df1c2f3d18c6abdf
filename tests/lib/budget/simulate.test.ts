import { describe, expect, it } from "vitest";
import { bookedIn } from "../../../lib/budget/frame.ts";
import { partKey, simulateBudget } from "../../../lib/budget/simulate.ts";
import { expectedCells, rangeOf, spansOf } from "../../../lib/budget/summarise.ts";
import { type BudgetProblem, cellAt, spendings } from "../../../lib/budget/types.ts";
import { need, never, topEnd } from "../plan/problem.ts";
import { budgetOf, budgetUnit } from "./problem.ts";

const draws = 2_000;
const spreads = { hours: 0.2, parts: 0.3, growth: 0.02, ofModel: 0.1 };
const fleet = [
  budgetUnit("A", { needs: [need("topEnd", 20, 10), need("bottomEnd", 60, 20)] }),
  budgetUnit("B", { needs: [need("topEnd", 70, 30), never("bottomEnd")], depot: "Highcol", engineModel: "diesel-4-a" }),
  budgetUnit("C", { needs: [never("topEnd"), need("bottomEnd", 40, 30)], isUntested: true }),
];
const problem = budgetOf(fleet, {
  spreads,
  prices: { priceDate: "2026-07-01", labour: 0.03, parts: 0.04 },
  bookings: [{ unit: "A", scope: "top-end", week: 18 }],
});
const drawn = simulateBudget(problem, { seed: 7, draws });
const sum = (values: ArrayLike<number>) => Array.from(values).reduce((a, b) => a + b, 0);
const sure = [never("topEnd"), never("bottomEnd")];
const spentOn = (of: BudgetProblem) => sum(simulateBudget(of, { seed: 1, draws: 2 }).totals);

describe("a simulated budget", () => {
  it("is the same for the same seed, and another for another", () => {
    const again = simulateBudget(problem, { seed: 7, draws });
    expect(again.totals).toEqual(drawn.totals);
    expect(again.sums.cells).toEqual(drawn.sums.cells);
    expect(simulateBudget(problem, { seed: 8, draws }).totals).not.toEqual(drawn.totals);
  });

  it("adds up: cells, draws and the parts of the fleet to the same whole", () => {
    expect(sum(drawn.sums.cells)).toBe(sum(drawn.totals));
    for (const prefix of ["depot ", "scope ", "model "]) {
      const parts = [...drawn.parts].filter(([key]) => key.startsWith(prefix));
      expect(sum(parts.map(([, of]) => sum(of)))).toBe(sum(drawn.totals));
    }
    expect(drawn.totals.every((amount) => Number.isInteger(amount))).toBe(true);
  });

  it("tells expected amounts in whole minor units that add up to the rounded whole", () => {
    const { cells } = expectedCells(drawn);
    expect(cells.every((amount) => Number.isInteger(amount) && amount >= 0)).toBe(true);
    expect(sum(cells)).toBe(Math.round(sum(drawn.sums.cells) / draws));
    for (const [i, amount] of cells.entries())
      expect(Math.abs(amount - (drawn.sums.cells[i] as number) / draws)).toBeLessThan(1);
  });

  it("gives a unit the same fate whatever else is in the fleet", () => {
    const alone = simulateBudget({ ...problem, units: fleet.slice(1, 2), bookings: [] }, { seed: 7, draws });
    expect(alone.totals).toEqual(drawn.parts.get(partKey.depot("Highcol")));
  });

  it("tells units that were too seldom tested apart", () => {
    const ofUnit = drawn.sums.cells.length / fleet.length;
    const ofC = sum(drawn.sums.cells.slice(2 * ofUnit, 3 * ofUnit));
    expect(sum(drawn.parts.get(partKey.untested) as Float64Array)).toBe(ofC);
    expect(ofC).toBeGreaterThan(0);
  });

  it("puts a booking into the month of its week, as planned", () => {
    const unit = budgetUnit("S", { needs: sure });
    const bookings = [{ unit: "S", scope: "top-end" as const, week: 4 }];
    const one = simulateBudget(budgetOf([unit], { bookings }), { seed: 1, draws: 2 });
    // The Monday four weeks after 7 September 2026 is 5 October.
    const at = (spending: (typeof spendings)[number]) =>
      one.sums.cells[
        cellAt(one.sums, { unit: 0, month: 1, occasion: 0, scope: 0, spending: spendings.indexOf(spending) })
      ];
    expect([at("labour"), at("parts"), at("downtime")]).toEqual([2 * topEnd.labour, 2 * topEnd.parts, 2 * 3 * 12_000]);
    expect(sum(one.totals)).toBe(2 * (topEnd.labour + topEnd.parts + 3 * 12_000));
  });

  it("takes from the plan what the days out of service of a booking cost in its weeks", () => {
    const unit = budgetUnit("S", { needs: sure });
    const spent = (booking: object) =>
      spentOn(budgetOf([unit], { bookings: [{ unit: "S", scope: "top-end", week: 4, ...booking }] }));
    // Three days in a peak, twice as dear.
    expect(spent({ downtime: 2 * 3 * 12_000 }) - spent({})).toBe(2 * 3 * 12_000);
  });

  it("has in a month without a Monday to come what is due in the rest of its week", () => {
    // Tuesday; weeks are counted from Monday, 4 January 2027.
    const frame = { asOf: "2026-12-29", firstMonday: "2027-01-04", months: 3 };
    const crossed = new Float64Array(157).fill(1);
    const failing = budgetUnit("F", {
      needs: [{ ...need("topEnd", 0), crossed }],
      works: [topEnd],
      runningOn: { perWeek: 0, failurePerWeek: 0.3, damage: 0 },
    });
    const booked = budgetUnit("S", { needs: sure });
    const monthly = (of: BudgetProblem) => {
      const { totals, sums } = simulateBudget(of, { seed: 1, draws });
      expect(sum(totals)).toBe(sum(sums.cells));
      return [0, 1, 2].map((month) => sum(totals.filter((_, i) => i % 3 === month)) / draws);
    };
    const cost = topEnd.labour + topEnd.parts + 3 * 12_000;
    // Booked for Monday, 28 December: it was to begin this week.
    const [now] = bookedIn(
      [{ unit: "S", scope: "top-end", start: "2026-12-28", downtime: 3 * 12_000, isPinned: false }],
      frame,
    );
    expect(monthly(budgetOf([booked], { ...frame, bookings: now === undefined ? [] : [now] }))).toEqual([cost, 0, 0]);
    // Of what is past its limit the share fails in December that fails in three days of a week of 30 %.
    const [december = 0, january = 0] = monthly(budgetOf([failing], frame));
    const failed = simulateBudget(budgetOf([failing], frame), { seed: 1, draws }).failures;
    expect((failed[0] as number) / draws).toBeCloseTo(1 - 0.7 ** (3 / 7), 2);
    expect(december).toBeGreaterThan(0);
    expect(january).toBeGreaterThan(december);
  });

  it("has nothing beyond its months", () => {
    const at = (week: number) =>
      spentOn(
        budgetOf([budgetUnit("L", { needs: sure })], { months: 2, bookings: [{ unit: "L", scope: "top-end", week }] }),
      );
    expect(at(7)).toBeGreaterThan(0);
    expect(at(8)).toBe(0);
  });

  it("makes a failure dearer by its factor, and adds what it breaks", () => {
    const crossed = new Float64Array(157).fill(1);
    const unit = (failurePerWeek: number) =>
      budgetUnit("F", {
        needs: [{ ...need("topEnd", 0), crossed, unplannedFactor: 3 }],
        works: [topEnd],
        dayCost: 0,
        runningOn: { perWeek: 0, failurePerWeek, damage: 50_000 },
      });
    expect(spentOn(budgetOf([unit(1)]))).toBe(2 * (3 * (topEnd.labour + topEnd.parts) + 50_000));
    expect(spentOn(budgetOf([unit(0)]))).toBe(2 * (topEnd.labour + topEnd.parts));
  });

  it("draws one path of prices for all units", () => {
    const units = ["P", "Q"].map((name) => budgetUnit(name, { depot: name, needs: sure, dayCost: 0 }));
    const grown = simulateBudget(
      budgetOf(units, {
        spreads: { ...spreads, hours: 0, parts: 0 },
        bookings: units.map(({ unit }) => ({ unit, scope: "top-end", week: 50 })),
      }),
      { seed: 3, draws: 200 },
    );
    expect(grown.parts.get(partKey.depot("P"))).toEqual(grown.parts.get(partKey.depot("Q")));
    expect(new Set(grown.totals).size).toBeGreaterThan(100);
  });
});

describe("what a budget tells of spans", () => {
  it("are quantiles of the simulated sum, which are no sums of the months' quantiles", () => {
    // Each month costs 100 in half of the draws, never in both.
    const totals = Float64Array.from({ length: 2_000 }, (_, i) => (i % 4 === 0 || i % 4 === 3 ? 100 : 0));
    const of = (from: number, to: number) => rangeOf(totals, { months: 2, from, to });
    expect(of(0, 1).p80).toBe(100);
    expect(of(1, 2).p80).toBe(100);
    expect(of(0, 2)).toEqual({ p50: 100, p80: 100, p95: 100 });
  });

  it("follow the fiscal year: its name, its quarters, what the budget's ends cut", () => {
    const { months, quarters, years } = spansOf({ asOf: "2026-08-31", months: 12 }, 7);
    expect(months.slice(0, 2)).toEqual([
      { name: "2026-08", from: 0, to: 1 },
      { name: "2026-09", from: 1, to: 2 },
    ]);
    expect(quarters.map(({ name, from, to }) => `${name} ${from}-${to}`)).toEqual([
      "2026/27 Q1 0-2",
      "2026/27 Q2 2-5",
      "2026/27 Q3 5-8",
      "2026/27 Q4 8-11",
      "2027/28 Q1 11-12",
    ]);
    expect(years).toEqual([
      { name: "2026/27", from: 0, to: 11 },
      { name: "2027/28", from: 11, to: 12 },
    ]);
    expect(spansOf({ asOf: "2026-11-30", months: 3 }, 1).years.map(({ name }) => name)).toEqual(["2026", "2027"]);
  });
});
