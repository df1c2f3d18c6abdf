import { describe, expect, it } from "vitest";
import { type UnitSpool, unitSpool } from "@/app/_jobs/unit-spool.ts";
import { meterReading, reading, test } from "../../db/made-up.ts";

async function unitsIn(spool: UnitSpool) {
  const found = [];
  for await (const batch of spool.batches()) found.push(...batch);
  await spool.close();
  return found;
}

const nothing = { units: [], tests: [], repairs: [], meterReadings: [], checks: [], judgements: [] };

describe("the spool of unit rows", () => {
  it("gives back every row of a unit together, also what it had to write to a file", async () => {
    const spool = unitSpool();
    const remarks = "ö".repeat(2000);
    const units = Array.from({ length: 40 }, (_, i) => `B-${i}`);
    for (let round = 0; round < 60; round++) {
      const tests = units.map((unit) => test({ unit, meter: round, readings: [reading(1, round, { remarks })] }));
      await spool.add({ ...nothing, tests, meterReadings: [meterReading({ unit: "B-7", meter: round })] });
    }
    expect(spool.units().size).toBe(40);
    const found = await unitsIn(spool);
    expect(found.map((rows) => rows.unit).sort()).toEqual([...units].sort());
    const rounds = Array.from({ length: 60 }, (_, i) => i);
    for (const rows of found) {
      expect(rows.tests.map((t) => t.meter)).toEqual(rounds);
      expect(rows.tests.every((t) => t.unit === rows.unit && t.readings[0]?.remarks === remarks)).toBe(true);
      expect(rows.meterReadings.map((m) => m.meter)).toEqual(rows.unit === "B-7" ? rounds : []);
    }
  });

  it("orders units by their names alone", async () => {
    const names = Array.from({ length: 300 }, (_, i) => `U${i}`);
    const order = async (units: readonly string[]) => {
      const spool = unitSpool();
      for (const unit of units) await spool.add({ ...nothing, tests: [test({ unit })] });
      return (await unitsIn(spool)).map((rows) => rows.unit);
    };
    expect(await order(names.toReversed())).toEqual(await order(names));
  });
});
