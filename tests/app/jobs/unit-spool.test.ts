import { describe, expect, it } from "vitest";
import { type UnitSpool, unitSpool } from "@/app/_jobs/unit-spool.ts";
import { meterReading, reading, test } from "../../db/made-up.ts";

function unitsIn(spool: UnitSpool) {
  const found = [...spool.batches()].flat();
  spool.close();
  return found;
}

const nothing = { units: [], tests: [], repairs: [], meterReadings: [], checks: [], judgements: [] };

describe("the spool of unit rows", () => {
  it.each([
    ["held in memory", undefined],
    ["written to a file", 500],
  ])("gives back every row of a unit together: %s", (_, mostHeld) => {
    const spool = unitSpool(mostHeld);
    const remarks = "ö".repeat(2000);
    const units = Array.from({ length: 40 }, (_, i) => `B-${i}`);
    for (let round = 0; round < 60; round++) {
      const tests = units.map((unit) => test({ unit, meter: round, readings: [reading(1, round, { remarks })] }));
      spool.add({ ...nothing, tests, meterReadings: [meterReading({ unit: "B-7", meter: round })] });
    }
    expect(spool.units().size).toBe(40);
    const found = unitsIn(spool);
    expect(found.map((rows) => rows.unit).sort()).toEqual([...units].sort());
    const rounds = Array.from({ length: 60 }, (_, i) => i);
    for (const rows of found) {
      expect(rows.tests.map((t) => t.meter)).toEqual(rounds);
      expect(rows.tests.every((t) => t.unit === rows.unit && t.readings[0]?.remarks === remarks)).toBe(true);
      expect(rows.meterReadings.map((m) => m.meter)).toEqual(rows.unit === "B-7" ? rounds : []);
    }
  });

  it("orders units by their names alone", () => {
    const names = Array.from({ length: 300 }, (_, i) => `U${i}`);
    const order = (units: readonly string[], mostHeld?: number) => {
      const spool = unitSpool(mostHeld);
      for (const unit of units) spool.add({ ...nothing, tests: [test({ unit })] });
      return unitsIn(spool).map((rows) => rows.unit);
    };
    expect(order(names.toReversed(), 100)).toEqual(order(names));
  });
});
