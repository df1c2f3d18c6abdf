import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { addDays } from "@/lib/calendar.ts";
import { changeFrame, compareStandings } from "@/lib/changes/compare.ts";
import { windowMove } from "@/lib/changes/window-move.ts";
import type { Standing } from "@/lib/schema/changes.ts";
import type { WindowDates } from "@/lib/schema/report.ts";
import { bands } from "@/lib/schema/words.ts";

const frame = { asOf: "2026-06-30", horizonEnd: "2031-06-30" };
const projected = (p10: string, p50: string | null = null, p90: string | null = null): WindowDates => ({
  status: "projected",
  p10,
  p50,
  p90,
});
const none: WindowDates = { status: "not-foreseen", p10: null, p50: null, p90: null };
const tooFew: WindowDates = { ...none, status: "too-few-tests" };
const crossed = (date: string): WindowDates => ({ status: "crossed", p10: date, p50: date, p90: date });

const standing = (more: Partial<Standing> = {}): Standing => ({
  asOf: frame.asOf,
  band: "sound",
  lastTestDate: "2026-03-01",
  questions: 0,
  topEnd: none,
  bottomEnd: none,
  ...more,
});

describe("a window", () => {
  const wide = projected("2027-01-01", "2028-01-01", "2029-01-01");

  it("moved when a date went by more than a month, however wide it is", () => {
    expect(windowMove(wide, { ...wide, p50: addDays("2028-01-01", 30) }, frame)).toBeNull();
    expect(windowMove(wide, { ...wide, p50: addDays("2028-01-01", 31) }, frame)).toMatchObject({
      kind: "moved",
      sign: 1,
      early: null,
      likely: { from: "2028-01-01", to: "2028-02-01", days: 31 },
      late: null,
    });
  });

  it("moved when a date went by more than a tenth of a narrow window, but never by less than a week", () => {
    const narrow = projected("2027-01-01", "2027-03-01", "2027-04-11");
    expect(windowMove(narrow, { ...narrow, p90: addDays("2027-04-11", -10) }, frame)).toBeNull();
    expect(windowMove(narrow, { ...narrow, p90: addDays("2027-04-11", -11) }, frame)).toMatchObject({ sign: -1 });
    const narrower = projected("2027-01-01", "2027-01-10", "2027-01-21");
    expect(windowMove(narrower, { ...narrower, p50: "2027-01-17" }, frame)).toBeNull();
    expect(windowMove(narrower, { ...narrower, p50: "2027-01-18" }, frame)).toMatchObject({ sign: 1 });
  });

  it("goes the way of its likely date; where that stayed, of its edges", () => {
    const sooner = projected("2027-01-01", "2027-06-01", "2030-01-01");
    expect(windowMove(wide, sooner, frame)).toMatchObject({ sign: -1, late: { days: 365 } });
    expect(windowMove(wide, { ...wide, p10: "2026-09-01" }, frame)).toMatchObject({ sign: -1, likely: null });
  });

  it("that only slid along with the days did not move", () => {
    const before = projected("2026-01-10", "2028-01-01", "2029-06-01");
    expect(windowMove(before, { ...before, p10: "2026-07-05" }, frame)).toBeNull();
    expect(windowMove(before, { ...before, p10: "2026-09-05" }, frame)).toMatchObject({ early: { days: 67 } });
  });

  it("at the horizon comes and goes only by more than a month", () => {
    expect(windowMove(none, projected("2031-06-10"), frame)).toBeNull();
    expect(windowMove(none, projected("2031-03-01"), frame)).toMatchObject({ kind: "appeared", sign: -1 });
    expect(windowMove(projected("2031-03-01"), none, frame)).toMatchObject({ kind: "gone", sign: 1 });
    expect(windowMove(wide, { ...wide, p90: null }, frame)).toMatchObject({ late: { to: null }, sign: 1 });
  });

  it("is crossed once, whatever the dates", () => {
    expect(windowMove(wide, crossed("2026-06-30"), frame)).toMatchObject({ kind: "crossed", sign: -1 });
    expect(windowMove(crossed("2026-01-01"), crossed("2026-06-30"), frame)).toBeNull();
    expect(windowMove(crossed("2026-01-01"), tooFew, frame)).toMatchObject({ kind: "no-longer-crossed", sign: 1 });
  });

  it("that tests first gave is neither sooner nor later", () => {
    expect(windowMove(tooFew, wide, frame)).toMatchObject({ kind: "appeared", sign: 0 });
    expect(windowMove(wide, tooFew, frame)).toMatchObject({ kind: "gone", sign: 0 });
    expect(windowMove(tooFew, none, frame)).toBeNull();
  });
});

