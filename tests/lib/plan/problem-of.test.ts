import { describe, expect, it } from "vitest";
import { depotWeeks } from "../../../lib/plan/depot-weeks.ts";
import { downtimeCost } from "../../../lib/plan/job-span.ts";
import { loadOf } from "../../../lib/plan/load.ts";
import { orderBy } from "../../../lib/plan/order-by.ts";
import { planProblemOf, type UnitOutlook, weeklyCrossings } from "../../../lib/plan/problem-of.ts";
import type { PlanUnit } from "../../../lib/plan/types.ts";
import { minorUnits, worksOf } from "../../../lib/plan/works-of.ts";
import { type EngineModel, engineModelSchema } from "../../../lib/schema/engine-model.ts";
import { workshopSchema } from "../../../lib/schema/workshop.ts";
import { bottomEnd, problemOf, topEnd } from "./problem.ts";

const model: EngineModel = engineModelSchema.parse({
  id: "petrol-4-a",
  cylinders: 4,
  leakDown: { watchPercent: 10, planPercent: 20, limitPercent: 30 },
  repairs: {
    topEnd: { labourHours: 14, parts: 900, downtimeDays: 3, unplannedFactor: 1.8 },
    bottomEnd: { labourHours: 38, parts: 2600, downtimeDays: 8, unplannedFactor: 2.2, machining: 300 },
    exchange: { labourHours: 12, parts: 3000, downtimeDays: 2 },
  },
});

const outlook = (unit: string, more: Partial<UnitOutlook> = {}): UnitOutlook => ({
  unit,
  depot: "Lowmarsh",
  unitClass: "van",
  status: "in-service",
  model,
  disposalDate: null,
  pastLimit: [
    { date: "2026-09-02", topEnd: 0, bottomEnd: 0.1 },
    { date: "2026-10-02", topEnd: 0.3, bottomEnd: 0.1 },
    { date: "2027-09-02", topEnd: 0.6, bottomEnd: 0.9 },
  ],
  fromModel: [],
  ageDays: { topEnd: 700, bottomEnd: 1400 },
  ...more,
});

const asOf = "2026-09-02";
const workshop = (more: object = {}) => workshopSchema.parse({ labourRate: 50, ...more });
const setUp = (outlooks: readonly UnitOutlook[], more: object = {}) =>
  planProblemOf(outlooks, workshop(more), { asOf, dropped: [] });

