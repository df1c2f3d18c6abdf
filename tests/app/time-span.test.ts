import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { percentOf, timeSpan, timeTicks } from "../../app/_ui/time-span.ts";

describe("the axis of dates", () => {
  const span = timeSpan("2026-08-31", 3);

  test("starts today and ends the asked number of years later", () => {
    expect(span).toEqual({ from: "2026-08-31", to: "2029-08-31", years: 3 });
    expect(percentOf(span, "2026-08-31")).toBe(0);
    expect(percentOf(span, "2029-08-31")).toBe(100);
  });

  test("from 29 February it ends on the last of February", () =>
    expect(timeSpan("2028-02-29", 1).to).toBe("2029-02-28"));

  test("three years have a line a quarter, the new years bearing the year", () => {
    const ticks = timeTicks(span);
    expect(ticks.map((tick) => tick.date)).toEqual([
      "2026-10-01",
      "2027-01-01",
      "2027-04-01",
      "2027-07-01",
      "2027-10-01",
      "2028-01-01",
      "2028-04-01",
      "2028-07-01",
      "2028-10-01",
      "2029-01-01",
      "2029-04-01",
      "2029-07-01",
    ]);
    expect(ticks.filter((tick) => tick.newYear).map((tick) => tick.label)).toEqual(["2027", "2028", "2029"]);
    expect(ticks[0]?.label).toBe("Oct");
  });

  test("one year has a line a month, labelled by quarter", () => {
    const ticks = timeTicks(timeSpan("2026-08-31", 1));
    expect(ticks).toHaveLength(12);
    expect(ticks.flatMap((tick) => tick.label ?? [])).toEqual(["Oct", "2027", "Apr", "Jul"]);
  });

  test("lines ascend within the axis, whatever the day it starts", () => {
    const days = fc.date({ min: new Date("2000-01-01"), max: new Date("2090-12-31"), noInvalidDate: true });
    fc.assert(
      fc.property(days, fc.constantFrom(1, 3, 5), (day, years) => {
        const ticks = timeTicks(timeSpan(day.toISOString().slice(0, 10), years));
        expect(ticks.length).toBeGreaterThanOrEqual(years * (years === 1 ? 12 : 4));
        let last = 0;
        for (const { percent } of ticks) {
          expect(percent).toBeGreaterThan(last);
          expect(percent).toBeLessThanOrEqual(100);
          last = percent;
        }
      }),
    );
  });
});