describe("a unit", () => {
  const compare = (was: Partial<Standing>, now: Partial<Standing>) =>
    compareStandings(standing(was), standing(now), frame);

  it("whose band moved got worse or better by it, whatever its windows say", () => {
    const window = projected("2027-01-01", "2028-01-01");
    expect(compare({}, { band: "watch" })).toMatchObject({ band: { from: "sound", to: "watch" }, direction: "worse" });
    expect(compare({ band: "past-limit" }, { band: "plan", topEnd: window })).toMatchObject({ direction: "better" });
    expect(compare({ band: null }, { band: "plan" })).toMatchObject({ band: { from: null }, direction: null });
  });

  it("whose windows moved goes by the worse of the two", () => {
    const [sooner, later] = [projected("2027-01-01", "2028-01-01"), projected("2028-01-01", "2029-01-01")];
    expect(compare({ topEnd: sooner, bottomEnd: later }, { topEnd: later, bottomEnd: sooner }).direction).toBe("worse");
    expect(compare({ topEnd: sooner }, { topEnd: later }).direction).toBe("better");
  });

  it("that was only tested again is not told of", () => {
    expect(compare({}, { lastTestDate: "2026-06-01" })).toMatchObject({ newerTest: "2026-06-01", told: false });
    expect(compare({ lastTestDate: null }, {})).toMatchObject({ newerTest: "2026-03-01", told: false });
    expect(compare({}, { lastTestDate: "2026-01-01" }).newerTest).toBeNull();
    expect(compare({ questions: 2 }, { questions: 1 })).toMatchObject({ questions: { from: 2, to: 1 }, told: true });
  });

  it("that is new or has left is told of as that", () => {
    expect(compareStandings(null, standing(), frame)).toMatchObject({ fleet: "new", newerTest: "2026-03-01" });
    expect(compareStandings(standing(), null, frame)).toMatchObject({ fleet: "left", band: null, told: true });
    expect(() => compareStandings(null, null, frame)).toThrow("neither");
  });
});

const date = fc.integer({ min: 0, max: 2200 }).map((days) => addDays("2026-01-01", days));
const window = fc.oneof(
  fc.constantFrom(none, tooFew),
  date.map(crossed),
  fc.tuple(fc.array(date, { minLength: 3, maxLength: 3 }), fc.integer({ min: 1, max: 3 })).map(([dates, known]) => {
    const [p10 = null, p50 = null, p90 = null] = dates.toSorted().slice(0, known);
    return projected(p10 ?? "", p50, p90);
  }),
);
const anyStanding = fc
  .record({
    band: fc.option(fc.constantFrom(...bands), { nil: null }),
    lastTestDate: fc.option(date, { nil: null }),
    questions: fc.nat(2),
    topEnd: window,
    bottomEnd: window,
  })
  .map(standing);

describe("of any two standings", () => {
  it("the same are no change, and neither is the same on another day", () => {
    fc.assert(
      fc.property(anyStanding, fc.integer({ min: 0, max: 400 }), (unit, days) => {
        const later = changeFrame({ horizonYears: 5 }, addDays(frame.asOf, days));
        // The horizon goes along with the day, so a window that it has come to is news.
        const fixed = { ...later, horizonEnd: frame.horizonEnd };
        for (const on of [frame, fixed]) {
          const stands = { ...unit, topEnd: slid(unit.topEnd, on.asOf), bottomEnd: slid(unit.bottomEnd, on.asOf) };
          expect(compareStandings(unit, stands, on)).toMatchObject({ told: false, direction: null, newerTest: null });
        }
      }),
    );
  });

  it("there and back the change is the opposite one", () => {
    const ahead = anyStanding.filter(({ topEnd, bottomEnd }) =>
      [topEnd, bottomEnd].every(({ p10 }) => p10 === null || p10 >= frame.asOf),
    );
    fc.assert(
      fc.property(ahead, ahead, (one, other) => {
        const [there, back] = [compareStandings(one, other, frame), compareStandings(other, one, frame)];
        expect(back.band).toEqual(there.band === null ? null : { from: there.band.to, to: there.band.from });
        expect(back.questions === null).toBe(there.questions === null);
        if (there.band !== null && there.band.from !== null && there.band.to !== null) {
          expect(back.direction).toBe(there.direction === "worse" ? "better" : "worse");
        }
      }),
    );
  });
});

/** The window as it stands on a later day: its dates that went by are that day. */
function slid(dates: WindowDates, asOf: string): WindowDates {
  const ahead = (day: string | null) => (day !== null && day < asOf ? asOf : day);
  return { ...dates, p10: ahead(dates.p10), p50: ahead(dates.p50), p90: ahead(dates.p90) };
}
