import loadHighs from "highs";
import { describe, expect, it } from "vitest";
import type { BudgetInputs } from "../../../lib/budget/inputs.ts";
import { runScenario } from "../../../lib/budget/scenario.ts";
import { modelOfScenario } from "../../../lib/budget/scenario-inputs.ts";
import { makePlan } from "../../../lib/plan/make-plan.ts";
import { planProblemOf } from "../../../lib/plan/problem-of.ts";
import type { PlanProblem } from "../../../lib/plan/types.ts";
import type { ScenarioChange, ScenarioResult, ScenarioYear } from "../../../lib/schema/scenario.ts";
import { workshopSchema } from "../../../lib/schema/workshop.ts";
import { chances, inputsOf, inputUnit, petrol } from "./inputs.ts";

const highs = await loadHighs();
let ticks = 0;
const plan = (problem: PlanProblem) =>
  makePlan(highs, problem, { clock: () => ticks++ / 1_000, gap: 0, seconds: 60, onProgress: () => true });

const asOf = "2026-07-01";
const sure = (topEnd: number) =>
  chances(asOf, { topEnd, bottomEnd: 300 }).map((one) => ({ ...one, topEnd: Math.min(1, 2 * one.topEnd) }));
const unplanned = inputsOf([
  inputUnit("A", { pastLimit: sure(5) }),
  inputUnit("B", { pastLimit: sure(8), depot: "Highcol" }),
  inputUnit("C", { pastLimit: sure(14) }),
]);
const withPlan = (inputs: BudgetInputs, pinned: readonly string[] = []): BudgetInputs => {
  const { problem } = planProblemOf(
    inputs.units.map(({ outlook }) => outlook),
    inputs.workshop,
    { asOf, dropped: inputs.dropped },
  );
  const bookings = plan(problem).bookings.map(({ unit, scope, start, cost }) => {
    return { unit, scope, start, downtime: cost.downtime, isPinned: pinned.includes(unit) };
  });
  return { ...inputs, bookings };
};
const base = withPlan(unplanned);
const run = (change: ScenarioChange, of = base, reassessed: BudgetInputs["units"] = []): ScenarioResult => {
  const outlooks = reassessed.map(({ outlook }) => outlook);
  const made = runScenario(of, change, { seed: 3, draws: 1_000, plan, reassessed: outlooks });
  if (!made.ok) throw new Error(made.error.code);
  return made.value;
};
const sum = (years: readonly ScenarioYear[], of: Exclude<keyof ScenarioYear, "name">) =>
  years.reduce((total, year) => total + year[of], 0);
const codeOf = (change: ScenarioChange) => {
  const made = runScenario(base, change, { seed: 3, draws: 1_000, plan, reassessed: [] });
  return made.ok ? null : made.error.code;
};

