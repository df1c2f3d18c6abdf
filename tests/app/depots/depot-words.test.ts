import { describe, expect, test } from "vitest";
import {
  airWords,
  altitudeFinding,
  calendarNow,
  capacityWords,
  periodWords,
  setupChanges,
  weeksWords,
} from "@/app/_ui/depots/depot-words.ts";
import { yearStrip } from "@/app/_ui/depots/year-strip.ts";
import { blankDepotSetup, type DepotPeriod } from "@/lib/schema/depot.ts";
import { formatsOf } from "@/lib/viewing/formats.ts";
import { plainPreferences } from "@/lib/viewing/preferences.ts";

const f = formatsOf(plainPreferences);
const plain = (words: string) => words.replaceAll("\u00a0", " ");
const weeks = (firstWeek: number, lastWeek: number, kind: DepotPeriod["kind"] = "closed"): DepotPeriod => ({
  kind,
  repeat: "yearly",
  firstWeek,
  lastWeek,
  remarks: null,
});
const once = (firstDate: string, lastDate: string): DepotPeriod => ({
  kind: "closed",
  repeat: "once",
  firstDate,
  lastDate,
  remarks: "stocktaking",
});

describe("a depot in words", () => {
  test("its air, by its altitude", () => {
    expect(plain(airWords(f, 1_850))).toBe("the air has 80 % of its pressure at sea level");
    expect(airWords(f, 5)).toBe("as good as sea level");
    expect(plain(altitudeFinding(f, "Highcol", 1_850))).toMatch(/^Highcol lies at 1,850 m, where the air has 80 %/);
    expect(altitudeFinding(f, "Harbour", null)).toMatch(/not known: .* as at sea level, with a wider error/);
  });
  test("its periods, with the days of a year", () => {
    expect(periodWords(f, weeks(46, 8))).toBe("closed weeks 46 to 8");
    expect(periodWords(f, weeks(27, 27, "peak"))).toBe("peak week 27");
    expect(periodWords(f, once("2026-05-01", "2026-05-01"))).toBe("closed 1 May 2026, once");
    expect(weeksWords(f, { firstWeek: 46, lastWeek: 8 }, 2026)).toBe(
      "9 Nov 2026 to 28 Feb 2027, 16 weeks, over the year’s end",
    );
    // 2026 has a week 53, 2027 has none.
    expect(weeksWords(f, { firstWeek: 53, lastWeek: 53 }, 2026)).toBe("28 Dec 2026 to 3 Jan 2027, 1 week");
    expect(weeksWords(f, { firstWeek: 53, lastWeek: 53 }, 2027)).toBe("27 Dec 2027 to 2 Jan 2028, 1 week");
  });
  test("what its calendar says now, or next; closed before peak", () => {
    expect(calendarNow(f, [weeks(46, 8)], "2026-02-20").words).toBe("closed until 22 Feb 2026");
    expect(calendarNow(f, [weeks(46, 8)], "2026-02-23")).toEqual({
      words: "closed from 9 Nov 2026",
      from: "2026-11-09",
    });
    const season = [weeks(26, 34, "peak"), once("2026-07-01", "2026-07-02")];
    expect(calendarNow(f, season, "2026-07-02").words).toBe("closed until 2 Jul 2026");
    expect(calendarNow(f, season, "2026-07-03").words).toBe("in its peak weeks until 23 Aug 2026");
    expect(calendarNow(f, [], "2026-07-03")).toEqual({ words: "", from: null });
  });
  test("what it has to work with", () => {
    const told = { ...blankDepotSetup, bays: 1, technicians: 2, productiveHoursPerDay: 5.5 };
    expect(plain(capacityWords(f, told))).toBe("1 bay, 2 technicians, 5.5 h a day on engines each");
    expect(capacityWords(f, { ...told, technicians: null, productiveHoursPerDay: null })).toBe("1 bay");
    expect(plain(capacityWords(f, { ...blankDepotSetup, daysPerWeek: 5, builders: 1, labourRate: 61.5 }))).toBe(
      "5 days a week, 1 builds bottom ends, 61.5 an hour of labour",
    );
    expect(capacityWords(f, blankDepotSetup)).toBe("");
  });
  test("what one change made of it", () => {
    const before = {
      ...blankDepotSetup,
      bays: 1,
      productiveHoursPerDay: 6,
      periods: [weeks(46, 8), weeks(20, 20)],
      retired: false,
    };
    const after = {
      ...blankDepotSetup,
      labourRate: 62,
      builders: 1,
      bays: 2,
      technicians: 3,
      productiveHoursPerDay: 6,
      retired: true,
      periods: [weeks(46, 8), once("2026-05-01", "2026-05-02")],
    };
    expect(setupChanges(f, before, after)).toEqual([
      "bays 1 → 2",
      "technicians not told → 3",
      "people who build bottom ends not told → 1",
      "labour rate not told → 62",
      "added closed 1 May 2026 to 2 May 2026, once (stocktaking)",
      "removed closed week 20",
      "retired",
    ]);
    expect(setupChanges(f, after, { ...after, retired: false })).toEqual(["taken back into use"]);
    expect(setupChanges(f, after, after)).toEqual([]);
  });
});

describe("a year drawn week by week", () => {
  test("has 53 weeks where the year has, and both ends of a winter", () => {
    const { year, weeks: count, spans } = yearStrip([weeks(46, 8)], "2026-08-31");
    expect([year, count]).toEqual([2026, 53]);
    expect(spans.map(({ percent, width }) => [(53 * percent) / 100, (53 * width) / 100])).toEqual([
      [0, expect.closeTo(8, 9)],
      [expect.closeTo(45, 9), expect.closeTo(8, 9)],
    ]);
  });
  test("belongs to the ISO year of the date, which may begin in December", () => {
    const strip = yearStrip([], "2024-12-31");
    expect([strip.year, strip.weeks]).toEqual([2025, 52]);
    expect(strip.today).toBeCloseTo((100 * 1) / (7 * 52), 9);
    expect(strip.months[0]?.percent).toBeGreaterThanOrEqual(0);
  });
  test("draws closed days over peak weeks", () => {
    const strip = yearStrip([once("2026-07-01", "2026-07-02"), weeks(26, 34, "peak")], "2026-08-31");
    expect(strip.spans.map(({ kind }) => kind)).toEqual(["peak", "closed"]);
  });
});
