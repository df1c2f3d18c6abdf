import { expect, it } from "vitest";
import { isoWeek, mondayOfWeek, weeksOfYear } from "@/lib/calendar.ts";

// Source: `datetime.date.isocalendar` of Python 3, which follows ISO 8601.
const reference = [
  ["1900-01-01", 1900, 1],
  ["1970-01-01", 1970, 1],
  ["1976-12-31", 1976, 53],
  ["1977-01-01", 1976, 53],
  ["2000-01-02", 1999, 52],
  ["2004-12-31", 2004, 53],
  ["2005-01-02", 2004, 53],
  ["2008-12-29", 2009, 1],
  ["2009-12-31", 2009, 53],
  ["2010-01-03", 2009, 53],
  ["2016-01-03", 2015, 53],
  ["2020-12-31", 2020, 53],
  ["2021-01-04", 2021, 1],
  ["2024-12-30", 2025, 1],
  ["2026-08-31", 2026, 36],
  ["2026-12-28", 2026, 53],
  ["2027-01-03", 2026, 53],
  ["2099-12-31", 2099, 53],
] as const;

it.each(reference)("%s lies in week %i-%i", (date, year, week) => {
  expect(isoWeek(date)).toEqual({ year, week });
});

it("every Monday is the Monday of its week", () => {
  for (let year = 1998; year <= 2030; year++) {
    for (let week = 1; week <= weeksOfYear(year); week++) {
      expect(isoWeek(mondayOfWeek(year, week))).toEqual({ year, week });
    }
  }
});
