import { describe, expect, it } from "vitest";
import { budgetBridge, type DrawnBudget } from "../../../lib/budget/bridge.ts";
import type { ForecastCause } from "../../../lib/budget/bridge-causes.ts";
import type { MixedForecasts } from "../../../lib/budget/bridge-mixtures.ts";
import { priceNews } from "../../../lib/budget/bridge-prices.ts";
import { budgetDocument } from "../../../lib/budget/document.ts";
import { problemOfInputs } from "../../../lib/budget/frame.ts";
import type { BudgetInputs, InputUnit } from "../../../lib/budget/inputs.ts";
import { simulateBudget } from "../../../lib/budget/simulate.ts";
import type { BridgeStep, BudgetBridge } from "../../../lib/schema/bridge.ts";
import type { AssessmentBasis } from "../../../lib/schema/changes.ts";
import type { KeptBudgetBooking, RecordedRepair } from "../../../lib/schema/kept-budget.ts";
import { workshopSchema } from "../../../lib/schema/workshop.ts";
import { chances, inputsOf, inputUnit, petrol, sign } from "./inputs.ts";

const year = "2026/27";
const [july, september] = ["2026-07-01", "2026-09-15"];

const drawn = (inputs: BudgetInputs, seed = 3): DrawnBudget => {
  const problem = problemOfInputs(inputs);
  const draws = simulateBudget(problem, { seed, draws: 400 });
  return { inputs, document: budgetDocument(problem, draws, { ...inputs.workshop, seed }) };
};
const between = (was: BudgetInputs, now: BudgetInputs) =>
  budgetBridge(drawn(was), drawn(now), { year }) as BudgetBridge;

const signed = (more: Partial<AssessmentBasis>) => ({
  ...sign,
  basis: { ...(sign.basis as AssessmentBasis), ...more },
});
const sooner = { pastLimit: chances(july, { topEnd: 5, bottomEnd: 20 }) };
const others = [inputUnit("B"), inputUnit("C", { depot: "Highcol" })];
const before = inputsOf([inputUnit("A"), ...others]);
const newTest = {
  date: "2026-07-01",
  measure: "leak-down" as const,
  attempt: 1,
  used: true,
  readings: "b",
};
const moved = ({ steps }: BudgetBridge): readonly BridgeStep[] => steps.filter(({ expected }) => expected !== 0);
const withA = (unit: InputUnit, more: Partial<BudgetInputs> = {}) => between(before, inputsOf([unit, ...others], more));

describe("a bridge puts the whole of a change down to", () => {
  it("new tests, where there are any", () => {
    const tests = [...(sign.basis?.tests ?? []), newTest];
    const [step, ...rest] = moved(withA(inputUnit("A", sooner, signed({ tests, perDay: 140 }))));
    expect(rest).toEqual([]);
    expect(step?.cause).toBe("tests");
    expect(step?.units).toEqual([
      {
        unit: "A",
        expected: step?.expected,
        because: ["new leak-down test on 1 Jul 2026", "use rose from 700 to 980 km a week"],
      },
    ]);
    expect(step?.expected).toBeGreaterThan(0);
  });

  it("use, where it rose and nothing was tested", () => {
    expect(moved(withA(inputUnit("A", sooner, signed({ perDay: 140 })))).map(({ cause }) => cause)).toEqual(["use"]);
  });

  it("limits, where the model's are others", () => {
    const limits = { ...(sign.basis as AssessmentBasis).limits, minimumKpa: 950 } as NonNullable<
      AssessmentBasis["limits"]
    >;
    expect(moved(withA(inputUnit("A", sooner, signed({ limits })))).map(({ cause }) => cause)).toEqual(["limits"]);
  });

  it("the model, where sister engines show something else", () => {
    expect(moved(withA(inputUnit("A", sooner, signed({ pools: ["b"] })))).map(({ cause }) => cause)).toEqual(["model"]);
  });

  it("disposals, where a unit is to be sold, left or came", () => {
    const [sold] = moved(withA(inputUnit("A", { disposalDate: "2026-09-01" })));
    expect([sold?.cause, sold?.units[0]?.because]).toEqual(["disposals", ["disposal planned for 1 Sep 2026"]]);
    const [left] = moved(between(before, inputsOf(others)));
    expect([left?.cause, left?.units[0]?.because]).toEqual(["disposals", ["no longer in the fleet"]]);
    expect(left?.expected).toBeLessThan(0);
    const [came] = moved(between(inputsOf(others), before));
    expect([came?.cause, came?.expected]).toEqual(["disposals", -(left?.expected ?? 0)]);
  });

  it("prices, of all units, with what is told otherwise", () => {
    const repairs = {
      ...petrol.repairs,
      topEnd: { labourHours: 14, parts: 990, downtimeDays: 4, unplannedFactor: 1.6 },
    };
    const dearer = [inputUnit("A", { model: { ...petrol, repairs } }), ...others];
    const workshop = workshopSchema.parse({ ...before.workshop, labourRate: 66.5 });
    const [step, ...rest] = moved(between(before, inputsOf(dearer, { workshop })));
    expect(rest).toEqual([]);
    expect(step?.because).toEqual(["labour rate from 60 to 66.5", "hours and parts of petrol-4-a"]);
    expect(step?.units.map(({ unit }) => unit).toSorted()).toEqual(["A", "B", "C"]);
  });

  it("no price that reads otherwise and is the same, as a saved form writes it", () => {
    const was = workshopSchema.parse({ ...before.workshop, depots: { Lowmarsh: { bays: 1 } } });
    const written = workshopSchema.parse({
      ...was,
      unitClasses: { van: { ...was.anyClass } },
      depots: { Lowmarsh: { technicians: 2, bays: 1, labourRate: 60 }, Highcol: {} },
    });
    const { repairs } = petrol;
    const same = {
      ...petrol,
      repairs: { exchange: repairs?.exchange, topEnd: repairs?.topEnd, bottomEnd: repairs?.bottomEnd },
    };
    const news = (workshop: typeof was) =>
      priceNews(
        { ...before, workshop: was },
        { ...inputsOf([inputUnit("A", { model: same as typeof petrol })]), workshop },
      );
    expect(news(written)).toEqual([]);
    expect(news({ ...written, labourRate: 66, depots: was.depots })).toEqual(["labour rate from 60 to 66"]);
    const dearer = workshopSchema.parse({
      ...written,
      unitClasses: { van: { dayOff: 170 } },
      depots: { Lowmarsh: { bays: 2, labourRate: 70 } },
    });
    expect(news(dearer)).toEqual([
      "a day out of service of the class van from 150 to 170",
      "labour rate at Lowmarsh from 60 to 70",
      "workshop of Lowmarsh",
    ]);
    const all = workshopSchema.parse({ ...was, anyClass: { failureExtra: 500 } });
    expect(news(all)).toEqual(["extra cost of a failure from 0 to 500"]);
  });

  it("the plan, where a repair is booked otherwise", () => {
    const booking = (start: string): KeptBudgetBooking => ({
      unit: "A",
      scope: "top-end",
      start,
      downtime: 60_000,
      isPinned: false,
    });
    const was = inputsOf([inputUnit("A"), ...others], { bookings: [booking("2027-06-28")] });
    const now = inputsOf([inputUnit("A"), ...others], { bookings: [booking("2027-07-05")] });
    const [step, ...rest] = moved(between(was, now));
    expect(rest).toEqual([]);
    expect(step?.units.map(({ because }) => because)).toEqual([["top-end moved from 28 Jun 2027 to 5 Jul 2027"]]);
    expect(step?.expected).toBeLessThan(0);
  });
});

