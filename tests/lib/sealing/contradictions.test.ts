import fc from "fast-check";
import { expect, test } from "vitest";
import type { FleetFacts } from "@/lib/schema/facts.ts";
import { repairScopes } from "@/lib/schema/words.ts";
import { indexFleet } from "@/lib/sealing/seal.ts";
import { fleet, meterFact, repairFact, testFact, unitFact } from "./facts.ts";

/** Facts as if written by people who never spoke to each other: any date, any meter, any serial, anywhere. */
const unit = fc.constantFrom("V-101", "V-102", "G-501");
const serial = fc.constantFrom(null, null, "S1", "S2", "S3");
const date = fc
  .integer({ min: 0, max: 12 })
  .map((month) => `${2024 + Math.floor(month / 12)}-${String((month % 12) + 1).padStart(2, "0")}-01`);
const meter = fc.integer({ min: 0, max: 20 }).map((n) => n * 100);
const engineSerial = serial;
const anyFleet: fc.Arbitrary<FleetFacts> = fc
  .record({
    serials: fc.tuple(serial, serial, serial),
    inService: fc.option(fc.record({ inServiceDate: date, inServiceMeter: meter }), { nil: {} }),
    tests: fc.uniqueArray(fc.record({ unit, date, meter, engineSerial }), {
      maxLength: 12,
      selector: (t) => `${t.unit} ${t.date}`,
    }),
    repairs: fc.uniqueArray(fc.record({ unit, date, meter, engineSerial, scope: fc.constantFrom(...repairScopes) }), {
      maxLength: 8,
      selector: (r) => `${r.unit} ${r.date} ${r.scope}`,
    }),
    meterReadings: fc.array(fc.record({ unit, date, meter, meterReset: fc.boolean() }), { maxLength: 5 }),
  })
  .map(({ serials, inService, tests, repairs, meterReadings }) =>
    fleet({
      units: [
        unitFact({ engineSerial: serials[0], ...inService }),
        unitFact({ unit: "V-102", engineSerial: serials[1], meterUnit: "mi" }),
        unitFact({ unit: "G-501", engineSerial: serials[2], meterUnit: "h" }),
      ],
      tests: tests.map((t) =>
        testFact({ ...t, meterUnit: ({ "V-101": "km", "V-102": "mi", "G-501": "h" } as const)[t.unit] }),
      ),
      repairs: repairs.map(repairFact),
      meterReadings: meterReadings.map(meterFact),
    }),
  );

const everythingOf = (facts: FleetFacts) => {
  const index = indexFleet(facts, { asOf: "2026-01-01" });
  return { units: index.units, engines: index.engineKeys.map((key) => index.seal(key)) };
};

test("whatever contradicts what, every unit has one engine and every fact at most one place", () => {
  fc.assert(
    fc.property(anyFleet, (facts) => {
      const { units, engines } = everythingOf(facts);
      expect(units.map((u) => u.unit)).toEqual(["G-501", "V-101", "V-102"]);
      for (const u of units) {
        const open = engines.filter((e) => e.fittings.some((f) => f.unit === u.unit && f.toDate === null));
        expect(open.map((e) => e.engine)).toEqual([u.engine]);
        expect(open[0]?.meterUnit).toBe(u.meterUnit);
      }
      const tests = engines.flatMap((e) => e.tests.map((t) => `${t.unit} ${t.date}`));
      expect(new Set(tests).size).toBe(tests.length);
      expect(tests.length).toBeLessThanOrEqual(facts.tests.length);
      const repairs = engines.flatMap((e) => e.repairs);
      expect(repairs.length).toBeLessThanOrEqual(facts.repairs.length);
      expect(repairs.filter((r) => r.scope === "engine-swap")).toHaveLength(
        facts.repairs.filter((r) => r.scope === "engine-swap").length,
      );
      // A test or a repair that has no place is never lost in silence.
      if (tests.length < facts.tests.length || repairs.length < facts.repairs.length) {
        expect(units.flatMap((u) => u.warnings)).not.toEqual([]);
      }
      for (const { tests: sealed, repairs: done, fittings } of engines) {
        for (const { x } of [...sealed, ...done]) expect(Number.isFinite(x)).toBe(true);
        for (let i = 1; i < fittings.length; i++) expect(fittings[i]?.fromX).toBeCloseTo(fittings[i - 1]?.toX ?? -1, 6);
        for (const { fromX, toX } of fittings) expect(toX ?? fromX).toBeGreaterThanOrEqual(fromX - 1e-6);
      }
    }),
    { numRuns: 2000 },
  );
});

test("and it does not hang on the order in which they are told", () => {
  fc.assert(
    fc.property(anyFleet, fc.integer(), (facts, seed) => {
      const [turned] = fc.sample(
        fc.record({
          tests: fc.shuffledSubarray([...facts.tests], { minLength: facts.tests.length }),
          repairs: fc.shuffledSubarray([...facts.repairs], { minLength: facts.repairs.length }),
          meterReadings: fc.shuffledSubarray([...facts.meterReadings], { minLength: facts.meterReadings.length }),
        }),
        { seed, numRuns: 1 },
      );
      expect(everythingOf({ ...facts, ...turned })).toEqual(everythingOf(facts));
    }),
    { numRuns: 500 },
  );
});
