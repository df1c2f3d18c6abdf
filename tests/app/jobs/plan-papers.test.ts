import ICAL from "ical.js";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { planAnew } from "@/app/_jobs/plan-anew.ts";
import { unitInPlan } from "@/app/_jobs/plan-now.ts";
import { planCalendarOf, planForPapers, planOutcomes, unitPaper } from "@/app/_jobs/plan-papers.ts";
import { recordFacts } from "@/app/_jobs/record-facts.ts";
import { inThisThread } from "@/app/_jobs/worker/tasks.ts";
import { quoteCases } from "@/app/_ui/plan-papers/quote-cases.ts";
import { unitReport } from "@/db/assessments.ts";
import { repairFacts } from "@/db/facts.ts";
import { chooseForUnit } from "@/db/plan-choices.ts";
import type { Store } from "@/db/store.ts";
import { lastBayDay } from "@/lib/plan/plan-calendar.ts";
import { repairKey } from "@/lib/plan/still-booked.ts";
import { minorUnits } from "@/lib/plan/works-of.ts";
import type { KeptBooking } from "@/lib/schema/kept-plan.ts";
import { repairFact } from "../../lib/sealing/facts.ts";
import { openDemoStore } from "./demo-store.ts";
import { act, newStore } from "./made-up-files.ts";

let store: Store;
let bookings: readonly KeptBooking[];
const { now } = act;
const cardOf = (unit: string) => `/plan/${unit}/card`;

beforeAll(async () => {
  store = await openDemoStore();
  await planAnew(store, act, {}, inThisThread);
  bookings = (await planForPapers(store, now))?.bookings ?? [];
}, 120_000);

afterAll(() => store.close());

const bookedAlone = (): KeptBooking => {
  const found = bookings.find(
    ({ unit, work }) => work.cures.length === 1 && bookings.filter((of) => of.unit === unit).length === 1,
  );
  if (found === undefined) throw new Error("no unit of the demo has one booking of one class");
  return found;
};

const eventsOf = (stream: string) =>
  new ICAL.Component(ICAL.parse(stream)).getAllSubcomponents("vevent").map((component) => new ICAL.Event(component));

it("there is no paper before there is a plan, and a calendar without events", async () => {
  const empty = await newStore();
  expect(await planForPapers(empty, now)).toBeNull();
  expect(await unitPaper(empty, "V-104", { now, scope: undefined })).toEqual({ state: "unknown-unit" });
  expect(eventsOf(await planCalendarOf(empty, now, { depot: null, cardOf }))).toEqual([]);
  expect(await planOutcomes(empty)).toEqual([]);
});

describe("a unit's paper", () => {
  it("is of its booking, or says that there is none", async () => {
    const booking = bookedAlone();
    expect(await unitPaper(store, booking.unit, { now, scope: "exchange" })).toMatchObject({
      state: "booked",
      booking,
      others: [],
    });
    // Never tested.
    expect(await unitPaper(store, "H-306", { now, scope: undefined })).toMatchObject({ state: "not-booked" });
  });

  it("quotes the booked class first, and both classes with chances that come to 1", async () => {
    const booking = bookedAlone();
    const paper = await unitPaper(store, booking.unit, { now, scope: undefined });
    if (paper.state !== "booked") throw new Error("not booked");
    const cases = quoteCases(booking, paper.report.model, paper.plan.row);
    expect(cases[0]).toMatchObject({ scope: booking.scope, isBooked: true, chance: booking.sure });
    expect(new Set(cases.map(({ scope }) => scope))).toEqual(new Set(["top-end", "bottom-end", "both"]));
    expect(cases.reduce((sum, { chance }) => sum + (chance ?? 0), 0)).toBeCloseTo(1, 10);
    for (const { range } of cases) expect(range.total.low).toBeLessThan(range.total.high);
  });
});

