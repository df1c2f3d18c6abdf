import { describe, expect, it } from "vitest";
import { closedBookings, type ForecastAndMade, tookTotal } from "@/lib/plan/closed-bookings.ts";
import { repairFact } from "../sealing/facts.ts";

const booked = (
  plan: number,
  asOf: string,
  more: { unit?: string; scope?: "top-end" | "bottom-end" | "both" } = {},
) => ({
  plan,
  asOf,
  unit: "V-104",
  scope: "top-end" as const,
  ...more,
});
const made = (date: string, more: Parameters<typeof repairFact>[0] = {}) =>
  repairFact({ unit: "V-104", scope: "top-end", date, ...more });

describe("the booking that a repair closes", () => {
  it("is that of the newest plan made before it that had the unit booked for it", () => {
    const [first, second, later] = [booked(1, "2026-01-05"), booked(2, "2026-02-02"), booked(4, "2026-04-06")];
    const other = booked(3, "2026-03-02", { unit: "V-109" });
    const repair = made("2026-03-10");
    expect(closedBookings([later, other, second, first], [repair])).toEqual([{ repair, bookings: [second] }]);
  });

  it("is one whose plan was made the same day, and none that a plan made after it has", () => {
    const repair = made("2026-03-10");
    expect(closedBookings([booked(1, "2026-03-10")], [repair])).toHaveLength(1);
    expect(closedBookings([booked(1, "2026-03-11")], [repair])).toEqual([]);
  });

  it("puts right any of what was booked: the other class closes nothing, an overhaul both bookings of a plan", () => {
    const [top, bottom] = [booked(1, "2026-01-05"), booked(1, "2026-01-05", { scope: "bottom-end" })];
    expect(closedBookings([top], [made("2026-03-10", { scope: "bottom-end" })])).toEqual([]);
    expect(closedBookings([top], [made("2026-03-10", { scope: "adjustment" })])).toEqual([]);
    expect(closedBookings([top, bottom], [made("2026-03-10", { scope: "complete" })])[0]?.bookings).toEqual([
      top,
      bottom,
    ]);
  });

  it("is closed once: the second repair of the kind needs a booking of its own", () => {
    const before = booked(1, "2026-01-05");
    const repairs = [made("2026-09-01"), made("2026-03-10")];
    expect(closedBookings([before], repairs).map(({ repair }) => repair.date)).toEqual(["2026-03-10"]);
    const again = booked(2, "2026-06-01");
    expect(closedBookings([before, again], repairs).map(({ bookings }) => bookings)).toEqual([[before], [again]]);
  });
});

describe("what repairs took beside their forecasts", () => {
  const took = (forecast: number | null, hours: number | null): ForecastAndMade => ({
    forecast: { hours: forecast, cost: null, daysOff: null },
    made: { hours, cost: 1_000, daysOff: null },
  });

  it("is summed over the repairs of which both are known", () => {
    expect(tookTotal([took(10, 12), took(14, null), took(null, 9), took(20, 15)], "hours")).toMatchObject({
      known: 2,
      forecast: 30,
      made: 27,
    });
    expect(tookTotal([took(10, 12)], "cost")).toEqual({ known: 0, forecast: 0, made: 0, medianRatio: null });
  });

  it("has a median ratio from 20 repairs on", () => {
    const ratios = Array.from({ length: 21 }, (_, i) => took(10, 8 + i / 5));
    expect(tookTotal(ratios, "hours").medianRatio).toBeCloseTo(1, 10);
    expect(tookTotal(ratios.slice(2), "hours").medianRatio).toBeNull();
    // Nothing was forecast: no ratio, though it counts in the sum.
    expect(tookTotal([...ratios.slice(2), took(0, 4)], "hours")).toMatchObject({ known: 20, medianRatio: null });
  });
});
