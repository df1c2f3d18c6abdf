import loadHighs from "highs";
import { describe, expect, it } from "vitest";
import { amendedPlan, type ChosenUnit } from "../../../lib/plan/amended.ts";
import { canWait, costOfLeaving } from "../../../lib/plan/can-wait.ts";
import { comparePlans } from "../../../lib/plan/compare-plans.ts";
import { keptPlan } from "../../../lib/plan/keep-plan.ts";
import { makePlan } from "../../../lib/plan/make-plan.ts";
import { dropCost, dropped, type MoveGround, moveTo, pinned, splitInTwo } from "../../../lib/plan/moves.ts";
import { overloadsOf } from "../../../lib/plan/overloads.ts";
import { repairKey, stillBooked } from "../../../lib/plan/still-booked.ts";
import { totalOf } from "../../../lib/plan/types.ts";
import type { RepairFact } from "../../../lib/schema/facts.ts";
import type { KeptBooking, PlanScope } from "../../../lib/schema/kept-plan.ts";
import { workshopSchema } from "../../../lib/schema/workshop.ts";
import { both, closedWeek, need, outlookNamed, planUnit, problemOf, topEnd, weeksOf } from "./problem.ts";

const highs = await loadHighs();

const workshop = workshopSchema.parse({});
const unit = planUnit("V-1", { needs: [need("topEnd", 20, 5), need("bottomEnd", 30, 8)] });
const problem = problemOf([unit, planUnit("V-2", { needs: [need("topEnd", 20, 5), need("bottomEnd", 30, 8)] })]);
const chosenOutlook = outlookNamed("V-1");
const frame = { firstMonday: problem.firstMonday, weeks: problem.weeks };
const plan = { depots: problem.depots, weeks: problem.weeks };

function booked(name: string, scope: PlanScope, week: number): KeptBooking {
  const at = canWait(problem, name).find((one) => one.scope === scope && one.week === week);
  if (at === undefined) throw new Error("no such week");
  const { start, work, cost, span } = at;
  return {
    unit: name,
    depot: "Lowmarsh",
    scope,
    week,
    start,
    work,
    cost,
    span,
    isPinned: false,
    engineModel: "petrol-4-a",
    sure: null,
    windows: [],
  };
}

const ground = (bookings: readonly KeptBooking[], choices: MoveGround["choices"] = []): MoveGround => ({
  choices,
  unit: "V-1",
  depot: "Lowmarsh",
  weeks: canWait(problem, "V-1"),
  leaving: costOfLeaving(problem, "V-1"),
  bookings,
  plan,
  workshop,
});

