import { describe, expect, test } from "vitest";
import {
  countWord,
  formatDate,
  formatForecast,
  formatMeter,
  formatMonth,
  formatNumber,
  formatPercent,
  formatProbability,
  formatRate,
  formatShortDate,
  formatWeeklyUse,
  listWords,
  unbroken,
} from "../../app/_ui/formats.ts";

const plain = (text: string) => text.replaceAll("\u00a0", " ");

describe("dates", () => {
  test("a date has its day, a short month and its year", () => expect(formatDate("2026-11-09")).toBe("9 Nov 2026"));

  test("September is Sep, as every month has three letters", () => expect(formatMonth("2026-09-30")).toBe("Sep 2026"));

  test("a short date names its year only when it is not that of today", () => {
    expect(formatShortDate("2026-08-19", "2026-08-31")).toBe("19 Aug");
    expect(formatShortDate("2025-09-02", "2026-08-31")).toBe("2 Sep ’25");
  });

  test("a forecast tells its day only where early and late are under ten weeks apart", () => {
    expect(formatForecast("2026-11-09", "2026-10-10", "2026-12-18")).toBe("9 Nov 2026");
    expect(formatForecast("2026-11-09", "2026-10-10", "2026-12-19")).toBe("Nov 2026");
    expect(formatForecast("2026-11-09", "2026-10-10", null)).toBe("Nov 2026");
  });
});

describe("numbers", () => {
  test("thousands are parted by commas", () => {
    expect(formatNumber(999)).toBe("999");
    expect(formatNumber(148_600)).toBe("148,600");
    expect(formatNumber(1_234_567.891, 2)).toBe("1,234,567.89");
  });

  test("a negative number has a true minus, and what rounds to nothing has none", () => {
    expect(formatNumber(-3)).toBe("\u22123");
    expect(formatNumber(-0.2)).toBe("0");
  });

  test("a figure is never parted from its unit", () => {
    expect(formatMeter(148_600, "km")).toBe("148,600\u00a0km");
    expect(formatPercent(22)).toBe("22\u00a0%");
    expect(unbroken("13 to 22 % in 12,200 km, 3 hints")).toBe("13 to 22\u00a0% in 12,200\u00a0km, 3 hints");
  });

  test("a probability is never told as certain while it is not", () => {
    expect(plain(formatProbability(0.74))).toBe("74 %");
    expect(plain(formatProbability(0.999))).toBe("over 99 %");
    expect(plain(formatProbability(0.001))).toBe("under 1 %");
    expect(plain(formatProbability(0))).toBe("0 %");
    expect(plain(formatProbability(1))).toBe("100 %");
  });

  test("use a week is rounded to what a planner would say", () => {
    expect(plain(formatWeeklyUse(87.4, "km"))).toBe("610 km");
    expect(plain(formatWeeklyUse(2, "h"))).toBe("14 h");
    expect(plain(formatWeeklyUse(0.06, "h"))).toBe("0.4 h");
  });

  test("a rate is told per 10,000 km and per 1,000 h", () => {
    expect(plain(formatRate(0.3, "%", "km"))).toBe("3.0 points per 10,000 km");
    expect(plain(formatRate(-12, "kPa", "h"))).toBe("\u221212 kPa per 1,000 h");
  });
});

describe("words", () => {
  test("counts are words up to twelve", () => {
    expect(countWord(0)).toBe("no");
    expect(countWord(12)).toBe("twelve");
    expect(countWord(13)).toBe("13");
  });

  test("a list has commas and one and", () => {
    expect(listWords([])).toBe("");
    expect(listWords(["1"])).toBe("1");
    expect(listWords(["1", "2", "4"])).toBe("1, 2 and 4");
  });
});
