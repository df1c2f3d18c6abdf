import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { addNumber, findDecimalSign, noNumbers } from "@/lib/layout/decimal-sign.ts";
import { readNumber } from "@/lib/layout/numbers.ts";

const read = (text: string, sign: "." | "," | null = null) => {
  const found = readNumber(text, sign);
  return found.is === "number" ? found.text : found.is === "ambiguous" ? found.texts : null;
};

describe("a number", () => {
  it.each([
    ["1.250,5", "1250.5"],
    ["1,250.5", "1250.5"],
    ["12,5", "12.5"],
    ["12.5", "12.5"],
    ["1250", "1250"],
    ["0,125", "0.125"],
    ["1.250.500", "1250500"],
    ["148 600", "148600"],
    ["148\u202f600,5", "148600.5"],
    ["1'250", "1250"],
    ["-3,5", "-3.5"],
    ["+7", "7"],
    [",5", "0.5"],
    ["12.", "12"],
  ])("%s is %s whatever the decimal sign of the file", (text, meant) => {
    expect(read(text)).toBe(meant);
  });

  it("with three figures behind its only sign can be meant in two ways until the decimal sign is known", () => {
    expect(read("12,480")).toEqual(["12480", "12.480"]);
    expect(read("12,480", ".")).toBe("12480");
    expect(read("12,480", ",")).toBe("12.480");
    expect(read("12.480", ",")).toBe("12480");
  });

  it.each(["", "abc", "1.2.3", "1,2,3", "12,34.5.6", "1e3", "٣", "1,25,000", "NaN", "Infinity", "0x10", "5-6", "."])(
    "is not made of %j",
    (text) => {
      expect(read(text)).toBeNull();
      expect(read(text, ".")).toBeNull();
      expect(read(text, ",")).toBeNull();
    },
  );

  it("is the number that was written, by either sign, with or without parted thousands", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 9_999_999 }),
        fc.integer({ min: 0, max: 99 }),
        fc.constantFrom(".", ","),
        fc.boolean(),
        (whole, hundredths, sign, parted) => {
          const other = sign === "." ? "," : ".";
          const digits = parted ? String(whole).replace(/\B(?=(\d{3})+$)/g, other) : String(whole);
          const text = `${digits}${sign}${String(hundredths).padStart(2, "0")}`;
          expect(Number(read(text, sign as "." | ","))).toBeCloseTo(whole + hundredths / 100, 6);
        },
      ),
    );
  });
});

describe("the decimal sign of a column", () => {
  const find = (texts: string[], range = {}) => {
    const evidence = noNumbers();
    for (const text of texts) addNumber(evidence, text);
    return findDecimalSign(evidence, () => range);
  };

  it("is found from any of its cells that can be meant in one way only", () => {
    expect(find(["12,480", "7.5"])).toEqual({ is: "found", sign: ".", by: "7.5", isWritten: true });
    expect(find(["12.480", "4180.125"])).toMatchObject({ is: "found", sign: "." });
    expect(find(["12.480", "9.850", "1.250,5 km"])).toMatchObject({ is: "found", sign: ",", by: "1.250,5" });
    expect(find(["1.250/1.300,5"])).toMatchObject({ is: "found", sign: "," });
  });

  it("stays ambiguous where every cell can be meant in both", () => {
    expect(find(["12,480", "9,850"])).toEqual({ is: "ambiguous", example: "12,480", signs: [","] });
    expect(find(["12,480", "9.850"])).toMatchObject({ signs: [",", "."] });
    // 9.85 may be a slip, or a number of another kind than 4.180.
    expect(find(["4.180", "9.85"])).toEqual({ is: "ambiguous", example: "4.180", signs: ["."] });
  });

  it("is told by what it cannot hold", () => {
    expect(find(["1.016"], { atMost: 25 })).toMatchObject({ is: "found", sign: ".", isWritten: false });
    expect(find(["1.016"], { atLeast: 10, atMost: 6000 })).toMatchObject({ is: "found", sign: "," });
    expect(find(["9.125"], { atLeast: 10, atMost: 6000 })).toMatchObject({ is: "ambiguous" });
    expect(find(["1.016", "1,250"], { atMost: 25 })).toMatchObject({ is: "contradictory" });
  });

  it("is told by the numbers around, where one meaning lies nowhere near them", () => {
    expect(find(["980", "1,250", "1015", "940"])).toMatchObject({ is: "found", sign: "." });
    expect(find(["980", "1.250", "1015", "940"])).toMatchObject({ is: "found", sign: "," });
    expect(find(["12", "1,250", "14", "13"])).toMatchObject({ is: "ambiguous" });
  });

  it("does not matter where no number has any sign, and is not taken from two that contradict", () => {
    expect(find(["980", "n/a", "1015"])).toEqual({ is: "no-matter" });
    expect(find(["12,5", "13.5"])).toEqual({ is: "contradictory", examples: ["13.5", "12,5"] });
  });
});
