import { describe, expect, it } from "vitest";
import { budgetDocument } from "../../../lib/budget/document.ts";
import { simulateBudget } from "../../../lib/budget/simulate.ts";
import { budgetDocumentSchema } from "../../../lib/schema/budget-document.ts";
import { need, never } from "../plan/problem.ts";
import { budgetOf, budgetUnit } from "./problem.ts";

const units = [
  budgetUnit("A", { needs: [need("topEnd", 20, 10), need("bottomEnd", 60, 20)] }),
  budgetUnit("B", { needs: [need("topEnd", 70, 30), never("bottomEnd")], depot: "Highcol", engineModel: "diesel-4-a" }),
  budgetUnit("C", { needs: [never("topEnd"), need("bottomEnd", 40, 30)], isUntested: true }),
  budgetUnit("D", { needs: [never("topEnd"), never("bottomEnd")] }),
];
const problem = budgetOf(units, {
  spreads: { hours: 0.2, parts: 0.2, growth: 0.02, ofModel: 0.1 },
  bookings: [{ unit: "A", scope: "both", week: 18 }],
});
const drawn = simulateBudget(problem, { seed: 3, draws: 1_000 });
const document = budgetDocumentSchema.parse(
  budgetDocument(problem, drawn, { seed: 3, currency: "XXX", fiscalYearStartMonth: 7 }),
);
const sum = (amounts: readonly number[]) => amounts.reduce((a, b) => a + b, 0);

describe("the budget as a document", () => {
  it("adds up to the minor unit, whatever expected amounts are parted by", () => {
    const whole = Math.round(sum([...drawn.totals]) / 1_000);
    for (const spans of [document.months, document.quarters, document.fiscalYears])
      expect(sum(spans.map(({ expected }) => expected))).toBe(whole);
    for (const { expected, planned, unplanned, byDepot, byScope, byEngineModel, units: told } of document.fiscalYears) {
      expect(sum(Object.values(planned)) + sum(Object.values(unplanned))).toBe(expected);
      for (const parts of [byDepot, byScope, byEngineModel, told])
        expect(sum(parts.map((part) => part.expected))).toBe(expected);
      expect(sum(told.map((unit) => unit.unplanned))).toBe(sum(Object.values(unplanned)));
    }
  });

  it("parts each unit's money by class and by what it is spent on, and comes to the year's whole by its last month", () => {
    for (const { units: told, planned, unplanned, byScope, expected, p50, p80, cumulative } of document.fiscalYears) {
      for (const one of told) {
        expect(sum(Object.values(one.byScope))).toBe(one.expected);
        expect(sum(Object.values(one.spent))).toBe(one.expected);
      }
      for (const of of ["labour", "parts", "machining", "damage", "downtime"] as const)
        expect(sum(told.map(({ spent }) => spent[of]))).toBe(planned[of] + unplanned[of]);
      for (const part of byScope) expect(sum(told.map((one) => one.byScope[part.scope]))).toBe(part.expected);
      const { month: _, ...end } = cumulative.at(-1) ?? {};
      expect(end).toEqual({ expected, p50, p80 });
    }
  });

  it("has ranges that ascend, and tells by how much P80 lies above P50", () => {
    for (const { p50, p80, p95, contingency } of document.fiscalYears) {
      expect(p50).toBeLessThanOrEqual(p80);
      expect(p80).toBeLessThanOrEqual(p95);
      expect(contingency).toBe(p80 - p50);
    }
  });

  it("lists units with money in them, the most first, and units never tested as a line of their own", () => {
    const [year] = document.fiscalYears;
    expect(year?.units.map(({ unit }) => unit)).not.toContain("D");
    expect(year?.units[0]?.unit).toBe("A");
    const ofC = sum(
      document.fiscalYears.flatMap((of) => of.units.filter(({ unit }) => unit === "C").map(({ expected }) => expected)),
    );
    expect(sum(document.fiscalYears.map(({ untested }) => untested.expected))).toBe(ofC);
  });
});
