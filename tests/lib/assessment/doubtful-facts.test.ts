import { describe, expect, test } from "vitest";
import type { TestFact } from "@/lib/schema/facts.ts";
import { unitFact } from "../sealing/facts.ts";
import { assessedUnit, dry, halfYearly, leakDown, worn } from "./made-up-fleet.ts";

const assessment = (tests: readonly TestFact[]) => assessedUnit({ units: [unitFact()], tests }).assessment;
const questions = (tests: readonly TestFact[]) => assessment(tests).questions;

describe("the meter asks a person", () => {
  test("where it gained more than a unit can work", () => {
    const slip = [...halfYearly(worn(3, 8, 1)), leakDown("2026-06-20", 1_000_000, [10, 10, 10, 10])];
    expect(questions(slip)[0]).toMatch(
      /^The meter gained 900,000 km between 1 Jun 2026 and 20 Jun 2026, more than a unit can work: wrong digits/,
    );
    expect(questions(halfYearly(worn(4, 8, 1)))).toEqual([]);
  });

  test("where it stood still while the leakage grew, not where the unit merely stood", () => {
    const stuck = (values: readonly number[]) =>
      values.map((value, i) => leakDown(`${2022 + i}-06-01`, 50_000, [value, value, value, value]));
    expect(questions(stuck([9, 13, 17, 21]))[0]).toMatch(
      /^The meter has stood at 50,000 km since 1 Jun 2022 while the leakage grew: has it stopped\?/,
    );
    expect(questions(stuck([9, 9, 10, 9]))).toEqual([]);
  });
});

test("compression that was read nobody knows at what altitude is warned of, with the depot", () => {
  const at = (date: string, meter: number) =>
    dry(date, meter, [950, 950, 950, 950], { altitudeM: null, depot: "Highcol" });
  const tests = [at("2025-06-01", 80_000), at("2025-12-01", 90_000), at("2026-06-01", 100_000)];
  expect(assessment(tests).warnings.join()).toMatch(
    /Altitude not known for 3 compression tests \(Highcol\): read as at sea level/,
  );
  const known = [dry("2025-06-01", 80_000, [1200, 1200, 1200, 1200])];
  expect(assessment(known).warnings.join()).not.toContain("Altitude");
});
