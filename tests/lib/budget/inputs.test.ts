import { describe, expect, it } from "vitest";
import { budgetDocument } from "../../../lib/budget/document.ts";
import { problemOfInputs } from "../../../lib/budget/frame.ts";
import { type BudgetInputs, keptInputs, readInputs } from "../../../lib/budget/inputs.ts";
import { budgetProblemOf } from "../../../lib/budget/problem-of.ts";
import { simulateBudget } from "../../../lib/budget/simulate.ts";
import { planProblemOf } from "../../../lib/plan/problem-of.ts";
import { chances, inputsOf, inputUnit } from "./inputs.ts";

const untested = { pastLimit: [], fromModel: chances("2026-07-31", { topEnd: 20, bottomEnd: 30 }) };
const inputs = inputsOf(
  [
    inputUnit("V-2", { pastLimit: chances("2026-07-31", { topEnd: 4, bottomEnd: 30 }) }),
    inputUnit("V-1", { depot: "Highcol", pastLimit: chances("2026-07-31", { topEnd: 30, bottomEnd: 14 }) }),
    inputUnit("V-3", untested),
    inputUnit("V-4", { status: "retired" }),
  ],
  {
    asOf: "2026-07-31",
    bookings: [{ unit: "V-2", scope: "top-end", start: "2026-11-02", downtime: 90_000, isPinned: false }],
  },
);

const documentOf = (of: BudgetInputs) => {
  const problem = problemOfInputs(of);
  const drawn = simulateBudget(problem, { seed: 5, draws: 1_000 });
  return JSON.stringify(budgetDocument(problem, drawn, { ...of.workshop, seed: 5 }));
};

describe("what a budget was drawn from", () => {
  it("draws the same budget to the byte after it was kept", () => {
    const kept = JSON.parse(JSON.stringify(keptInputs(inputs)));
    expect(documentOf(readInputs(kept) as BudgetInputs)).toBe(documentOf(inputs));
  });

  it("is what a plan's own problem is drawn from", () => {
    const { asOf, workshop } = inputs;
    const outlooks = inputs.units.map(({ outlook }) => outlook);
    const { problem } = planProblemOf(outlooks, workshop, { asOf, dropped: [] });
    const bookings = [{ unit: "V-2", scope: "top-end" as const, week: 13, cost: { downtime: 90_000 } }];
    expect(problemOfInputs(inputs)).toEqual(budgetProblemOf(outlooks, workshop, { asOf, problem, bookings }));
  });

  it("keeps each engine model once", () => {
    expect(keptInputs(inputs).models.map(({ id }) => id)).toEqual(["petrol-4-a"]);
  });

  it("is not read in another form", () => {
    expect(readInputs({ ...keptInputs(inputs), format: 0 })).toBeNull();
  });

  it("is not kept where chances are not month by month", () => {
    const pastLimit = inputUnit("V-1").outlook.pastLimit.filter((_, month) => month !== 3);
    expect(() => keptInputs(inputsOf([inputUnit("V-1", { pastLimit })]))).toThrow("month by month");
  });
});
