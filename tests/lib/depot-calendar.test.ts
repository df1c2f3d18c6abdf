import fc from "fast-check";
import { expect, it } from "vitest";
import { addDays, isoWeek } from "@/lib/calendar.ts";
import { periodsWithin } from "@/lib/depot-calendar.ts";
import { type DepotPeriod, depotPeriodSchema } from "@/lib/schema/depot.ts";

const yearly = (firstWeek: number, lastWeek: number): DepotPeriod => ({
  kind: "closed",
  repeat: "yearly",
  firstWeek,
  lastWeek,
  remarks: null,
});

it("weeks over the year's end come once for each winter, cut at both ends", () => {
  const spans = periodsWithin([yearly(46, 8)], "2026-02-01", "2027-12-31").map(({ from, to }) => [from, to]);
  expect(spans).toEqual([
    ["2026-02-01", "2026-02-22"],
    ["2026-11-09", "2027-02-28"],
    ["2027-11-15", "2027-12-31"],
  ]);
});

it("week 53 is the last week of a year without one", () => {
  const spans = periodsWithin([yearly(53, 53)], "2025-12-01", "2027-01-31").map(({ from, to }) => [from, to]);
  expect(spans).toEqual([
    ["2025-12-22", "2025-12-28"],
    ["2026-12-28", "2027-01-03"],
  ]);
});

it("days of a yearly period are exactly those whose week it names", () => {
  const week = fc.integer({ min: 1, max: 52 });
  const day = fc.integer({ min: 0, max: 20_000 }).map((days) => addDays("1990-01-01", days));
  fc.assert(
    fc.property(week, week, day, (first, last, date) => {
      const own = isoWeek(date).week;
      // Over the year's end the run passes through week 53 where there is one.
      const within = first <= last ? own >= first && own <= last : own >= first || own <= last;
      expect(periodsWithin([yearly(first, last)], date, date)).toHaveLength(within ? 1 : 0);
    }),
  );
});

it("a period of dates is cut at the ends asked for, and left out beyond them", () => {
  const once: DepotPeriod = {
    kind: "peak",
    repeat: "once",
    firstDate: "2026-05-01",
    lastDate: "2026-05-10",
    remarks: "fair",
  };
  const within = (from: string, to: string) => periodsWithin([once], from, to);
  expect(within("2026-05-04", "2026-06-01")).toEqual([
    { kind: "peak", remarks: "fair", from: "2026-05-04", to: "2026-05-10" },
  ]);
  expect(within("2026-05-11", "2026-06-01")).toEqual([]);
});

it("refuses a last day before the first and weeks that no year has", () => {
  const dates = { kind: "peak", repeat: "once", remarks: null, firstDate: "2026-05-02", lastDate: "2026-05-01" };
  expect(depotPeriodSchema.safeParse(dates).error?.issues[0]?.path).toEqual(["lastDate"]);
  expect(depotPeriodSchema.safeParse(yearly(0, 4)).success).toBe(false);
  expect(depotPeriodSchema.safeParse(yearly(1, 54)).success).toBe(false);
});