describe("the calendar", () => {
  it("has every booking in the weeks of the plan, and of a depot its own alone", async () => {
    const events = eventsOf(await planCalendarOf(store, now, { depot: null, cardOf }));
    expect(events.map(({ startDate }) => startDate.toString())).toEqual(bookings.map(({ start }) => start));
    expect(events.map(({ location }) => location)).toEqual(bookings.map(({ depot }) => depot));
    expect(new Set(events.map(({ uid }) => uid)).size).toBe(bookings.length);
    for (const [i, { endDate }] of events.entries()) {
      endDate.adjust(-1, 0, 0, 0);
      expect(endDate.toString()).toBe(lastBayDay(bookings[i] as KeptBooking));
    }
    const here = eventsOf(await planCalendarOf(store, now, { depot: "Highcol", cardOf }));
    expect(here).toHaveLength(bookings.filter(({ depot }) => depot === "Highcol").length);
  });

  it("tells a pin, and that it was taken back, each under a higher number than what it told before", async () => {
    const { unit, scope, start } = bookedAlone();
    const told = async () => {
      const stream = await planCalendarOf(store, now, { depot: null, cardOf });
      const event = eventsOf(stream).find(({ summary }) => summary.startsWith(`${unit} `));
      return { uid: event?.uid, sequence: event?.sequence ?? 0, pinned: event?.description.includes("Pinned") };
    };
    const before = await told();
    expect(before.pinned).toBe(false);
    const at = (minutes: number) => ({ by: act.by, at: new Date(now.getTime() + minutes * 60_000).toISOString() });
    await chooseForUnit(store, { unit, chosen: [{ scope, date: start }], seen: [], known: [] }, at(1));
    const pinned = await told();
    expect(pinned).toMatchObject({ uid: before.uid, pinned: true });
    expect(pinned.sequence).toBeGreaterThan(before.sequence);
    const id = (await planForPapers(store, now))?.choices[0]?.id ?? 0;
    await chooseForUnit(store, { unit, chosen: [], seen: [id], known: [] }, at(2));
    const back = await told();
    expect(back).toMatchObject({ uid: before.uid, pinned: false });
    expect(back.sequence).toBeGreaterThan(pinned.sequence);
  });
});

it("a repair on file closes its booking, which leaves the papers and stands beside what the repair took", async () => {
  const { unit, scope, work, start, depot } = bookedAlone();
  const paper = await unitPaper(store, unit, { now, scope });
  if (paper.state !== "booked") throw new Error("not booked");
  const repair = repairFact({
    unit,
    date: paper.plan.asOf,
    meter: paper.report.assessment.meter.value,
    scope: scope === "top-end" ? "top-end" : "bottom-end",
    labourHours: work.labourHours + 3,
    cost: 1_234.5,
  });
  await recordFacts(store, { title: `Repair of ${unit}`, told: { repairs: [repair] } }, act);
  expect(await unitPaper(store, unit, { now, scope })).toMatchObject({
    state: "not-booked",
    made: { unit, repair: { date: repair.date } },
  });
  const events = eventsOf(await planCalendarOf(store, now, { depot, cardOf }));
  expect(events.some(({ summary }) => summary.startsWith(`${unit} `))).toBe(false);
  const [outcome, ...others] = await planOutcomes(store);
  expect(others).toEqual([]);
  const { currency } = paper.plan.row.plan;
  expect(outcome).toMatchObject({
    unit,
    depot,
    start,
    scopes: [scope],
    currency,
    forecast: { hours: work.labourHours, daysOff: work.daysOff },
    made: { hours: work.labourHours + 3, cost: 1_234.5 * minorUnits(currency), daysOff: null },
  });
  expect(outcome?.forecast.cost).toBeGreaterThanOrEqual(work.labour + work.parts + work.machining);
});

it("a repair that was booked by a pin alone stands beside its forecast, and so does one that a pin had moved, once", async () => {
  const own = await openDemoStore();
  await planAnew(own, act, {}, inThisThread);
  const plan = (await planForPapers(own, now))?.row;
  if (plan === undefined) throw new Error("there is no plan");
  const waiting = plan.plan.waiting.find(
    ({ unit, of }) => of === "topEnd" && plan.plan.bookings.every((booking) => booking.unit !== unit),
  );
  const moved = plan.plan.bookings.find(({ scope, unit }) => scope === "top-end" && unit !== waiting?.unit);
  if (waiting === undefined || moved === undefined) throw new Error("the demo has no such units");
  const told = { by: act.by, at: now.toISOString() };
  for (const [i, unit] of [waiting.unit, moved.unit].entries()) {
    const known = (await repairFacts(own, [unit])).map(repairKey);
    const weeks = (await unitInPlan(own, plan, unit))?.weeks.filter(({ scope }) => scope === "top-end") ?? [];
    const week = weeks.find(({ start }) => start > moved.start);
    if (week === undefined) throw new Error("no later week");
    await chooseForUnit(own, { unit, chosen: [{ scope: "top-end", date: week.start }], seen: [], known }, told);
    const report = await unitReport(own, unit);
    const meter = report?.assessment.meter.value ?? 0;
    const repair = repairFact({ unit, date: plan.asOf, meter, scope: "top-end", labourHours: 20 });
    await recordFacts(own, { title: `Repair of ${unit}`, told: { repairs: [repair] } }, act);
    const tell = async () => await planOutcomes(own, [unit]);
    const before = await tell();
    expect(before).toMatchObject([
      { unit, start: week.start, scopes: ["top-end"], forecast: { hours: week.work.labourHours }, made: { hours: 20 } },
    ]);
    expect(before[0]?.forecast.cost).toBeGreaterThan(0);
    // Replanned, the pin has ended, and its repair is told as before.
    await planAnew(own, act, {}, inThisThread);
    expect(await tell()).toEqual(before);
    expect(await planOutcomes(own)).toHaveLength(i + 1);
  }
  own.close();
});