describe("a move of a booking", () => {
  it("costs what the other week costs more, part by part", () => {
    const was = booked("V-1", "top-end", 14);
    const is = booked("V-1", "top-end", 30);
    const move = moveTo(ground([was]), "top-end", is.start);
    expect(move?.extra).toBeCloseTo(totalOf(is.cost) - totalOf(was.cost), 9);
    expect(move?.after.early).toBeCloseTo(is.cost.early, 9);
    expect(move?.chosen).toEqual([{ unit: "V-1", scope: "top-end", date: is.start }]);
    const back = moveTo(ground([is]), "top-end", was.start);
    expect((move?.extra ?? 0) + (back?.extra ?? 0)).toBeCloseTo(0, 6);
  });

  it("of what was not booked is weighed against leaving it", () => {
    const at = booked("V-1", "top-end", 14);
    const move = moveTo(ground([]), "top-end", at.start);
    const leaving = costOfLeaving(problem, "V-1").topEnd;
    expect(move?.extra).toBeCloseTo(totalOf(at.cost) - totalOf(leaving ?? at.cost), 6);
    expect(move?.extra).toBeLessThan(0);
  });

  it("is not possible before the parts are there", () => {
    expect(moveTo(ground([]), "top-end", problem.firstMonday)).toBeNull();
  });

  it("tells where it then is too much, by how much, and not what was too much before", () => {
    const other = booked("V-2", "bottom-end", 14);
    const move = moveTo(ground([other]), "bottom-end", other.start);
    const bays = move?.overloads.find(({ resource }) => resource.kind === "bay-days");
    expect(bays).toMatchObject({ resource: { depot: "Lowmarsh", week: 14 }, capacity: 5, used: 10 });
    const isThere = ground([other, booked("V-1", "bottom-end", 14)]);
    expect(moveTo(isThere, "bottom-end", other.start)?.overloads).toEqual([]);
  });

  it("splits both ends in two, the bottom end after the top end in its cheapest week", () => {
    const was = booked("V-1", "both", 14);
    const split = splitInTwo(ground([was]), was);
    expect(split?.chosen.map(({ scope }) => scope)).toEqual(["top-end", "bottom-end"]);
    const [top, bottom] = split?.chosen ?? [];
    expect(top?.date).toBe(was.start);
    const weeks = canWait(problem, "V-1").filter(({ scope, week }) => scope === "bottom-end" && week > 14);
    const least = Math.min(...weeks.map(({ cost }) => totalOf(cost)));
    expect(weeks.find(({ start }) => start === bottom?.date)?.cost).toSatisfy((cost) => totalOf(cost) === least);
    expect(splitInTwo(ground([booked("V-1", "top-end", 14)]), { scope: "top-end", start: was.start })).toBeNull();
  });

  it("that takes one end of two leaves the other", () => {
    const was = booked("V-1", "both", 14);
    const top = booked("V-1", "top-end", 14);
    const move = moveTo(ground([was]), "top-end", top.start);
    const left = costOfLeaving(problem, "V-1").bottomEnd;
    expect(totalOf(move?.after ?? top.cost)).toBeCloseTo(totalOf(top.cost) + totalOf(left ?? top.cost), 6);
  });

  it("drops a booking at the cost of leaving it, and keeps the unit's other pin", () => {
    const top = { ...booked("V-1", "top-end", 14), isPinned: true };
    const bottom = booked("V-1", "bottom-end", 30);
    const pin = { unit: "V-1", scope: "top-end", date: top.start } as const;
    const drop = dropped(ground([top, bottom], [pin]), bottom);
    expect(drop.chosen).toEqual([
      { unit: "V-1", scope: "top-end", date: top.start },
      { unit: "V-1", scope: "bottom-end", date: null },
    ]);
    expect(drop.extra).toBeCloseTo(
      totalOf(costOfLeaving(problem, "V-1").bottomEnd ?? bottom.cost) - totalOf(bottom.cost),
      6,
    );
  });

  it("tells afterwards what a drop costs: against the week that was booked, else the cheapest", () => {
    const was = booked("V-1", "top-end", 14);
    const weeks = canWait(problem, "V-1");
    const about = { weeks, leaving: costOfLeaving(problem, "V-1") };
    expect(dropCost(about, "top-end", was.start)).toEqual({
      week: was.start,
      extra: dropped(ground([was]), was).extra,
    });
    const { start, extra } = weeks.find(
      (week) => week.scope === "top-end" && week.extra === 0,
    ) as (typeof weeks)[number];
    expect(extra).toBe(0);
    expect(dropCost(about, "top-end", null)?.week).toBe(start);
    expect(dropCost({ ...about, weeks: [] }, "top-end", null)).toBeNull();
  });

  it("holds on to what was chosen for the unit's other class: a drop as well, and when it is pinned or moved", () => {
    const drop = { unit: "V-1", scope: "top-end", date: null } as const;
    const bottom = booked("V-1", "bottom-end", 30);
    const held = ground([bottom], [drop]);
    expect(dropped(held, bottom).chosen).toEqual([drop, { unit: "V-1", scope: "bottom-end", date: null }]);
    expect(pinned(held, bottom)).toEqual([drop, { unit: "V-1", scope: "bottom-end", date: bottom.start }]);
    const later = booked("V-1", "bottom-end", 34);
    expect(moveTo(held, "bottom-end", later.start)?.chosen).toEqual([
      drop,
      { unit: "V-1", scope: "bottom-end", date: later.start },
    ]);
    // Both together takes the place of either.
    const both = booked("V-1", "both", 34);
    expect(moveTo(held, "both", both.start)?.chosen).toEqual([{ unit: "V-1", scope: "both", date: both.start }]);
  });
});

