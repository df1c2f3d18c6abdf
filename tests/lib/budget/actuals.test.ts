import { describe, expect, it } from "vitest";
import { actualsOf } from "../../../lib/budget/actuals.ts";
import { fiscalYearOf, monthsIn } from "../../../lib/budget/fiscal-year.ts";
import type { RecordedRepair } from "../../../lib/schema/kept-budget.ts";
import { workshopSchema } from "../../../lib/schema/workshop.ts";

const repair = (unit: string, date: string, more: Partial<RecordedRepair> = {}): RecordedRepair => ({
  unit,
  depot: "Lowmarsh",
  engineModel: "petrol-4-a",
  date,
  scope: "top-end",
  cost: 1_000.5,
  labourHours: 12,
  ...more,
});
const repairs = [
  repair("B", "2026-06-30"),
  repair("A", "2026-07-01"),
  repair("B", "2026-07-31", { cost: null, labourHours: null }),
  repair("B", "2026-08-31", { cost: 3_000, labourHours: 20 }),
  repair("A", "2026-09-01"),
];
const workshop = workshopSchema.parse({
  currency: "EUR",
  anyClass: { dayOff: 90 },
  unitClasses: { bus: { dayOff: 300 } },
});
const told = actualsOf(repairs, { from: "2026-07-01", to: "2026-08-31", workshop });

describe("what was spent", () => {
  it("counts repairs from the first day to the last, both with them, in minor units", () => {
    expect([told.amount, told.repairs, told.labourHours]).toEqual([400_050, 3, 32]);
  });

  it("says how many have no cost on file, and guesses none", () => {
    expect(told.withoutCost).toBe(1);
    expect(told.months).toEqual([
      { month: "2026-07", amount: 100_050, downtime: 0, repairs: 2, withoutCost: 1, withoutDays: 2, labourHours: 12 },
      { month: "2026-08", amount: 300_000, downtime: 0, repairs: 1, withoutCost: 0, withoutDays: 1, labourHours: 20 },
    ]);
  });

  it("counts recorded days off the road at what a day of the class costs, also where no cost is recorded", () => {
    const made = [
      repair("A", "2026-07-03", { cost: 2_100, downtimeDays: 4 }),
      repair("B", "2026-07-04", { cost: null, downtimeDays: 2, unitClass: "bus" }),
      repair("C", "2026-07-05", { cost: 10, downtimeDays: null }),
    ];
    const spent = actualsOf(made, { from: "2026-07-01", to: "2026-07-31", workshop });
    expect([spent.amount, spent.downtime, spent.withoutDays]).toEqual([210_000 + 36_000 + 60_000 + 1_000, 96_000, 1]);
    expect(spent.units.map(({ unit, amounts }) => [unit, amounts[0]?.amount, amounts[0]?.downtime])).toEqual([
      ["A", 246_000, 36_000],
      ["B", 60_000, 60_000],
      ["C", 1_000, 0],
    ]);
  });

  it("tells units by what was spent on them, the most first", () => {
    expect(told.units.map(({ unit, amount }) => [unit, amount])).toEqual([
      ["B", 300_000],
      ["A", 100_050],
    ]);
  });
});

describe("a fiscal year", () => {
  it("is named after the calendar years that it lies in", () => {
    expect(fiscalYearOf("2026-06-30", 7)).toEqual({ name: "2025/26", from: "2025-07-01", end: "2026-07-01" });
    expect(fiscalYearOf("2026-07-01", 7).name).toBe("2026/27");
    expect(fiscalYearOf("2026-06-30", 1)).toEqual({ name: "2026", from: "2026-01-01", end: "2027-01-01" });
    expect(fiscalYearOf("2099-12-31", 12).name).toBe("2099/00");
  });

  it("has the months of a budget that lie in it", () => {
    const year = fiscalYearOf("2026-07-01", 7);
    expect(monthsIn(year, { asOf: "2026-09-15", months: 36 })).toEqual({ from: 0, to: 10 });
    expect(monthsIn(year, { asOf: "2026-05-15", months: 36 })).toEqual({ from: 2, to: 14 });
    expect(monthsIn(year, { asOf: "2026-05-15", months: 12 })).toEqual({ from: 2, to: 12 });
    expect(monthsIn(year, { asOf: "2027-07-01", months: 12 })).toEqual({ from: 0, to: 0 });
  });
});
