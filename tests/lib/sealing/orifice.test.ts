import fc from "fast-check";
import { expect, test } from "vitest";
import { leakAreaMm2, leakagePercent, type TesterInUse, testerInUse } from "@/lib/sealing/orifice.ts";
import { absKpa } from "@/lib/units.ts";

const usual = testerInUse({ orificeMm: 1.016, supplyKpa: 550, ambientAbsKpa: absKpa(101.325) });

/** Any tester on any ground: supplies from a breath to shop air, so that every branch of the flow comes up. */
const anyTester = fc
  .record({
    orificeMm: fc.double({ min: 0.3, max: 6, noNaN: true }),
    supplyKpa: fc.oneof(fc.double({ min: 1, max: 300, noNaN: true }), fc.double({ min: 300, max: 1500, noNaN: true })),
    ambientKpa: fc.double({ min: 22, max: 108, noNaN: true }),
  })
  .map(({ ambientKpa, ...tester }) => testerInUse({ ...tester, ambientAbsKpa: absKpa(ambientKpa) }));

/** Leakages crowded at both ends, where digits are lost. */
const anyLeakage = fc.oneof(
  fc.double({ min: 1e-12, max: 100, noNaN: true }),
  fc.double({ min: -12, max: 0, noNaN: true }).map((exponent) => 10 ** exponent),
  fc.double({ min: -6, max: 0, noNaN: true }).map((exponent) => 100 - 10 ** exponent),
);

test("percentage to area and back is the same percentage, to 1e-9 of itself, on every tester", () => {
  fc.assert(
    fc.property(anyTester, anyLeakage, (tester, leakage) => {
      const back = leakagePercent(tester, leakAreaMm2(tester, leakage));
      expect(Math.abs(back - leakage)).toBeLessThanOrEqual(1e-9 * leakage);
    }),
    { numRuns: 5000 },
  );
});

test("area to percentage and back is the same area, to 1e-9, while a percentage can hold it", () => {
  const areaRatio = fc.double({ min: -7, max: 1.5, noNaN: true }).map((exponent) => 10 ** exponent);
  fc.assert(
    fc.property(anyTester, areaRatio, (tester, ratio) => {
      const area = ratio * tester.orificeAreaMm2;
      expect(Math.abs(leakAreaMm2(tester, leakagePercent(tester, area)) / area - 1)).toBeLessThan(1e-9);
    }),
    { numRuns: 5000 },
  );
});

test("agrees with plain bisection of the balance of flows", () => {
  const psi = (ratio: number) => {
    const r = Math.max(ratio, (2 / 2.4) ** 3.5);
    return Math.sqrt(7 * (r ** (2 / 1.4) - r ** (2.4 / 1.4)));
  };
  const bisected = (tester: TesterInUse, area: number) => {
    let [low, high] = [tester.ambientAbsKpa as number, tester.supplyAbsKpa as number];
    for (let i = 0; i < 100; i++) {
      const held = (low + high) / 2;
      const flowIn = tester.orificeAreaMm2 * tester.supplyAbsKpa * psi(held / tester.supplyAbsKpa);
      if (flowIn > area * held * psi(tester.ambientAbsKpa / held)) low = held;
      else high = held;
    }
    return (100 * (tester.supplyAbsKpa - low)) / tester.supplyKpa;
  };
  fc.assert(
    fc.property(anyTester, fc.double({ min: 0.05, max: 10, noNaN: true }), (tester, ratio) => {
      const area = ratio * tester.orificeAreaMm2;
      expect(leakagePercent(tester, area)).toBeCloseTo(bisected(tester, area), 8);
    }),
    { numRuns: 500 },
  );
});

test("a larger leak shows a higher percentage, everywhere", () => {
  const area = fc.double({ min: 1e-6, max: 1e4, noNaN: true });
  const more = fc.double({ min: 1.000001, max: 100, noNaN: true });
  fc.assert(
    fc.property(anyTester, area, more, (tester, leak, factor) => {
      const [less, larger] = [leakagePercent(tester, leak), leakagePercent(tester, leak * factor)];
      expect(larger).toBeGreaterThanOrEqual(less);
      if (less < 99) expect(larger).toBeGreaterThan(less);
    }),
    { numRuns: 2000 },
  );
});

test("a larger bore shows the same leak as less; so does a higher supply, at leakages that a tester is used for", () => {
  const leakage = fc.double({ min: 0.1, max: 50, noNaN: true });
  const more = fc.double({ min: 1.001, max: 3, noNaN: true });
  fc.assert(
    fc.property(anyTester, leakage, more, (tester, shown, factor) => {
      const area = leakAreaMm2(tester, shown);
      const wider = testerInUse({ ...tester, orificeMm: tester.orificeMm * factor });
      const stronger = testerInUse({ ...tester, supplyKpa: tester.supplyKpa * factor });
      expect(leakagePercent(wider, area)).toBeLessThan(shown);
      expect(leakagePercent(stronger, area)).toBeLessThan(shown * (1 + 1e-9));
    }),
  );
});

test("the ends: nothing leaks, everything leaks", () => {
  expect(leakAreaMm2(usual, 0)).toBe(0);
  expect(leakAreaMm2(usual, 100)).toBe(Number.POSITIVE_INFINITY);
  expect(leakagePercent(usual, 0)).toBe(0);
  expect(leakagePercent(usual, Number.POSITIVE_INFINITY)).toBe(100);
  for (const area of [Number.MIN_VALUE, 1e-200, 1e200, Number.MAX_VALUE]) {
    for (const tester of [usual, testerInUse({ ...usual, supplyKpa: 20 })]) {
      const leakage = leakagePercent(tester, area);
      expect(leakage).toBeGreaterThanOrEqual(0);
      expect(leakage).toBeLessThanOrEqual(100);
      expect(Math.abs(leakage - (area < 1 ? 0 : 100))).toBeLessThan(1e-9);
    }
  }
});

test("what cannot be is a programmer's mistake", () => {
  expect(() => leakAreaMm2(usual, -0.001)).toThrow(RangeError);
  expect(() => leakAreaMm2(usual, 100.001)).toThrow(RangeError);
  expect(() => leakAreaMm2(usual, Number.NaN)).toThrow(RangeError);
  expect(() => leakagePercent(usual, -1)).toThrow(RangeError);
  expect(() => leakagePercent(usual, Number.NaN)).toThrow(RangeError);
  expect(() => testerInUse({ ...usual, supplyKpa: 0 })).toThrow(RangeError);
  expect(() => testerInUse({ ...usual, orificeMm: Number.NaN })).toThrow(RangeError);
});