describe("a what-if", () => {
  it("has a base whose plan books what falls due", () => {
    expect(base.bookings.map(({ unit }) => unit).toSorted()).toEqual(["A", "B"]);
  });

  it("of postponing puts repairs off, and pays in failures", () => {
    const told = run({ kind: "postpone", months: 6 });
    expect(told.moves.map(({ unit, to }) => [unit, (to?.start ?? "") > "2026-12-01"])).toEqual([
      ["A", true],
      ["B", true],
    ]);
    expect(sum(told.scenario, "failures")).toBeGreaterThan(sum(told.base, "failures") + 0.3);
    expect(sum(told.scenario, "unplanned")).toBeGreaterThan(sum(told.base, "unplanned"));
    expect(told.moves.every(({ pastLimit }) => (pastLimit ?? 0) > 0)).toBe(true);
  });

  it("of postponing leaves pinned repairs where they are", () => {
    const pinned = { ...base, bookings: base.bookings.map((one) => ({ ...one, isPinned: one.unit === "A" })) };
    expect(run({ kind: "postpone", months: 3 }, pinned).moves.map(({ unit }) => unit)).toEqual(["B"]);
  });

  it("of postponing pays for days off the road what they cost in the new weeks, once the workshop is open", () => {
    const sound = inputUnit("A", { pastLimit: chances(asOf, { topEnd: 300, bottomEnd: 300 }), unitClass: "van" });
    const booking = { unit: "A", scope: "top-end", start: "2026-08-03", downtime: 60_000, isPinned: false } as const;
    const peaks = [{ unitClass: "van", firstWeek: 1, lastWeek: 8 }];
    const closed = { kind: "closed", repeat: "once", firstDate: "2026-11-02", lastDate: "2026-11-15", remarks: null };
    const workshop = workshopSchema.parse({ ...base.workshop, peaks, depots: { Lowmarsh: { periods: [closed] } } });
    const of = inputsOf([sound], { workshop, bookings: [booking] });
    const put = (months: number) => {
      const { scenario, moves } = run({ kind: "postpone", months }, of);
      return [moves[0]?.to?.start, sum(scenario, "downtime")];
    };
    // Four days at 150, doubled in peak weeks.
    expect(sum(run({ kind: "postpone", months: 1 }, of).base, "downtime")).toBe(60_000);
    expect(put(6)).toEqual(["2027-02-08", 120_000]);
    expect(put(9)).toEqual(["2027-05-03", 60_000]);
    expect(put(3)).toEqual(["2026-11-16", 60_000]);
    expect(put(18)).toEqual(["2028-02-07", 120_000]);
  });

  it("of capacity cut off books nothing at that depot", () => {
    const told = run({ kind: "capacity", percent: 100, depot: "Lowmarsh" });
    expect(told.moves.map(({ unit, to }) => [unit, to])).toEqual([["A", null]]);
    expect(run({ kind: "capacity", percent: 1, depot: null }).moves).toEqual([]);
  });

  it("of a small cut lets long jobs at a depot of one bay last longer, and fails nobody", () => {
    const repairs = { topEnd: { labourHours: 30, parts: 900, downtimeDays: 7, unplannedFactor: 1.6 } };
    const long = { ...petrol, repairs } as typeof petrol;
    const of = withPlan(inputsOf([inputUnit("A", { pastLimit: sure(5), model: long })]));
    const whole = (percent: number) => {
      const told = run({ kind: "capacity", percent, depot: null }, of);
      return { booked: told.moves.every(({ to }) => to !== null), failures: sum(told.scenario, "failures") };
    };
    const none = sum(run({ kind: "capacity", percent: 0.001, depot: null }, of).base, "failures");
    for (const percent of [1, 5, 10, 30]) {
      expect(whole(percent).booked).toBe(true);
      expect(whole(percent).failures).toBeLessThan(none + 0.1);
    }
    expect(whole(100).booked).toBe(false);
    expect(whole(100).failures).toBeGreaterThan(none + 0.5);
  });

  it("of a depot that is shut tells what can be booked nowhere, also of units that were not booked, and why", () => {
    const told = run({ kind: "capacity", percent: 100, depot: "Lowmarsh" });
    expect(told.moves.map(({ unit, loss }) => [unit, loss])).toEqual([["A", { why: "shut", depot: "Lowmarsh" }]]);
    const [shut] = told.shut ?? [];
    expect(shut).toMatchObject({ depot: "Lowmarsh", units: ["A", "C"] });
    expect(shut?.base).toBeGreaterThan(0);
    // C is booked in neither: it is not repaired after its limit as if its workshop were open, but fails.
    const alone = { ...base, units: base.units.filter(({ outlook }) => outlook.unit === "C"), bookings: [] };
    const failing = run({ kind: "capacity", percent: 100, depot: "Lowmarsh" }, alone);
    expect(sum(failing.scenario, "failures")).toBeGreaterThan(sum(failing.base, "failures") + 0.3);
    expect(run({ kind: "capacity", percent: 50, depot: "Lowmarsh" }).shut).toEqual([]);
  });

  it("names what a repair that lost its booking lacks", () => {
    const worn = [..."ABCDEFGHIJKLMNOP"].map((unit) => inputUnit(unit, { pastLimit: sure(3) }));
    const of = withPlan(inputsOf(worn, { workshop: workshopSchema.parse({ ...base.workshop, planWeeks: 26 }) }));
    const lost = run({ kind: "capacity", percent: 75, depot: null }, of).moves.filter(({ to }) => to === null);
    expect(lost.length).toBeGreaterThan(0);
    const [one] = lost.flatMap(({ loss }) => (loss?.why === "no-room" ? [loss] : []));
    expect(one).toMatchObject({ depot: "Lowmarsh", lacks: expect.arrayContaining(["bay-days"]) });
    expect(one?.extra).toBeGreaterThan(0);
  });

  it("of postponing tells the risk at the new week, and puts off what is not booked as well", () => {
    const told = run({ kind: "postpone", months: 6 });
    for (const { pastLimit, pastLimitNow } of told.moves) expect(pastLimitNow).toBeGreaterThan(pastLimit ?? 1);
    const unbooked = { ...base, bookings: [] };
    const put = run({ kind: "postpone", months: 6 }, unbooked);
    expect(put.moves).toEqual([]);
    expect(sum(put.scenario, "failures")).toBeGreaterThan(sum(put.base, "failures") + 0.3);
  });

  it("of more use brings repairs into the first year, of less use puts them off", () => {
    const cost = (percent: number) => {
      const told = run({ kind: "use", percent });
      return (told.scenario[0]?.expected ?? 0) - (told.base[0]?.expected ?? 0);
    };
    expect(cost(50)).toBeGreaterThan(0);
    expect(cost(-50)).toBeLessThan(0);
    expect(cost(0)).toBe(0);
  });

  it("of more use is told with its base until its forecasts end, and not as if nothing were due after that", () => {
    const workshop = workshopSchema.parse({ ...base.workshop, budgetMonths: 36 });
    const sister = inputUnit("D", { pastLimit: chances(asOf, { topEnd: 30, bottomEnd: 300 }) });
    const of = withPlan({ ...unplanned, workshop, units: [...unplanned.units, sister] });
    const told = run({ kind: "use", percent: 100 }, of);
    // Sixty months of forecast at twice the use: the 30th month is not whole.
    expect(told.lastMonth).toBe("2028-11");
    const months = (count: number) =>
      run({ kind: "use", percent: 0 }, { ...of, workshop: { ...workshop, budgetMonths: count } });
    expect(told.base.map(({ name }) => name)).toEqual(["2026/27", "2027/28", "2028/29"]);
    expect(told.base).toEqual(months(29).base);
    expect(months(36).lastMonth).toBeNull();
    expect(sum(told.base, "expected")).toBeLessThan(sum(months(36).base, "expected"));
  });

  it("is cut where the base's own forecasts end; of a unit that is sold by then none is asked", () => {
    const short = (disposalDate: string | null) => {
      const pastLimit = sure(5).slice(0, 13);
      return { ...base, units: [...base.units, inputUnit("D", { pastLimit, disposalDate })] };
    };
    expect(run({ kind: "postpone", months: 1 }, short(null))).toMatchObject({
      lastMonth: "2027-06",
      base: [{ name: "2026/27" }],
      scenario: [{ name: "2026/27" }],
    });
    expect(run({ kind: "postpone", months: 1 }, short("2027-05-01")).lastMonth).toBeNull();
  });

  it("that is planned anew stands beside a base planned anew, and tells what that alone would change", () => {
    const change = { kind: "capacity", percent: 0.001, depot: null } as const;
    expect(run(change).replanned).toEqual({ expected: 0, moves: 0 });
    // Booked elsewhere than a new plan would have it: not the change's doing.
    const late = { ...base, bookings: base.bookings.map((one) => ({ ...one, start: "2027-05-03" })) };
    const told = run(change, late);
    expect(told.moves).toEqual([]);
    expect(told.scenario).toEqual(told.base);
    const asBooked = run({ kind: "postpone", months: 1 }, late);
    expect(told.replanned).toEqual({ expected: sum(told.base, "expected") - sum(asBooked.base, "expected"), moves: 2 });
    expect(told.replanned?.expected).not.toBe(0);
    expect(asBooked.replanned).toBeNull();
  });

  it("of running to the limit books no top end, and saves those that were not needed", () => {
    const early = { ...base, bookings: base.bookings.map((one) => ({ ...one, start: "2026-08-03" })) };
    const told = run({ kind: "run-to-limit" }, early);
    expect(told.moves.map(({ unit, to }) => [unit, to])).toEqual([
      ["A", null],
      ["B", null],
    ]);
    expect(sum(told.base, "failures")).toBeLessThan(sum(told.scenario, "failures"));
  });

  it("of running to the limit leaves pinned top ends and those past their limit as booked, and names them", () => {
    const met = chances(asOf, { topEnd: -300, bottomEnd: 300 }).map((one) => ({ ...one, topEnd: 0.8 }));
    const units = [...unplanned.units, inputUnit("P", { pastLimit: met })];
    const booked = (unit: string, isPinned: boolean) => ({
      unit,
      scope: "top-end" as const,
      start: "2026-08-03",
      downtime: 0,
      isPinned,
    });
    const of = { ...base, units, bookings: [booked("A", true), booked("B", false), booked("P", false)] };
    const told = run({ kind: "run-to-limit" }, of);
    expect(told.moves.map(({ unit, to }) => [unit, to])).toEqual([["B", null]]);
    expect(told.stays).toEqual([
      { unit: "A", scope: "top-end", start: "2026-08-03", why: "pinned" },
      { unit: "P", scope: "top-end", start: "2026-08-03", why: "past-limit" },
    ]);
    // What stays costs what it costs in the base: B alone is another one.
    const without = (all: typeof of) => ({ ...all, units: all.units.filter(({ outlook }) => outlook.unit !== "B") });
    const alone = run({ kind: "run-to-limit" }, { ...without(of), bookings: [booked("A", true), booked("P", false)] });
    expect(alone.scenario).toEqual(alone.base);
    expect(run({ kind: "postpone", months: 3 }, of).stays?.map(({ unit }) => unit)).toEqual(["A"]);
    // What moves nothing like them leaves nothing behind.
    expect(run({ kind: "use", percent: -10 }, of).stays).toEqual([]);
  });

  it("of a limit is drawn from the units assessed under it", () => {
    const change = { kind: "limit", engineModel: petrol.id, of: "leak-down", by: -8 } as const;
    const model = modelOfScenario(base, change);
    expect(model.ok && model.value?.leakDown).toMatchObject({ watchPercent: 15, planPercent: 20, limitPercent: 20 });
    const sooner = base.units.map(({ outlook, sign }) => ({ outlook: { ...outlook, pastLimit: sure(2) }, sign }));
    const told = run(change, base, sooner);
    expect(told.scenario[0]?.expected).toBeGreaterThan(told.base[0]?.expected ?? 0);
    expect(told.moves.map(({ unit }) => unit)).toContain("C");
  });

  it("of an engine bought adds its price to all amounts of its year alike", () => {
    const workshop = workshopSchema.parse({ ...base.workshop, anyDepot: { builders: 0 } });
    const of = withPlan({ ...unplanned, workshop });
    const change = { kind: "exchange", engineModel: petrol.id, count: 1, price: 2_000, month: "2027-08" } as const;
    const told = run(change, of);
    expect(told.bought).toBe(200_000);
    const bought = run({ ...change, price: 0 }, of);
    for (const at of ["expected", "p50", "p80", "p95"] as const) {
      expect(told.scenario.map((year, i) => year[at] - (bought.scenario[i]?.[at] ?? 0))).toEqual([0, 200_000, 0]);
    }
  });

  it("of an engine bought puts it in from its month on, not before", () => {
    const workshop = workshopSchema.parse({ ...base.workshop, anyDepot: { builders: 0 } });
    const worn = chances(asOf, { topEnd: 300, bottomEnd: 2 }).map((one) => ({ ...one, bottomEnd: 2 * one.bottomEnd }));
    const of = withPlan(inputsOf([inputUnit("A", { pastLimit: worn })], { workshop }));
    const engine = { kind: "exchange", engineModel: petrol.id, count: 1, price: 0 } as const;
    const starts = (month: string) =>
      run({ ...engine, month }, of).moves.flatMap(({ to }) => (to?.scope === "exchange" ? [to.start] : []));
    expect(starts("2026-07")[0]).toMatch(/^2026-0[78]/);
    expect(starts("2026-10")[0]).toMatch(/^2026-1/);
    // After the plan's last week.
    expect(starts("2028-06")).toEqual([]);
  });

  it("is refused where there is nothing to change", () => {
    const exchange = { kind: "exchange", engineModel: petrol.id, count: 1, price: 0, month: "2031-01" } as const;
    expect(codeOf(exchange)).toBe("month-outside");
    expect(codeOf({ ...exchange, engineModel: "other" })).toBe("unknown-model");
    expect(codeOf({ kind: "capacity", percent: 10, depot: "Nowhere" })).toBe("unknown-depot");
    expect(codeOf({ kind: "limit", engineModel: "other", of: "leak-down", by: 1 })).toBe("unknown-model");
    expect(codeOf({ kind: "limit", engineModel: petrol.id, of: "leak-down", by: 80 })).toBe("limit-out-of-range");
  });
});
