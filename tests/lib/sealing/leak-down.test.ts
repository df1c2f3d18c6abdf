import fc from "fast-check";
import { expect, test } from "vitest";
import { conversion, conversionSdShare, usualTester } from "@/lib/sealing/leak-down.ts";
import { testerInUse } from "@/lib/sealing/orifice.ts";
import { absKpa } from "@/lib/units.ts";
import { model, sealedLeakage } from "./facts.ts";

const usual = usualTester(model());
const tester = (orificeMm: number, supplyKpa = 550) =>
  testerInUse({ orificeMm, supplyKpa, ambientAbsKpa: absKpa(101.325) });

test("a model without leak-down limits has the common tester", () => {
  const { leakDown: _, ...judgedOnCompression } = model();
  expect(usualTester(judgedOnCompression)).toEqual(tester(1.016));
});

test("on the usual tester at sea level the percentage stands as entered", () => {
  fc.assert(
    fc.property(fc.double({ min: 0, max: 100, noNaN: true }), (value) => {
      for (const supply of [null, 550, 551.58]) {
        const sealed = sealedLeakage({ value, supply }, { orificeMm: 1.016 });
        expect(sealed.value).toBe(value);
        expect(sealed.referralSd).toBe(0);
      }
    }),
    { numRuns: 50 },
  );
});

test("a 1.5 mm bore's 4.5 % is about 20 %, give or take 30 % of itself in nine cases of ten", () => {
  const limits = { watchPercent: 10, planPercent: 20, limitPercent: 30, orificeMm: 1, supplyKpa: 550 };
  const area = sealedLeakage({ value: 4.5 }, { orificeMm: 1.5 }).leakAreaMm2;
  const onOne = usualTester(model({ leakDown: limits }));
  expect(conversionSdShare(tester(1.5), onOne) * 1.645).toBeCloseTo(0.3, 12);
  const sealed = sealedLeakage({ value: 4.5 }, { orificeMm: 1.5 });
  expect(sealed.value).toBeGreaterThan(18.5);
  expect(sealed.value).toBeLessThan(20.5);
  expect(sealed.referralSd).toBeCloseTo((0.3 / 1.645) * sealed.value, 12);
  expect(sealed.leakAreaMm2).toBe(area);
});

test("the error grows with how unlike the testers are, and is small where only the supply differs", () => {
  const share = (orificeMm: number, supplyKpa: number) => conversionSdShare(tester(orificeMm, supplyKpa), usual);
  expect(share(1.016, 550)).toBe(0);
  expect(share(1, 550)).toBeLessThan(0.03 / 1.645);
  expect(share(1, 550)).toBeLessThan(share(1.1, 550));
  expect(share(1.1, 550)).toBeLessThan(share(1.3, 550));
  expect(share(1.3, 550)).toBe(share(2, 550));
  expect(share(1.016, 275) * 1.645).toBeCloseTo(0.05, 12);
  expect(share(1.016, 1100) * 1.645).toBeCloseTo(0.05, 12);
  expect(conversion(tester(1.016, 540), usual).isUsual).toBe(false);
  expect(conversion(tester(1.016, 551.58), usual)).toMatchObject({ isUsual: true, sdShare: 0 });
});

test("altitude moves a leakage by what the flow model says and no more", () => {
  const sealed = sealedLeakage({ value: 19.4 }, { altitudeM: 1850 });
  expect(sealed.value).toBeCloseTo(20, 1);
  expect(sealed.referralSd).toBe(0);
});

test("a held pressure, a percentage and another unit of pressure tell the same", () => {
  const unit = fc.constantFrom("kPa", "bar", "psi", "kgf/cm2" as const);
  const held = fc.double({ min: 0, max: 1, noNaN: true });
  fc.assert(
    fc.property(unit, held, fc.double({ min: 1, max: 10, noNaN: true }), (valueUnit, share, supply) => {
      const sealed = sealedLeakage({ value: share * supply, valueUnit, supply }, { orificeMm: 1.2 });
      const kpa = { kPa: 1, bar: 100, psi: 6.894757293168361, "kgf/cm2": 98.0665 }[valueUnit];
      const percent = sealedLeakage({ value: 100 * (1 - share), supply: supply * kpa }, { orificeMm: 1.2 });
      expect(sealed.value).toBeCloseTo(percent.value, 9);
      expect(sealed.enteredUnit).toBe(valueUnit);
    }),
    { numRuns: 100 },
  );
});
