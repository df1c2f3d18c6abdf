import { describe, expect, test } from "vitest";
import { decidingMeasure, weakestPlace } from "@/lib/assessment/weakest.ts";
import type { CylinderAssessment } from "@/lib/schema/assessment.ts";
import { compression, crossing, cylinder, leakage, unitOf } from "./documents.ts";

const place = (...cylinders: CylinderAssessment[]) => {
  const found = weakestPlace(unitOf(cylinders));
  return found && { cylinders: found.cylinders.map((c) => c.cylinder), cause: found.cause, measure: found.measure };
};
const within = (probability: number | null) => crossing("projected", ["2027-06-01"], probability);

describe("the measure that decides", () => {
  test("the one with the worse band, however near the other is to its limit", () => {
    const worse = compression(1200, { band: "watch" });
    expect(decidingMeasure(cylinder(1, [leakage(29, { crossing: within(0.9) }), worse]))).toBe(worse);
  });

  test("of one band, the one more probable to cross within a year", () => {
    const [sooner, later] = [leakage(8, { crossing: within(0.4) }), compression(1200, { crossing: within(0.1) })];
    expect(decidingMeasure(cylinder(1, [later, sooner]))).toBe(sooner);
    expect(decidingMeasure(cylinder(1, [sooner, later]))).toBe(sooner);
  });

  test("of one band and chance, the one further on its way: leakage from 0, compression from new", () => {
    const fresh = compression(1200);
    const worn = compression(950);
    const half = leakage(15);
    expect(decidingMeasure(cylinder(1, [fresh, half]))).toBe(half);
    expect(decidingMeasure(cylinder(1, [half, worn]))).toBe(worn);
  });

  test("none where no measure is judged", () => {
    expect(decidingMeasure(cylinder(1, []))).toBeNull();
    expect(decidingMeasure(cylinder(1, [leakage(null), compression(900, { band: null })]))).toBeNull();
  });
});

describe("the weakest place", () => {
  test("nothing to tell where no cylinder is judged", () => {
    expect(place(cylinder(1, []), cylinder(2, [leakage(null)]))).toBeNull();
  });

  test("the worst band leads, though another cylinder is nearer to its limit", () => {
    const spread = compression(1150, { band: "past-limit" });
    expect(place(cylinder(1, [leakage(29, { band: "plan", crossing: within(0.9) })]), cylinder(2, [spread]))).toEqual({
      cylinders: [2],
      cause: "rings-or-bore",
      measure: spread,
    });
  });

  test("of one band the nearest to its limit leads, and those of its cause join it in the order of the engine", () => {
    const plan = (level: number) => leakage(level, { band: "plan" });
    const nearest = plan(27);
    expect(
      place(
        cylinder(1, [plan(22)], ["head-gasket", 0.6]),
        cylinder(2, [plan(23)], ["exhaust-valve", 0.5]),
        cylinder(3, [nearest], ["head-gasket", 0.9]),
        cylinder(4, [leakage(5)], ["head-gasket", 0.9]),
      ),
    ).toEqual({ cylinders: [1, 3], cause: "head-gasket", measure: nearest });
  });

  test("cylinders without a cause stand together", () => {
    const bare = (number: number) => ({ ...cylinder(number, [leakage(12, { band: "watch" })]), causes: [] });
    expect(place(bare(1), bare(2))).toMatchObject({ cylinders: [1, 2], cause: null });
  });

  test("an unjudged cylinder is no place", () => {
    expect(place(cylinder(1, [leakage(null)]), cylinder(2, [leakage(6)]))).toMatchObject({ cylinders: [2] });
  });
});