describe("a plan with what was chosen since", () => {
  const bookings = [booked("V-1", "both", 14), booked("V-2", "top-end", 16)];
  const chosenUnit: ChosenUnit = {
    outlook: chosenOutlook,
    depot: "Lowmarsh",
    weeks: canWait(problem, "V-1"),
  };

  it("stands as it was made where nobody chose anything", () => {
    expect(amendedPlan({ ...frame, bookings }, [], () => undefined)).toMatchObject({
      bookings,
      changed: 0,
      impossible: [],
    });
  });

  it("moves what was pinned elsewhere, in place of all of it that the pins put right, and nothing else", () => {
    const top = booked("V-1", "top-end", 20);
    const bottom = booked("V-1", "bottom-end", 40);
    const choices = [top, bottom].map(({ unit: name, scope, start }) => ({ unit: name, scope, date: start }));
    const amended = amendedPlan({ ...frame, bookings }, choices, () => chosenUnit);
    expect(amended.bookings.map(({ unit: name, scope, week, isPinned }) => [name, scope, week, isPinned])).toEqual([
      ["V-2", "top-end", 16, false],
      ["V-1", "top-end", 20, true],
      ["V-1", "bottom-end", 40, true],
    ]);
    expect(amended.changed).toBe(1);
  });

  it("tells of a booking that was moved how sure its class is and its windows as the plan did, and of a new one within the plan", () => {
    const windows = [{ of: "topEnd", p10: "2026-10-20", p50: "2026-11-09", p90: "2027-02-14" }] as const;
    const made = { ...booked("V-1", "top-end", 14), sure: 0.98, windows };
    // Over the whole forecast the classes are as likely as each other; within the plan it is the top end, 9 to 1.
    const pastLimit = [
      { date: problem.firstMonday, topEnd: 0, bottomEnd: 0 },
      { date: "2027-08-30", topEnd: 0.45, bottomEnd: 0.05 },
      { date: "2029-09-03", topEnd: 0.5, bottomEnd: 0.5 },
    ];
    const known = { ...chosenUnit, outlook: { ...chosenOutlook, pastLimit } };
    const later = { unit: "V-1", scope: "top-end", date: booked("V-1", "top-end", 20).start } as const;
    const told = (of: readonly KeptBooking[]) =>
      amendedPlan({ ...frame, bookings: of }, [later], () => known).bookings[0];
    expect(told([made])).toMatchObject({ week: 20, sure: 0.98, windows });
    expect(told([])?.sure).toBeCloseTo(0.9, 6);
  });

  it("leaves out what was dropped, and tells a pin that no week allows", () => {
    const drop = { unit: "V-1", scope: "both", date: null } as const;
    expect(amendedPlan({ ...frame, bookings }, [drop], () => chosenUnit).bookings).toHaveLength(1);
    const late = { unit: "V-1", scope: "both", date: "2031-01-06" } as const;
    // It changes nothing: the plan's own booking stays.
    const told = amendedPlan({ ...frame, bookings }, [late], () => chosenUnit);
    expect(told).toMatchObject({ impossible: [late], changed: 0 });
    expect(told.bookings.map(({ unit: name, week }) => [name, week])).toEqual([
      ["V-1", 14],
      ["V-2", 16],
    ]);
  });

  it("compares repair by repair: moved, come in, gone", () => {
    const after = [booked("V-1", "top-end", 20), booked("V-1", "bottom-end", 40)];
    const compared = comparePlans({ bookings }, { bookings: after });
    expect(compared).toMatchObject({ moved: 1, added: 1, gone: 1 });
    expect(comparePlans({ bookings }, { bookings })).toMatchObject({ moved: 0, added: 0, gone: 0 });
  });
});