describe("a bridge of a unit that several causes moved", () => {
  const tests = [...(sign.basis?.tests ?? []), newTest];
  const limits = { ...(sign.basis as AssessmentBasis).limits, minimumKpa: 950 } as NonNullable<
    AssessmentBasis["limits"]
  >;
  const soonest = { pastLimit: chances(july, { topEnd: 2, bottomEnd: 20 }) };
  const now = inputsOf([inputUnit("A", soonest, signed({ tests, limits })), ...others]);
  const { outlook } = inputUnit("A", sooner);
  const bridged = (mixed?: MixedForecasts) => budgetBridge(drawn(before), drawn(now), { year, mixed }) as BudgetBridge;
  const stage = (cause: ForecastCause) => new Map([["A", new Map([[cause, outlook]])]]);

  it("puts in one after the other what it was assessed with in between", () => {
    const [byTests, byLimits, ...rest] = moved(bridged(stage("tests")));
    expect(rest).toEqual([]);
    expect([byTests?.cause, byLimits?.cause]).toEqual(["tests", "limits"]);
    const [alone] = moved(withA(inputUnit("A", sooner, signed({ tests }))));
    expect(byTests?.units).toEqual(alone?.units);
    expect(byTests).toMatchObject({ expected: alone?.expected, p50: alone?.p50, p80: alone?.p80 });
    expect(byLimits?.units[0]?.because).toEqual(["minimum compression from 900 to 950 kPa"]);
    const [together] = moved(bridged());
    expect((byTests?.expected ?? 0) + (byLimits?.expected ?? 0)).toBe(together?.expected);
  });

  it("tells what cannot be undone with the next cause that can, by its words too", () => {
    const stopped = { tests, perDay: 140, status: "stopped" as const };
    const last = inputsOf([inputUnit("A", { ...soonest, status: "stopped" }, signed(stopped)), ...others]);
    const mixed = new Map([["A", new Map([["use" as const, outlook]])]]);
    const { steps } = budgetBridge(drawn(before), drawn(last), { year, mixed }) as BudgetBridge;
    const because = (cause: string) => steps.find((step) => step.cause === cause)?.units[0]?.because;
    expect(because("tests")).toBeUndefined();
    expect(because("use")).toEqual(["new leak-down test on 1 Jul 2026", "use rose from 700 to 980 km a week"]);
    expect(because("disposals")).toEqual(["taken out of service"]);
  });

  it("tells what no cause of it was told apart from as done together", () => {
    const [step, ...rest] = moved(bridged(new Map([["A", new Map()]])));
    expect(rest).toEqual([]);
    expect(step).toMatchObject({
      cause: "unexplained",
      rest: 0,
      units: [{ unit: "A", because: ["minimum compression from 900 to 950 kPa", "new leak-down test on 1 Jul 2026"] }],
    });
  });
});

