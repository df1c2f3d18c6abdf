import { describe, expect, test } from "vitest";
import { findingOf } from "@/lib/assessment/finding.ts";
import { laggingOf } from "@/lib/assessment/lagging.ts";
import { diagnoseEngine } from "@/lib/cause/diagnose.ts";
import { nextSteps } from "@/lib/cause/next-steps.ts";
import { reportUnit } from "@/lib/report.ts";
import type { MeasureAssessment, UnitAssessment } from "@/lib/schema/assessment.ts";
import { asOf as causeDay, engine, leakDowns } from "../cause/engines.ts";
import { unitFact } from "../sealing/facts.ts";
import { asOf, compression, cylinder, leakage, unitOf } from "./documents.ts";
import { assessedUnit, dry, leakDown, petrol4 } from "./made-up-fleet.ts";

const fast = { perThousand: 1.5, p10: 1.1, p90: 1.9 };
/** Cylinder 1 leaks 22 of 28 %, 1.5 points more each 1,000 km at 100 km a day; its compression 7 % below the others. */
const unit = (own: Partial<MeasureAssessment> = {}, kpa = 1116, changes: Partial<UnitAssessment> = {}) =>
  unitOf(
    [
      cylinder(
        1,
        [leakage(22, { limit: 28, band: "plan", rate: fast, ...own }), compression(kpa)],
        ["exhaust-valve", 0.9],
      ),
      ...[2, 3, 4].map((n) => cylinder(n, [leakage(8), compression(1200)])),
    ],
    changes,
  );

describe("leakage near its limit at a fault's rate, compression hardly moved", () => {
  test("the finding says that compression lags, and what to do", () => {
    expect(findingOf(unit(), asOf)).toContain(
      "Compression lags, only 7 % below the others: inspect before the next trip away.",
    );
    expect(laggingOf(unit())?.step.title).toBe("Inspect before the next trip away");
    expect(laggingOf(unit({}, 1200))?.words).toContain("as high as the others’");
    const hours = { meter: { value: 5_000, unit: "h", perDay: 100 } } as const;
    expect(laggingOf(unit({}, 1116, hours))?.step.title).toBe("Inspect before the next long run");
  });

  test("not where it grows as wear does, lies far from the limit, or compression has fallen as well", () => {
    expect(laggingOf(unit({ rate: { perThousand: 0.1, p10: 0.05, p90: 0.15 } }))).toBeNull();
    expect(laggingOf(unit({ rate: { ...fast, p10: -0.5 } }))).toBeNull();
    expect(laggingOf(unit({ level: 12, latest: 12 }))).toBeNull();
    expect(laggingOf(unit({ band: "watch" }))).toBeNull();
    expect(laggingOf(unit({}, 1050))).toBeNull();
    expect(findingOf(unit({}, 1050), asOf)).not.toContain("lags");
  });

  test("the step comes first, before what settles the cause", () => {
    const [diagnosis] = diagnoseEngine(engine({ tests: leakDowns([[22, 8, 8, 8]], ["exhaust"]) }), { asOf: causeDay });
    if (diagnosis === undefined) throw new Error("no cylinder 1");
    const steps = nextSteps(diagnosis, { model: petrol4, band: "plan", first: laggingOf(unit())?.step ?? null });
    expect(steps[0]?.title).toBe("Inspect before the next trip away");
    expect(steps.length).toBeGreaterThan(1);
  });
});

describe("one odd compression reading beside normal leakage of the same day", () => {
  const days = ["2023-12-01", "2024-06-01", "2024-12-01", "2025-06-01", "2025-12-01", "2026-06-01"];
  const told = (leakages: readonly number[], odd = [845]) => {
    const tests = days.flatMap((date, i) => {
      const meter = 100_000 - 9_000 * (5 - i);
      const kpa = odd[i - (6 - odd.length)] ?? 1198;
      return [leakDown(date, meter, leakages), dry(date, meter, [1205, kpa, 1202, 1199])];
    });
    return reportUnit(assessedUnit({ units: [unitFact()], tests }));
  };

  test.each([
    [[15, 15, 16, 15], "watch"],
    [[12, 11, 12, 11], "watch"],
    [[8, 9, 8, 8], "sound"],
  ] as const)("all leak %j: %s, told in doubt, and tested again first", (leakages, band) => {
    const report = told(leakages);
    expect(report.assessment.band).toBe(band);
    expect(report.finding).toContain("cylinder 2 reads 29 % below its place beside the others");
    expect(report.finding).not.toMatch(/past its limit/i);
    expect(report.next[0]?.title).toBe("Repeat the compression test of cylinder 2");
    expect(report.assessment.cylinders[1]?.bottomEnd).toBeLessThan(0.15);
  });

  test("a second one bears it out: past the limit, by the valve gear and not by the bottom end", () => {
    const report = told([15, 15, 16, 15], [850, 845]);
    expect(report.assessment.band).toBe("past-limit");
    expect(report.finding).toContain("a top-end repair");
    expect(report.assessment.cylinders[1]?.topEnd).toBeGreaterThan(0.7);
  });
});