describe("what stands of a plan on a later day", () => {
  const bookings = [booked("V-1", "both", 14), booked("V-2", "bottom-end", 16)];
  const none = new Set<string>();
  const frame = {
    planAsOf: "2026-09-01",
    plan: { firstMonday: problem.firstMonday, depots: problem.depots },
    asOf: "2027-01-20",
    known: (): ReadonlySet<string> => none,
  };
  const repair = (name: string, scope: RepairFact["scope"], date: string): RepairFact => ({
    unit: name,
    date,
    scope,
    meter: 1,
    cylinders: "all",
    found: [],
    findings: [],
    cost: null,
    labourHours: null,
    downtimeDays: null,
    engineSerial: null,
    remarks: null,
    file: "r.csv",
    line: 2,
  });

  it("closes a booking by a repair that puts any of it right, and tells what of it is left", () => {
    const repairs = [repair("V-1", "top-end", "2026-12-20"), repair("V-2", "top-end", "2026-12-20")];
    const told = stillBooked(bookings, repairs, frame);
    expect(told.made.map(({ booking }) => booking.unit)).toEqual(["V-1"]);
    expect(told.partly).toMatchObject([{ booking: { unit: "V-1" }, left: ["bottomEnd"] }]);
    expect(told.open.map(({ unit: name }) => name)).toEqual(["V-2"]);
    const whole = [...repairs, repair("V-1", "bottom-end", "2026-12-28")];
    expect(stillBooked(bookings, whole, frame).partly).toEqual([]);
  });

  it("closes it by a repair that was put on file late, not by one that was on file, nor by one of long ago", () => {
    const late = repair("V-1", "complete", "2026-08-27");
    expect(stillBooked(bookings, [late], frame).made).toHaveLength(1);
    const known = () => new Set([repairKey(late)]);
    expect(stillBooked(bookings, [late], { ...frame, known }).made).toEqual([]);
    const after = repair("V-1", "complete", "2026-12-27");
    expect(stillBooked(bookings, [late, after], { ...frame, known }).made).toMatchObject([
      { repair: { date: "2026-12-27" } },
    ]);
    expect(stillBooked(bookings, [repair("V-1", "complete", "2024-08-27")], frame).made).toEqual([]);
  });

  it("puts what is overdue into the week of the day, with what it takes of the weeks", () => {
    const { open } = stillBooked(bookings, [], frame);
    expect(open.map(({ week, overdueSince }) => [week, overdueSince])).toEqual([
      [19, bookings[0]?.start],
      [19, bookings[1]?.start],
    ]);
    expect(open[1]?.span.map(({ week }) => week)).toEqual([19, 20]);
    const taken = overloadsOf(open, plan, workshop).find(({ resource }) => resource.kind === "bay-days");
    expect(taken?.resource.week).toBe(19);
    expect(stillBooked(bookings, [], { ...frame, asOf: "2026-09-10" }).open).toEqual(bookings);
  });
});

it("finds what is too much: units out together and spare engines as well", () => {
  const exchange = { ...both, scope: "exchange" as const, needsBuilder: false, spareOf: "petrol-4-a" };
  const two = [booked("V-1", "top-end", 14), booked("V-2", "top-end", 14)];
  const grouped = {
    groups: [{ name: "Route 4", units: ["V-1", "V-2"], mostOut: 1 }],
    spares: { "petrol-4-a": { count: 1, turnaroundWeeks: 3 } },
  };
  expect(overloadsOf(two, plan, grouped).map(({ resource, used }) => [resource.kind, used])).toEqual([
    ["out-together", 2],
  ]);
  const swaps = [14, 16].map((week, i) => ({
    ...booked(i === 0 ? "V-1" : "V-2", "top-end", week),
    work: exchange,
    scope: "exchange" as const,
  }));
  const spare = overloadsOf(swaps, plan, { ...grouped, groups: [] });
  expect(spare.filter(({ resource }) => resource.kind === "spares").map(({ resource }) => resource.week)).toEqual([16]);
});

it("tells of a repair without room what its best week lacks", () => {
  const tight = problemOf(
    [
      planUnit("V-1", { needs: [need("topEnd", 4, 1)], works: [topEnd] }),
      planUnit("V-2", { needs: [need("topEnd", 4, 1)], works: [topEnd] }),
    ],
    {
      depots: [{ depot: "Lowmarsh", weeks: weeksOf(64, (week) => (week === 2 ? { bayDays: 3 } : closedWeek)) }],
    },
  );
  const kept = keptPlan(
    makePlan(highs, tight, { gap: 0, seconds: 60, clock: () => performance.now() / 1000, onProgress: () => true }),
    { problem: tight, leftOut: [], outside: [] },
    { workshop, outlooks: ["V-1", "V-2"].map(outlookNamed) },
  );
  expect(kept.notFitted).toHaveLength(1);
  expect(kept.notFitted[0]?.lacks).toEqual([
    { resource: { kind: "bay-days", depot: "Lowmarsh", week: 2 }, capacity: 3, used: 4 },
  ]);
});