describe("a planning problem", () => {
  it("begins on the first Monday from the as-of date on", () => {
    expect(setUp([outlook("V-1")]).problem.firstMonday).toBe("2026-09-07");
    const monday = planProblemOf([], workshop(), { asOf: "2026-09-07", dropped: [] });
    expect(monday.problem.firstMonday).toBe("2026-09-07");
  });

  it("leaves out what it can't plan, and says why", () => {
    const { problem, leftOut } = setUp([
      outlook("A", { status: "retired" }),
      outlook("B", { pastLimit: [] }),
      outlook("C", { depot: null }),
      outlook("D", { model: { ...model, repairs: undefined } }),
      outlook("E"),
    ]);
    expect(problem.units.map(({ unit }) => unit)).toEqual(["E"]);
    expect(leftOut.map(({ unit, why }) => `${unit} ${why}`)).toEqual([
      "A retired",
      "B too-few-tests",
      "C no-depot",
      "D no-costs",
    ]);
  });

  it("takes the costs of the unit's class and of its depot, and those of any where none are told", () => {
    const more = {
      anyClass: { dayOff: 100, runningOnPerWeek: 10, failurePercentPerWeek: 2, failureExtra: 500 },
      unitClasses: { van: { dayOff: 90, peakFactor: 3, runningOnPerWeek: 25, failurePercentPerWeek: 3 } },
      depots: { Highcol: { bays: 1, technicians: 1, labourRate: 70 } },
    };
    const { units } = setUp([outlook("V-1"), outlook("X-1", { unitClass: null, depot: "Highcol" })], more).problem;
    expect(units[0]).toMatchObject({
      dayCost: 9_000,
      peakFactor: 3,
      runningOn: { perWeek: 2_500, failurePerWeek: 0.03, damage: 50_000 },
    });
    expect(units[1]).toMatchObject({
      dayCost: 10_000,
      runningOn: { perWeek: 1_000, failurePerWeek: 0.02, damage: 50_000 },
    });
    expect(units.map(({ works }) => works[0]?.labour)).toEqual([70_000, 98_000]);
  });

  it("takes a depot or a class by its name alone, whatever else every object has by that name", () => {
    const [named, plain] = setUp([outlook("A", { unitClass: "toString", depot: "constructor" }), outlook("B")]).problem
      .units;
    expect({ ...named, unit: "B", depot: "Lowmarsh" }).toEqual(plain);
  });

  it("counts ages and disposal in weeks, and each week of a stopped unit as one out of service", () => {
    const [unit, stopped] = setUp([
      outlook("V-1", { disposalDate: "2026-12-01" }),
      outlook("V-2", { status: "stopped" }),
    ]).problem.units;
    expect(unit?.needs.map(({ ageWeeks, unplannedFactor }) => [ageWeeks, unplannedFactor])).toEqual([
      [100, 1.8],
      [200, 2.2],
    ]);
    expect(unit?.disposalWeek).toBe(12);
    expect(stopped?.runningOn).toEqual({ perWeek: 7 * 15_000, failurePerWeek: 0, damage: 0 });
  });

  it("puts other work, groups and pins into their weeks, and tells pins outside the plan", () => {
    const { problem, outside } = setUp([outlook("V-1"), outlook("V-2")], {
      groups: [{ name: "Route 4", units: ["V-1", "V-9"], mostOut: 1 }],
      otherWork: [{ unit: "V-1", date: "2026-09-23", days: 2 }],
      pins: [
        { unit: "V-1", scope: "top-end", date: "2026-09-16" },
        { unit: "V-2", scope: "top-end", date: "2026-09-01" },
      ],
    });
    expect(problem.units.map(({ groups }) => groups)).toEqual([["Route 4"], []]);
    expect(problem.units[0]?.otherWork).toEqual([{ week: 2, days: 2 }]);
    expect(problem.mostOut).toEqual({ "Route 4": 1 });

    expect(problem.pins).toEqual([{ unit: "V-1", scope: "top-end", week: 1 }]);
    expect(outside).toEqual([{ unit: "V-2", scope: "top-end", date: "2026-09-01" }]);
  });

  it("knows the peak weeks of a unit's class, over the year's end too, in which a day off costs more", () => {
    const peaks = [
      { unitClass: "van", firstWeek: 52, lastWeek: 2 },
      { unitClass: "mower", firstWeek: 40, lastWeek: 45 },
    ];
    const { problem } = planProblemOf([outlook("V-1")], workshop({ peaks }), { asOf, dropped: [] });
    // From 7 September, week 37, on: weeks 52 and 53 of 2026, 1 and 2 of 2027, and 52 of 2027 with the weeks after it.
    const [unit] = problem.units;
    expect([...(unit?.peakWeeks ?? [])].toSorted((a, b) => a - b)).toEqual([15, 16, 17, 18, 68, 69, 70]);
    const span = [{ week: 16, bayDays: 2, hours: 14, daysOff: 3 }];
    const week = problem.depots[0]?.weeks ?? [];
    const usual = downtimeCost(unit as PlanUnit, week, [{ ...span[0]!, week: 14 }]);
    expect(downtimeCost(unit as PlanUnit, week, span)).toBe(2 * usual);
  });

  it("counts other work on the days that it lasts, over the end of a week, and no day twice", () => {
    const otherWork = [
      { unit: "V-1", date: "2026-09-24", days: 7.5 },
      { unit: "V-1", date: "2026-09-25", days: 2 },
      { unit: "V-2", date: "2026-09-25", days: 2 },
    ];
    const { problem } = planProblemOf([outlook("V-1")], workshop({ otherWork }), { asOf, dropped: [] });
    // Thursday to Sunday, then Monday to Wednesday and half of Thursday.
    expect(problem.units[0]?.otherWork).toEqual([
      { week: 2, days: 4 },
      { week: 3, days: 3.5 },
    ]);
  });
});

describe("weekly crossings", () => {
  it("lie straight between the forecast's dates, and stay at its last beyond it", () => {
    const at = (of: "topEnd" | "bottomEnd") =>
      weeklyCrossings(outlook("V-1").pastLimit, of, { firstMonday: "2026-09-07", least: 60 });
    expect(at("topEnd")).toHaveLength(60);
    expect(at("topEnd")[0]).toBeCloseTo((0.3 * 5) / 30, 12);
    expect(at("topEnd")[3]).toBeCloseTo((0.3 * 26) / 30, 12);
    expect(at("topEnd")[4]).toBeCloseTo(0.3 + (0.3 * 3) / 335, 12);
    expect(at("topEnd")[59]).toBe(0.6);
    expect(at("bottomEnd")[0]).toBe(0.1);
  });

  it("are one value where a forecast has one date", () => {
    const only = [{ date: asOf, topEnd: 1, bottomEnd: 0 }];
    expect([...weeklyCrossings(only, "topEnd", { firstMonday: "2026-09-07", least: 3 })]).toEqual([1, 1, 1]);
  });
});