describe("a bridge over some months", () => {
  const standing = { depot: "Lowmarsh", engineModel: petrol.id };
  const repair: RecordedRepair = {
    ...standing,
    unit: "A",
    date: "2026-08-03",
    scope: "top-end",
    cost: 1_420,
    labourHours: 12,
  };
  const later = (units: readonly InputUnit[], repairs: readonly RecordedRepair[]) =>
    inputsOf(units, { asOf: september, repairs, workshop: before.workshop });

  it("has in both ends what was spent in the year by then", () => {
    const { from, to } = between(before, later([inputUnit("A"), ...others], [repair]));
    expect([from.spent, to.spent]).toEqual([0, 142_000]);
  });

  it("puts a repaired unit's money down to its repair, and other units' to the days that went by", () => {
    const sound = { pastLimit: chances(september, { topEnd: 200, bottomEnd: 200 }) };
    const { steps } = between(before, later([inputUnit("A", sound), ...others], [repair]));
    const of = (cause: string) => steps.find((step) => step.cause === cause);
    expect(of("repairs")?.units.map(({ unit, because }) => [unit, because])).toEqual([
      ["A", ["top-end repair on 3 Aug 2026"]],
    ]);
    expect(of("time")?.because).toEqual(["76 days went by"]);
    expect(of("time")?.units.map(({ unit }) => unit)).not.toContain("A");
    expect(moved({ steps } as BudgetBridge).map(({ cause }) => cause)).toEqual(["repairs", "time"]);
  });

  it("puts nothing down to prices of which nobody told anything", () => {
    const prices = (priceDate: string | null) => {
      const workshop = workshopSchema.parse({ fiscalYearStartMonth: 7, priceDate, partsGrowthPercent: 6 });
      const then = [inputUnit("A", { pastLimit: chances(september, { topEnd: 8, bottomEnd: 18 }) })];
      const { steps } = between(inputsOf([inputUnit("A")], { workshop }), { ...later(then, []), workshop });
      return steps.find(({ cause }) => cause === "prices");
    };
    expect(prices(july)).toMatchObject({ expected: 0, because: [] });
    const begunAnew = prices(null);
    expect(begunAnew?.expected).toBeLessThan(0);
    expect(begunAnew?.because).toEqual(["no price date told: prices are those of each budget’s own day"]);
  });

  it("says where a repair's cost was not recorded", () => {
    const { steps } = between(before, later([inputUnit("A"), ...others], [{ ...repair, cost: null }]));
    expect(steps[0]?.units[0]?.because).toEqual(["top-end repair on 3 Aug 2026, its cost not recorded"]);
  });
});

describe("a bridge", () => {
  it("tells what another seed draws as not explained", () => {
    const [from, to] = [drawn(before), drawn(before, 4)];
    const { steps } = budgetBridge(from, to, { year }) as BudgetBridge;
    const difference = (of: "expected" | "p50" | "p80") =>
      (to.document.fiscalYears[0]?.[of] ?? 0) - (from.document.fiscalYears[0]?.[of] ?? 0);
    expect(difference("expected")).not.toBe(0);
    const [expected, p50, p80] = [difference("expected"), difference("p50"), difference("p80")];
    expect(steps.at(-1)).toMatchObject({ cause: "unexplained", expected, p50, p80 });
    expect(moved({ steps } as BudgetBridge).map(({ cause }) => cause)).toEqual(["unexplained"]);
  });

  it("tells as the model's what this program draws otherwise of the earlier inputs, whatever the seed", () => {
    const from = drawn(before);
    const fiscalYears = from.document.fiscalYears.map((one) => ({ ...one, expected: one.expected - 1_000 }));
    const kept = { ...from, document: { ...from.document, fiscalYears } };
    for (const seed of [3, 4]) {
      const { steps } = budgetBridge(kept, drawn(before, seed), { year }) as BudgetBridge;
      expect(steps.find(({ cause }) => cause === "model")?.expected).toBe(1_000);
    }
  });

  it("is not made between currencies, backwards, or of a year that one of them has not", () => {
    const euro = inputsOf(others, { workshop: workshopSchema.parse({ ...before.workshop, currency: "EUR" }) });
    expect(budgetBridge(drawn(before), drawn(euro), { year })).toBe("other-currency");
    expect(budgetBridge(drawn(inputsOf(others, { asOf: september })), drawn(before), { year })).toBe("earlier");
    expect(budgetBridge(drawn(before), drawn(before), { year: "2025/26" })).toBe("other-year");
    const calendar = inputsOf(others, { workshop: workshopSchema.parse({ fiscalYearStartMonth: 1 }) });
    expect(budgetBridge(drawn(before), drawn(calendar), { year })).toBe("other-year");
  });
});
