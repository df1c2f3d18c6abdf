import { describe, expect, it } from "vitest";
import { isBlankWord, isTotalWord, measureIn, placesIn, yesNoOf } from "@/lib/layout/trade-words.ts";
import { meterUnitOf, splitUnit, valueUnitIn, valueUnitOf } from "@/lib/layout/unit-words.ts";

describe("words of the trade", () => {
  it.each([
    ["Dry", "compression-dry"],
    ["Comp. (dry)", "compression-dry"],
    ["Compression", "compression-dry"],
    ["WET", "compression-wet"],
    ["Compression with oil", "compression-wet"],
    ["Leak-down", "leak-down"],
    ["Leakdown %", "leak-down"],
    ["Cyl leakage", "leak-down"],
    ["LD", "leak-down"],
    ["Compression and leak-down", null],
    ["wet and dry", null],
    ["Laundry", null],
    ["Weather", null],
  ])("%s names the measure %s", (text, measure) => {
    expect(measureIn(text)).toBe(measure);
  });

  it.each([
    ["exhaust", "exhaust"],
    ["Ex. valve", "exhaust"],
    ["dipstick, tailpipe", "crankcase+exhaust"],
    ["Intake & breather", "inlet+crankcase"],
    ["next cyl / rad", "neighbour+coolant"],
    ["nothing", "none"],
    ["somewhere", null],
    ["exhaust and somewhere", null],
  ])("air heard at %s is %s", (text, places) => {
    expect(placesIn(text)).toBe(places);
  });

  it("ticks and refusals are yes and no, and nothing else is", () => {
    expect(["Yes", "Y", "x", "✓", "OK", "1"].map(yesNoOf)).toEqual(Array(6).fill("yes"));
    expect(["no", "N", "0", "cold"].map(yesNoOf)).toEqual(Array(4).fill("no"));
    expect(["", "maybe", "2"].map(yesNoOf)).toEqual([null, null, null]);
  });

  it("what was not measured is told from what was", () => {
    for (const text of ["", " ", "-", "–", "n/a", "N.A.", "nt", "not tested", "unmeasured", "?", "#N/A"]) {
      expect([text, isBlankWord(text)]).toEqual([text, true]);
    }
    for (const text of ["0", "x", "seized", "12", "-5"]) expect([text, isBlankWord(text)]).toEqual([text, false]);
  });

  it("lines of totals are told by their first word", () => {
    expect(["Average", "Totals:", "MIN", "Grand total", "Std dev", "Average of all (psi)"].every(isTotalWord)).toBe(
      true,
    );
    expect(["V-12", "Maxim 3", "Minibus 4", "Sumner", "MAX 2", "Limit 3", "Min-4", "Max Power"].some(isTotalWord)).toBe(
      false,
    );
  });
});

describe("units", () => {
  it.each([
    ["PSIG", "psi"],
    ["lb/in²", "psi"],
    ["p.s.i.", "psi"],
    ["KPA", "kPa"],
    ["bars", "bar"],
    ["kg/cm²", "kgf/cm2"],
    ["pct", "%"],
    ["MPa", null],
    ["b", null],
  ])("%s is %s", (text, unit) => {
    expect(valueUnitOf(text)).toBe(unit);
  });

  it("of meters are told, and a bare m is none", () => {
    expect(["hrs", "Kms", "miles", "m"].map(meterUnitOf)).toEqual(["h", "km", "mi", null]);
  });

  it("stand behind a figure with or without a blank", () => {
    expect(splitUnit("175psi")).toEqual({ figure: "175", unit: "psi" });
    expect(splitUnit("12 %")).toEqual({ figure: "12", unit: "%" });
    expect(splitUnit("1.250,5 kPa")).toEqual({ figure: "1.250,5", unit: "kPa" });
    expect(splitUnit("12.4 kg/cm2")).toEqual({ figure: "12.4", unit: "kg/cm2" });
    expect(splitUnit("76/80")).toEqual({ figure: "76/80", unit: "" });
    expect(splitUnit("76/80 psi")).toEqual({ figure: "76/80", unit: "psi" });
    expect(splitUnit("V-12")).toEqual({ figure: "V-12", unit: "" });
  });

  it("are found in a sentence that names one", () => {
    expect(valueUnitIn("All readings in psi")).toBe("psi");
    expect(valueUnitIn("Pressures (kPa), altitude 20 m")).toBe("kPa");
    expect(valueUnitIn("psi or bar")).toBeNull();
    expect(valueUnitIn("Depot North")).toBeNull();
  });
});
