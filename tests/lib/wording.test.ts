import { expect, test } from "vitest";
import {
  countWord,
  cylinderWords,
  dateWords,
  dayWords,
  kpaWords,
  listWords,
  meterWords,
  monthCountWords,
  numberWords,
  percentWords,
  probabilityWords,
  sentenceWords,
} from "@/lib/wording.ts";

test("numbers: thousands by commas, a true minus, never minus nothing", () => {
  expect(numberWords(1_234_567.89)).toBe("1,234,568");
  expect(numberWords(-3.25, 1)).toBe("−3.3");
  expect(numberWords(-0.2)).toBe("0");
  expect(numberWords(999.5, 0)).toBe("1,000");
  expect(kpaWords(1010)).toBe("1,010 kPa");
  expect(percentWords(22)).toBe("22 %");
  expect(meterWords(148_600, "km")).toBe("148,600 km");
});

test("a chance that is neither none nor certain is never told as 0 or 100 %", () => {
  expect(probabilityWords(0)).toBe("0 %");
  expect(probabilityWords(0.004)).toBe("under 1 %");
  expect(probabilityWords(0.34)).toBe("34 %");
  expect(probabilityWords(0.998)).toBe("over 99 %");
  expect(probabilityWords(1)).toBe("100 %");
});

test("dates, days and months", () => {
  expect(dateWords("2026-11-09")).toBe("9 Nov 2026");
  expect(dateWords("2026-09-30")).toBe("30 Sep 2026");
  expect(dayWords(1)).toBe("1 day");
  expect(dayWords(1200)).toBe("1,200 days");
  expect(monthCountWords(1)).toBe("1 month");
  expect(monthCountWords(12)).toBe("12 months");
});

test("lists, cylinders and sentences", () => {
  expect(listWords([])).toBe("");
  expect(listWords(["a", "b", "c"])).toBe("a, b and c");
  expect(cylinderWords([3])).toBe("cylinder 3");
  expect(cylinderWords([2, 3])).toBe("cylinders 2 and 3");
  expect(cylinderWords([1, 2, 3, 4])).toBe("cylinders 1 to 4");
  expect(cylinderWords([1, 3, 4, 5, 8])).toBe("cylinders 1, 3 to 5 and 8");
  expect(sentenceWords("cylinder 3 fell")).toBe("Cylinder 3 fell");
});

test("counts are words up to twelve, figures beyond", () => {
  expect([0, 1, 12, 13, 1_300].map(countWord)).toEqual(["no", "one", "twelve", "13", "1,300"]);
});
