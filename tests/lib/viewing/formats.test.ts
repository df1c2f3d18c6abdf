import { describe, expect, test } from "vitest";
import { formatsOf } from "@/lib/viewing/formats.ts";
import { plainPreferences, preferencesText, readPreferences } from "@/lib/viewing/preferences.ts";

const plain = formatsOf(plainPreferences);
const spaced = (text: string) => text.replaceAll("\u00a0", " ").replaceAll("\u202f", "_");
const having = (change: Partial<typeof plainPreferences>) => formatsOf({ ...plainPreferences, ...change });

describe("preferences", () => {
  test("come back from their text as they were", () => {
    const chosen = {
      pressure: "bar",
      distance: "mi",
      ratePer: 1_000,
      dates: "mm/dd/yyyy",
      numbers: "space-comma",
    } as const;
    expect(readPreferences(preferencesText(chosen))).toEqual(chosen);
  });

  test("what cannot be read has its default, and the rest stays", () => {
    expect(readPreferences(undefined)).toEqual(plainPreferences);
    expect(readPreferences("psi_furlong_7_yyyy-mm-dd")).toEqual({
      ...plainPreferences,
      pressure: "psi",
      dates: "yyyy-mm-dd",
    });
  });
});

describe("dates", () => {
  test.each([
    ["d-mon-yyyy", "9 Sep 2026", "Sep 2026", "9 Sep", "9 Sep ’26"],
    ["mon-d-yyyy", "Sep 9, 2026", "Sep 2026", "Sep 9", "Sep 9 ’26"],
    ["yyyy-mm-dd", "2026-09-09", "2026-09", "2026-09-09", "2026-09-09"],
    ["dd.mm.yyyy", "09.09.2026", "Sep 2026", "09.09.2026", "09.09.2026"],
    ["dd/mm/yyyy", "09/09/2026", "Sep 2026", "09/09/2026", "09/09/2026"],
    ["mm/dd/yyyy", "09/09/2026", "Sep 2026", "09/09/2026", "09/09/2026"],
  ] as const)("%s", (dates, date, month, ofThisYear, ofAnother) => {
    const f = having({ dates });
    expect(f.date("2026-09-09")).toBe(date);
    expect(f.month("2026-09-09")).toBe(month);
    expect(f.shortDate("2026-09-09", "2026-12-01")).toBe(ofThisYear);
    expect(f.shortDate("2026-09-09", "2027-01-01")).toBe(ofAnother);
  });

  test("a forecast tells its day only where early and late are under ten weeks apart", () => {
    expect(plain.forecast("2026-11-09", "2026-10-10", "2026-12-18")).toBe("9 Nov 2026");
    expect(plain.forecast("2026-11-09", "2026-10-10", "2026-12-19")).toBe("Nov 2026");
    expect(plain.forecast("2026-11-09", "2026-10-10", null)).toBe("Nov 2026");
    expect(plain.forecastIn("2026-11-09", "2026-10-10", "2026-12-18")).toBe("on 9 Nov 2026");
    expect(plain.forecastIn("2026-11-09", "2026-10-10", "2026-12-19")).toBe("in Nov 2026");
    expect(plain.forecastIn("2026-11-09", null, "2026-12-19")).toBe("in Nov 2026");
  });
});

describe("figures", () => {
  test.each([
    ["comma-point", "1,234,567.89"],
    ["space-point", "1_234_567.89"],
    ["point-comma", "1.234.567,89"],
    ["space-comma", "1_234_567,89"],
  ] as const)("%s", (numbers, written) => expect(spaced(having({ numbers }).number(1_234_567.891, 2))).toBe(written));

  test("a negative number has a true minus, and what rounds to nothing has none", () => {
    expect(plain.number(-3)).toBe("\u22123");
    expect(plain.number(-0.2)).toBe("0");
  });

  test("a figure is never parted from its unit", () => {
    expect(plain.meter(148_600, "km")).toBe("148,600\u00a0km");
    expect(plain.percent(22)).toBe("22\u00a0%");
  });

  test("a probability is never told as certain while it is not", () => {
    expect([0, 0.001, 0.74, 0.999, 1].map((p) => spaced(plain.probability(p)))).toEqual([
      "0 %",
      "under 1 %",
      "74 %",
      "over 99 %",
      "100 %",
    ]);
  });

  test("pressures in the viewer's unit, to what its gauges are read to; leakage stays", () => {
    expect(
      ["kPa", "bar", "psi"].map((pressure) => spaced(having({ pressure: pressure as "kPa" }).level(1_010, "kPa"))),
    ).toEqual(["1,010 kPa", "10.10 bar", "146.5 psi"]);
    expect(spaced(having({ pressure: "psi" }).level(22, "%"))).toBe("22 %");
  });

  test("distances in the viewer's unit; hours stay", () => {
    const miles = having({ distance: "mi" });
    expect(spaced(miles.meter(100_000, "km"))).toBe("62,137 mi");
    expect(spaced(miles.meter(100, "mi"))).toBe("100 mi");
    expect(spaced(miles.meter(100, "h"))).toBe("100 h");
    expect(spaced(having({ distance: "km" }).meter(100, "mi"))).toBe("161 km");
    expect(spaced(miles.forecastMeter(100_000, "km"))).toBe("62,100 mi");
  });

  test("use a week is rounded to what a planner would say", () => {
    expect(spaced(plain.weeklyUse(87.4, "km"))).toBe("610 km");
    expect(spaced(having({ distance: "mi" }).weeklyUse(87.4, "km"))).toBe("380 mi");
    expect(spaced(plain.weeklyUse(2, "h"))).toBe("14 h");
    expect(spaced(plain.weeklyUse(0.06, "h"))).toBe("0.4 h");
  });

  test("a rate over distance is told per 10,000 or 1,000 as chosen, one over hours per 1,000", () => {
    expect(spaced(plain.rate(0.3, "%", "km"))).toBe("3.0 points per 10,000 km");
    expect(spaced(having({ ratePer: 1_000 }).rate(0.3, "%", "km"))).toBe("0.30 points per 1,000 km");
    expect(spaced(having({ distance: "mi" }).rate(0.3, "%", "km"))).toBe("4.8 points per 10,000 mi");
    expect(spaced(plain.rate(-12, "kPa", "h"))).toBe("\u221212 kPa per 1,000 h");
    expect(spaced(having({ pressure: "bar", ratePer: 10_000 }).rate(-12, "kPa", "h"))).toBe(
      "\u22120.12 bar per 1,000 h",
    );
  });
});
