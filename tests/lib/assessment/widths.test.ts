import { describe, expect, it } from "vitest";
import type { RangeWidth } from "@/lib/assessment/pools.ts";
import { widthWords } from "@/lib/assessment/width-words.ts";
import { reportUnit } from "@/lib/report.ts";
import { unitFact } from "../sealing/facts.ts";
import { assessedFleet, assessedUnit, halfYearly, petrol4, worn } from "./made-up-fleet.ts";

const facts = { units: [unitFact()], tests: halfYearly(worn(7, 8, 1.5)) };
const fitted = assessedFleet(facts).pools;
/** Of one shape of wear each: what shapes differ by no factor widens. */
const pools = {
  ...fitted,
  wear: fitted.wear.map((pool) => ({ ...pool, shapes: pool.shapes.slice(0, 1).map((s) => ({ ...s, weight: 1 })) })),
};
const width: RangeWidth = { engineModel: petrol4.id, measure: "leak-down", meterUnit: "km", factor: 1.6 };
const under = (...widths: RangeWidth[]) => assessedUnit(facts, { pools: { ...pools, widths } });
const fan = (assessed: ReturnType<typeof under>) => {
  const { cylinders } = reportUnit(assessed).charts.find(({ measure }) => measure === "leak-down") ?? {};
  const last = cylinders?.[0]?.fan.at(-1);
  if (last === undefined) throw new Error("no fan");
  return last;
};

describe("a factor on the ranges of a kind", () => {
  const plain = under();
  const wide = under(width);

  it("widens fan, rate and crossing, and leaves the likely level", () => {
    const [before, after] = [fan(plain), fan(wide)];
    expect((after.p75 - after.p25) / (before.p75 - before.p25)).toBeGreaterThan(1.3);
    const measureOf = ({ assessment }: typeof plain) => {
      const of = assessment.cylinders[0]?.measures.find(({ measure }) => measure === "leak-down");
      if (of?.level == null || of.rate?.p10 == null || of.rate.p90 == null) throw new Error("nothing is told");
      return { level: of.level, rate: of.rate.p90 - of.rate.p10 };
    };
    expect(Math.abs(measureOf(wide).level - measureOf(plain).level)).toBeLessThan(0.15);
    expect(measureOf(wide).rate / measureOf(plain).rate).toBeCloseTo(1.6, 1);
    const early = ({ assessment }: typeof plain) =>
      assessment.cylinders[0]?.measures.find(({ measure }) => measure === "leak-down")?.crossing?.date.p10 ?? "";
    expect(early(plain)).toMatch(/^20/);
    expect(early(wide) < early(plain)).toBe(true);
  });

  it("of another model, measure or meter unit changes nothing", () => {
    const others = [
      { ...width, engineModel: "other" },
      { ...width, measure: "compression-dry" },
      { ...width, meterUnit: "h" },
    ] as const;
    expect(reportUnit(under(...others))).toEqual(reportUnit(plain));
  });

  it("is told with how sure it is, and kept with what the assessment was made from", () => {
    const report = reportUnit(wide);
    expect(report.howSure).toContain("Ranges of leak-down are widened by 60 %, as this model’s past forecasts asked.");
    expect(report.basis.widths).toEqual({ "leak-down": 1.6 });
    const { howSure, basis } = reportUnit(plain);
    expect(howSure).not.toContain("past forecasts");
    expect(basis).not.toHaveProperty("widths");
  });

  it("is told of both measures in one sentence", () =>
    expect(widthWords({ "compression-dry": 0.8, "leak-down": 1.25 })).toBe(
      "Ranges of leak-down are widened by 25 %, of compression are narrowed by 20 %, as this model’s past forecasts asked.",
    ));
});
