import { describe, expect, test } from "vitest";
import { testDue, testIntervalOf } from "@/lib/condition/test-due.ts";
import { daysFor } from "@/lib/projection/use-ahead.ts";

const last = { date: "2025-11-09", x: 8000 };
const even = (perDay: number) => (distance: number) => daysFor({ perDay }, distance);
const due = (now: { date: string; x: number }, interval: { meter?: number; days?: number } | undefined, perDay = 5) =>
  testDue({ lastTest: last, now, interval, daysFor: even(perDay), meterUnit: "h" });

describe("testDue", () => {
  test("never tested is overdue at once", () => {
    expect(
      testDue({
        lastTest: null,
        now: { date: "2026-06-30", x: 9000 },
        interval: undefined,
        daysFor: even(5),
        meterUnit: "h",
      }),
    ).toEqual({ overdue: true, dueDate: "2026-06-30", words: "never tested: book a first test as the baseline" });
  });
  test("without an interval nothing is due", () => {
    expect(due({ date: "2030-01-01", x: 90_000 }, undefined)).toEqual({ overdue: false, dueDate: null, words: "" });
  });
  test("by days: on the last day not yet, the day after it is", () => {
    expect(due({ date: "2026-11-09", x: 8100 }, { days: 365 })).toEqual({
      overdue: false,
      dueDate: "2026-11-09",
      words: "",
    });
    expect(due({ date: "2026-11-10", x: 8100 }, { days: 365 })).toEqual({
      overdue: true,
      dueDate: "2026-11-09",
      words: "test overdue: last test 9 Nov 2025, 366 days ago, interval 365 days",
    });
  });
  test("by meter: the date ahead goes by the unit's use, the date passed too, but not before the test", () => {
    expect(due({ date: "2026-01-01", x: 8400 }, { meter: 500 })).toMatchObject({
      overdue: false,
      dueDate: "2026-01-21",
    });
    expect(due({ date: "2026-01-01", x: 8550 }, { meter: 500 })).toEqual({
      overdue: true,
      dueDate: "2025-12-22",
      words: "test overdue: last test 9 Nov 2025, 550 h ago, interval 500 h",
    });
    expect(due({ date: "2026-01-01", x: 18_500 }, { meter: 500 }).dueDate).toBe("2025-11-09");
  });
  test("whichever ends first decides the date, and both are told when both have passed", () => {
    const interval = { meter: 500, days: 365 };
    expect(due({ date: "2026-01-01", x: 8010 }, interval, 0.1).dueDate).toBe("2026-11-09");
    expect(due({ date: "2026-01-01", x: 8400 }, interval).dueDate).toBe("2026-01-21");
    expect(due({ date: "2026-12-01", x: 8550 }, interval).words).toBe(
      "test overdue: last test 9 Nov 2025, 387 days ago, interval 365 days; 550 h ago, interval 500 h",
    );
  });
  test("by meter: the date goes by the season where the unit has one, ahead and back", () => {
    const season = { from: "2026-01-01", quarters: [0.5, 1.2, 1.5, 0.8] as const };
    const at = (x: number) =>
      testDue({
        lastTest: last,
        now: { date: "2026-01-01", x },
        interval: { meter: 500 },
        daysFor: (distance) => daysFor({ perDay: 5, season }, distance),
        meterUnit: "h",
      }).dueDate;
    // 100 h at 2.5 h a day; 500 h: 225 in the 90 days of winter, 275 at 6; 50 h ago at 4 h a day.
    expect(at(8400)).toBe("2026-02-10");
    expect(at(8000)).toBe("2026-05-16");
    expect(at(8550)).toBe("2025-12-19");
  });
  test("a unit that stands still gets no date centuries off", () => {
    expect(due({ date: "2026-01-01", x: 8000 }, { meter: 500 }, 0).dueDate).toBeNull();
    expect(due({ date: "2026-01-01", x: 8000 }, { meter: 500 }, 1e-9).dueDate).toBeNull();
  });
});

describe("testIntervalOf", () => {
  const fleet = { testIntervalDays: 365, testIntervalKm: 16_093.44, testIntervalHours: 500 };
  const none = { testIntervalDays: null, testIntervalKm: null, testIntervalHours: null };

  test("is the model's own where it states any part of one", () => {
    expect(testIntervalOf({ testInterval: { days: 180 } }, "h", fleet)).toEqual({ days: 180 });
    expect(testIntervalOf({ testInterval: { meter: 250 } }, "h", fleet)).toEqual({ meter: 250 });
  });
  test("is else the fleet's, on the meter that the unit has", () => {
    expect(testIntervalOf({}, "h", fleet)).toEqual({ meter: 500, days: 365 });
    expect(testIntervalOf({ testInterval: {} }, "km", fleet)).toEqual({ meter: 16_093.44, days: 365 });
    expect(testIntervalOf({}, "mi", fleet)).toEqual({ meter: expect.closeTo(10_000, 6), days: 365 });
  });
  test("has only the parts that the fleet gives", () => {
    expect(testIntervalOf({}, "km", { ...none, testIntervalHours: 500 })).toBeUndefined();
    expect(testIntervalOf({}, "h", { ...none, testIntervalHours: 500 })).toEqual({ meter: 500, days: undefined });
    expect(testIntervalOf({}, "h", none)).toBeUndefined();
  });
});
