import { describe, expect, test } from "vitest";
import type { AssessedUnit } from "@/lib/assess.ts";
import { datesOnAxis } from "@/lib/assessment/axis.ts";
import { meterFact, repairFact, unitFact } from "../sealing/facts.ts";
import { assessedUnit, halfYearly, leakDown, worn } from "./made-up-fleet.ts";

const axis = ({ unit, state, telling, xNow }: AssessedUnit) =>
  datesOnAxis(unit, state.conditioned.history, telling, xNow);

function expectAscending(points: ReturnType<typeof axis>) {
  for (const [i, point] of points.entries()) {
    const last = points[i - 1];
    if (last === undefined) continue;
    expect(point.x).toBeGreaterThan(last.x);
    expect(point.date > last.date).toBe(true);
  }
}

const units = [unitFact()];
const tests = halfYearly(worn(4, 6, 1));

describe("dates along the axis", () => {
  test("known ones of tests, repairs and readings, then now, then each quarter up to the horizon", () => {
    const repairs = [repairFact({ date: "2025-09-10", meter: 87_000 })];
    const meterReadings = [meterFact({ date: "2024-08-08", meter: 70_000 })];
    const assessed = assessedUnit({ units, tests, repairs, meterReadings }, { horizonYears: 1 });
    const points = axis(assessed);
    expectAscending(points);
    expect(points.map(({ date }) => date)).toEqual([
      "2024-08-08",
      "2024-12-01",
      "2025-06-01",
      "2025-09-10",
      "2025-12-01",
      "2026-06-01",
      "2026-06-30",
      "2026-09-30",
      "2026-12-30",
      "2027-03-30",
      "2027-06-30",
    ]);
    expect(points.slice(0, 6).map(({ x }) => x)).toEqual([70_000, 73_000, 82_000, 87_000, 91_000, 100_000]);
    expect(points[6]?.x).toBe(assessed.xNow);
    // 92 days from 30 June to 30 September.
    expect((points[7]?.x ?? 0) - assessed.xNow).toBeCloseTo(92 * assessed.telling.use.perDay, 6);
  });

  test("a meter that stood still and a day with two readings give one point each", () => {
    const meterReadings = [
      meterFact({ date: "2026-06-10", meter: 100_000 }),
      meterFact({ date: "2026-06-20", meter: 100_500 }),
    ];
    const attempt = leakDown("2026-06-01", 100_000, [6, 6, 6, 6], { attempt: 2 });
    const points = axis(assessedUnit({ units, tests: [...tests, attempt], meterReadings }));
    expectAscending(points);
    expect(points.filter(({ x }) => x === 100_000)).toEqual([{ x: 100_000, date: "2026-06-01" }]);
  });

  test("a unit that has stood still since its last test is there today, not then", () => {
    const meterReadings = [meterFact({ date: "2026-06-30", meter: 100_000 })];
    const points = axis(assessedUnit({ units, tests, meterReadings }));
    expectAscending(points);
    expect(points.filter(({ x }) => x === 100_000)).toEqual([{ x: 100_000, date: "2026-06-30" }]);
  });

  test("it goes on over a new meter", () => {
    const reset = [
      meterFact({ date: "2025-12-20", meter: 92_000 }),
      meterFact({ date: "2025-12-21", meter: 0, meterReset: true }),
    ];
    const after = tests.map((t) => (t.date < "2026" ? t : { ...t, meter: 8000 }));
    const points = axis(assessedUnit({ units, tests: after, meterReadings: reset }));
    expectAscending(points);
    expect(points.find(({ date }) => date === "2026-06-01")?.x).toBeCloseTo(100_000, 6);
  });

  test("an engine fitted from another unit brings its own dates, and none of its new unit's from before", () => {
    const engineSerial = "E-7";
    const facts = {
      units: [unitFact({ unit: "V-100" }), unitFact()],
      tests: [
        leakDown("2024-06-01", 50_000, [6, 6, 6, 6], { unit: "V-100", engineSerial }),
        leakDown("2025-06-01", 60_000, [7, 7, 7, 7], { unit: "V-100", engineSerial }),
        leakDown("2026-03-01", 5000, [7, 7, 7, 7], { engineSerial }),
      ],
      repairs: [repairFact({ date: "2025-07-01", meter: 1000, scope: "engine-swap", engineSerial })],
      meterReadings: [
        meterFact({ date: "2024-09-01", meter: 100 }),
        meterFact({ date: "2025-03-01", meter: 500 }),
        meterFact({ date: "2026-05-01", meter: 6000 }),
      ],
    };
    const assessed = assessedUnit(facts);
    expect(assessed.unit.engine).toBe("E-7");
    const points = axis(assessed);
    expectAscending(points);
    // It did not run between its last test in V-100 and the day on which it was fitted: one point for both.
    expect(points.filter(({ date }) => date < "2026-06").map(({ date }) => date)).toEqual([
      "2024-06-01",
      "2025-06-01",
      "2026-03-01",
      "2026-05-01",
    ]);
  });
});
