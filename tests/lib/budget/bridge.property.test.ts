import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { budgetBridge, type DrawnBudget } from "../../../lib/budget/bridge.ts";
import { budgetDocument } from "../../../lib/budget/document.ts";
import { problemOfInputs } from "../../../lib/budget/frame.ts";
import type { BudgetInputs, InputUnit } from "../../../lib/budget/inputs.ts";
import { simulateBudget } from "../../../lib/budget/simulate.ts";
import { addDays } from "../../../lib/calendar.ts";
import type { BudgetBridge } from "../../../lib/schema/bridge.ts";
import type { UnitSign } from "../../../lib/schema/kept-budget.ts";
import { workshopSchema } from "../../../lib/schema/workshop.ts";
import { chances, inputsOf, inputUnit, petrol, sign } from "./inputs.ts";

/** Budgets whose units, prices and bookings may be anything; one of them some days after the other. */

const draws = 200;

const unit = (asOf: string, name: string): fc.Arbitrary<InputUnit> =>
  fc
    .record({
      topEnd: fc.integer({ min: -6, max: 40 }),
      bottomEnd: fc.integer({ min: 0, max: 60 }),
      depot: fc.constantFrom("Lowmarsh", "Highcol", null),
      status: fc.constantFrom("in-service", "in-service", "stopped", "retired"),
      disposalDate: fc.constantFrom(null, null, "2027-03-01"),
      tested: fc.constantFrom("tests", "tests", "model", "neither"),
      parts: fc.constantFrom(900, 950),
      perDay: fc.constantFrom(100, 140),
      lastTest: fc.constantFrom("2026-06-01", "2026-07-20"),
    })
    .map(({ topEnd, bottomEnd, tested, parts, perDay, lastTest, ...standing }) => {
      const told = chances(asOf, { topEnd, bottomEnd });
      const signed: UnitSign = {
        lastTestDate: lastTest,
        basis: {
          ...(sign.basis as NonNullable<UnitSign["basis"]>),
          perDay,
          tests: [{ date: lastTest, measure: "leak-down", attempt: 1, used: true, readings: "a" }],
        },
      };
      const topEndCosts = { labourHours: 14, parts, downtimeDays: 4, unplannedFactor: 1.6 };
      return inputUnit(
        name,
        {
          ...standing,
          pastLimit: tested === "tests" ? told : [],
          fromModel: tested === "model" ? told : [],
          model: { ...petrol, repairs: { ...petrol.repairs, topEnd: topEndCosts } },
        },
        signed,
      );
    });

const inputs = (asOf: string): fc.Arbitrary<BudgetInputs> => {
  const names = ["A", "B", "C"];
  return fc
    .record({
      units: fc.tuple(...names.map((name) => fc.option(unit(asOf, name), { freq: 4 }))),
      labourRate: fc.constantFrom(60, 66),
      priceDate: fc.constantFrom(null, "2026-07-01"),
      budgetMonths: fc.constantFrom(24, 36),
      bookings: fc.array(
        fc.record({ unit: fc.constantFrom(...names), scope: fc.constantFrom("top-end", "both"), week: fc.nat(40) }),
        { maxLength: 3 },
      ),
      repairs: fc.array(
        fc.record({
          unit: fc.constantFrom(...names),
          day: fc.integer({ min: -60, max: 0 }),
          cost: fc.option(fc.integer({ min: 0, max: 300_000 }).map((cents) => cents / 100)),
        }),
        { maxLength: 2 },
      ),
    })
    .map(({ units, bookings, repairs, ...told }) => {
      const monday = "2026-07-06";
      return inputsOf(
        units.flatMap((one) => one ?? []),
        {
          asOf,
          workshop: workshopSchema.parse({ fiscalYearStartMonth: 7, ...told }),
          bookings: bookings.map(({ week, ...one }) => ({
            ...one,
            start: addDays(monday, 7 * week),
            downtime: 60_000,
            isPinned: false,
          })),
          repairs: repairs.map(({ day, ...one }) => ({
            ...one,
            depot: "Lowmarsh",
            engineModel: petrol.id,
            date: addDays(asOf, day),
            scope: "top-end",
            labourHours: null,
          })),
        },
      );
    });
};

const drawn = (of: BudgetInputs, seed: number): DrawnBudget => {
  const problem = problemOfInputs(of);
  const document = budgetDocument(problem, simulateBudget(problem, { seed, draws }), { ...of.workshop, seed });
  return { inputs: of, document };
};

const pair = fc.tuple(inputs("2026-07-01"), fc.constantFrom("2026-07-01", "2026-09-15").chain(inputs));
const sum = (amounts: readonly number[]) => amounts.reduce((a, b) => a + b, 0);
const year = "2026/27";

describe("the bridge between two budgets", () => {
  it("has parts that add up to the difference to the minor unit, each by its units", () => {
    fc.assert(
      fc.property(pair, ([was, now]) => {
        const bridge = budgetBridge(drawn(was, 3), drawn(now, 3), { year }) as BudgetBridge;
        for (const of of ["expected", "p50", "p80"] as const)
          expect(sum(bridge.steps.map((step) => step[of]))).toBe(bridge.to[of] - bridge.from[of]);
        for (const { expected, units, rest } of bridge.steps) {
          expect(sum(units.map((one) => one.expected)) + rest).toBe(expected);
          expect(Number.isInteger(expected)).toBe(true);
        }
      }),
      { numRuns: 30 },
    );
  });

  it("leaves nothing unexplained between budgets of one seed, and begins and ends with what their documents say", () => {
    fc.assert(
      fc.property(pair, ([was, now]) => {
        const [from, to] = [drawn(was, 3), drawn(now, 3)];
        const bridge = budgetBridge(from, to, { year }) as BudgetBridge;
        const told = ({ document }: DrawnBudget) =>
          document.fiscalYears.find(({ name }) => name === year)?.expected ?? 0;
        expect(bridge.from.expected - bridge.from.spent).toBe(told(from));
        expect(bridge.to.expected - bridge.to.spent).toBe(told(to));
        expect(bridge.steps.at(-1)).toEqual({
          cause: "unexplained",
          expected: 0,
          p50: 0,
          p80: 0,
          because: [],
          units: [],
          rest: 0,
        });
        // What rounding moves between units is a minor unit or two.
        for (const { rest } of bridge.steps) expect(Math.abs(rest)).toBeLessThanOrEqual(3);
      }),
      { numRuns: 30 },
    );
  });

  it("is all noughts from a budget to itself", () => {
    fc.assert(
      fc.property(inputs("2026-07-01"), (of) => {
        const { steps } = budgetBridge(drawn(of, 3), drawn(of, 3), { year }) as BudgetBridge;
        expect(steps.every(({ expected, p50, p80, units }) => !expected && !p50 && !p80 && units.length === 0)).toBe(
          true,
        );
      }),
      { numRuns: 20 },
    );
  });
});
