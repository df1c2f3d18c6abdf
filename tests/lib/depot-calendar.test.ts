import fc from "fast-check";
import { expect, it } from "vitest";
import { addDays, daysBetween, isoWeek } from "@/lib/calendar.ts";
import { overlapOf, periodsWithin, weekCount } from "@/lib/depot-calendar.ts";
import { type DepotPeriod, depotPeriodSchema } from "@/lib/schema/depot.ts";

const yearly = (firstWeek: number, lastWeek: number): Extract<DepotPeriod, { repeat: "yearly" }> => ({
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

it.each([
  [26, 34, 9],
  [46, 8, 15],
  [52, 52, 1],
  [53, 53, 1],
  [53, 2, 3],
  [40, 53, 13],
  [9, 8, 52],
])("weeks %i to %i are %i in a year of 52", (first, last, weeks) => {
  expect(weekCount(yearly(first, last), 52)).toBe(weeks);
  const span = periodsWithin([yearly(first, last)], "2023-01-02", "2023-12-31");
  const days = span.reduce((sum, { from, to }) => sum + daysBetween(from, to) + 1, 0);
  expect(days).toBe(7 * weeks);
});

const once = (firstDate: string, lastDate: string, kind: DepotPeriod["kind"] = "closed"): DepotPeriod => ({
  kind,
  repeat: "once",
  firstDate,
  lastDate,
  remarks: null,
});
const peak = (firstWeek: number, lastWeek: number): DepotPeriod => ({ ...yearly(firstWeek, lastWeek), kind: "peak" });

it.each([
  ["weeks that meet", [yearly(46, 8), peak(8, 9)], [0, 1]],
  ["weeks side by side", [yearly(46, 8), peak(9, 45)], null],
  ["week 53, which is week 52 of most years", [yearly(53, 2), peak(52, 52)], [0, 1]],
  ["week 53 within weeks over the year's end", [peak(50, 1), yearly(53, 53)], [0, 1]],
  ["the same dates twice", [once("2026-05-01", "2026-05-03"), once("2026-05-03", "2026-05-03")], [0, 1]],
  ["dates side by side", [once("2026-05-01", "2026-05-03"), once("2026-05-04", "2026-05-05")], null],
  ["a closing in the season", [peak(26, 34), once("2026-07-01", "2026-07-02")], null],
  ["the same, the other way round", [once("2026-07-01", "2026-07-02"), peak(26, 34)], null],
  ["a season in closed weeks", [yearly(46, 8), once("2026-12-01", "2026-12-02", "peak")], [0, 1]],
  ["the third and the first", [yearly(1, 2), yearly(10, 12), yearly(2, 3)], [0, 2]],
] as const)("periods over each other: %s", (_, periods, found) => {
  expect(overlapOf(periods)).toEqual(found);
});

it("two yearly periods overlap if and only if some day has both", () => {
  const week = fc.integer({ min: 1, max: 53 });
  fc.assert(
    fc.property(week, week, week, week, (a, b, c, d) => {
      const both = [yearly(a, b), peak(c, d)];
      const days = Array.from({ length: 53 * 28 }, (_, week) => addDays("2001-01-01", 7 * week));
      // A year of 53 weeks and years of 52 are among these.
      const shared = days.some((day) => periodsWithin(both, day, day).length > 1);
      expect(overlapOf(both) !== null).toBe(shared);
    }),
    { numRuns: 40 },
  );
});

it.each([
  [46, 8, 16],
  [50, 2, 6],
  [53, 53, 1],
  [40, 53, 14],
])("weeks %i to %i are %i from 2026 on, a year of 53", (first, last, weeks) => {
  expect(weekCount(yearly(first, last), 53)).toBe(weeks);
  const span = periodsWithin([yearly(first, last)], "2026-06-29", "2027-06-27");
  const days = span.reduce((sum, { from, to }) => sum + daysBetween(from, to) + 1, 0);
  expect(days).toBe(7 * weeks);
});