describe("the ways to put an engine right", () => {
  it("make both of the two where the model does not tell it: a share of the top end's labour, all parts", () => {
    const depot = workshop().anyDepot;
    const works = worksOf(model, depot, workshop());
    expect(works.map(({ scope }) => scope)).toEqual(["top-end", "bottom-end", "both"]);
    expect(works[2]).toMatchObject({
      labourHours: 38 + 0.2 * 14,
      labour: Math.round((38 + 0.2 * 14) * 50 * 100),
      parts: 350_000,
      machining: 30_000,
      daysOff: 9,
      leadDays: 20,
      needsBuilder: true,
    });
  });

  it("put in a spare engine where the model tells its cost and there is one", () => {
    const spares = { "petrol-4-a": { count: 1 } };
    const works = worksOf(model, workshop().anyDepot, workshop({ spares }));
    expect(works.at(-1)).toMatchObject({ scope: "exchange", cures: ["topEnd", "bottomEnd"], spareOf: "petrol-4-a" });
  });

  it("stand in the bay at least as long as those who may work on them need", () => {
    const depot = { ...workshop().anyDepot, builders: 1, technicians: 2, productiveHoursPerDay: 6 };
    const [top, bottom] = worksOf(model, depot, workshop());
    // 3 days off the road of which 2 are working days; 38 h of one builder at 6 h a day.
    expect(top?.bayDays).toBe(2);
    expect(bottom?.bayDays).toBe(7);
    // 8 days as told, though 7 working days and the weekend between them take 9.
    expect([top?.daysOff, bottom?.daysOff]).toEqual([3, 9]);
    const [, told] = worksOf(
      {
        ...model,
        repairs: {
          ...model.repairs,
          bottomEnd: { labourHours: 6, parts: 0, downtimeDays: 9, bayDays: 3, unplannedFactor: 1 },
        },
      },
      depot,
      workshop(),
    );
    expect(told?.bayDays).toBe(3);
  });

  it("reckon in the minor units of the currency", () => {
    expect(["EUR", "JPY", "KWD", "XXX"].map(minorUnits)).toEqual([100, 1, 1000, 100]);
  });
});

describe("the weeks of a workshop", () => {
  const week = (kind: "closed" | "peak", firstWeek: number, lastWeek: number) =>
    ({ kind, repeat: "yearly", firstWeek, lastWeek, remarks: null }) as const;
  const depot = {
    ...workshop().anyDepot,
    bays: 2,
    technicians: 3,
    productiveHoursPerDay: 6,
    daysPerWeek: 5,
    builders: 1,
  };
  const at = { firstMonday: "2026-09-07", weeks: 6 };

  it("have bays and hours for the days on which it is open", () => {
    expect(depotWeeks(depot, [], at)[0]).toEqual({
      openDays: 5,
      bayDays: 10,
      hours: 90,
      builderHours: 30,
      peakShare: 0,
    });
  });

  it("have none while it is closed, and part of them in a week that is closed in part", () => {
    const once = {
      kind: "closed",
      repeat: "once",
      firstDate: "2026-09-17",
      lastDate: "2026-09-19",
      remarks: null,
    } as const;
    const weeks = depotWeeks({ ...depot, periods: [week("closed", 39, 40), once] }, [], at);
    // Thursday to Saturday: two of the five working days.
    expect(weeks.map(({ openDays }) => openDays)).toEqual([5, 3, 0, 0, 5, 5]);
    expect(weeks[1]?.bayDays).toBe(6);
  });

  it("tell peak weeks, and what other jobs take", () => {
    const taken = [{ depot: "Lowmarsh", date: "2026-09-10", bayDays: 4, hours: 100, what: "gearbox" }];
    const weeks = depotWeeks({ ...depot, periods: [week("peak", 38, 38)] }, taken, at);
    expect(weeks.map(({ peakShare }) => peakShare)).toEqual([0, 1, 0, 0, 0, 0]);
    expect(weeks[0]).toMatchObject({ bayDays: 6, hours: 0 });
  });
});

describe("a booking", () => {
  it("says by when its parts are to be ordered: so many working days before its Monday", () => {
    const of = (leadDays: number) => orderBy({ start: "2026-10-12", work: { ...topEnd, leadDays } });
    // Mondays are one and three weeks before; Friday the 9th is one working day before.
    expect([0, 1, 4, 5, 8, 15].map(of)).toEqual([
      "2026-10-12",
      "2026-10-09",
      "2026-10-06",
      "2026-10-05",
      "2026-09-30",
      "2026-09-21",
    ]);
  });

  it("adds up with the others to the load of its depot's weeks, within the plan", () => {
    const span = [
      { week: 50, bayDays: 5, hours: 20, daysOff: 7 },
      { week: 51, bayDays: 2, hours: 8, daysOff: 2 },
      { week: 52, bayDays: 1, hours: 4, daysOff: 1 },
    ];
    const cost = { work: 0, downtime: 0, early: 0, late: 0 };
    const booking = {
      unit: "A",
      depot: "Lowmarsh",
      scope: "bottom-end",
      week: 50,
      start: "",
      work: bottomEnd,
      cost,
      span,
      isPinned: false,
    } as const;
    const load = loadOf({ bookings: [booking, { ...booking, unit: "B" }] }, problemOf([]));
    expect(load).toHaveLength(52);
    expect(load.slice(50)).toEqual([
      { depot: "Lowmarsh", week: 50, bayDays: { used: 10, has: 5 }, hours: { used: 40, has: 60 } },
      { depot: "Lowmarsh", week: 51, bayDays: { used: 4, has: 5 }, hours: { used: 16, has: 60 } },
    ]);
  });
});
