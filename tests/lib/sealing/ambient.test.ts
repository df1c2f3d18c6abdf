import { expect, test } from "vitest";
import type { TestFact } from "@/lib/schema/facts.ts";
import { unknownAltitudeSdShare } from "@/lib/sealing/seal-test.ts";
import type { SealedTest } from "@/lib/sealing/types.ts";
import { depotFact, engineOf, indexed, reading, testFact, unitFact } from "./facts.ts";

/** A compression test of 1,000 kPa through the whole stage; Highcol lies at 1,850 m, Midfell at 620 m. */
function compressionTest(changes: Partial<TestFact>, usualDepot: string | null = null): SealedTest {
  const readings = [reading({ value: 1000, valueUnit: "kPa", firstStroke: 600 })];
  const depots = [depotFact("Highcol", 1850), depotFact("Midfell", 620), depotFact("Unmapped", null)];
  const tests = [testFact({ test: "compression-dry", readings, ...changes })];
  const sealed = engineOf(indexed({ depots, units: [unitFact({ depot: usualDepot })], tests })).tests[0];
  if (sealed === undefined) throw new Error("the test was left out");
  return sealed;
}
const kpaOf = (sealed: SealedTest) => sealed.readings[0]?.value ?? Number.NaN;
// Shares of sea-level pressure by the standard atmosphere, to two digits.
const [from620, from1850] = [1000 / 0.93, 1000 / 0.8];

test("the test's altitude goes before its depot, its depot before the unit's usual one", () => {
  const highcol = { depot: "Highcol" };
  expect(kpaOf(compressionTest({ ...highcol, altitudeM: 0 }, "Midfell"))).toBe(1000);
  expect(kpaOf(compressionTest(highcol, "Midfell"))).toBeCloseTo(from1850, -1);
  expect(kpaOf(compressionTest({}, "Midfell"))).toBeCloseTo(from620, -1);
  expect(kpaOf(compressionTest({ depot: "Unmapped" }, "Midfell"))).toBeCloseTo(from620, -1);
  expect(compressionTest(highcol).referral).toEqual(["referred from 1,850 m to sea level"]);
  expect(compressionTest(highcol).readings[0]?.referralSd).toBe(0);
});

test("a barometer goes before everything: it was measured", () => {
  const sealed = compressionTest({ barometerKpa: 81.06, altitudeM: 0, depot: "Midfell" });
  expect(kpaOf(sealed)).toBeCloseTo(1250, 9);
});

test("where nothing tells the place, it is where the unit was mostly tested up to then", () => {
  const readings = [reading({ value: 1000, valueUnit: "kPa" })];
  const at = (date: string, changes: Partial<TestFact> = {}) =>
    testFact({ test: "compression-dry", date, meter: 1000, readings, ...changes });
  const sealed = engineOf(
    indexed({
      depots: [depotFact("Highcol", 1850), depotFact("Unmapped", null)],
      units: [unitFact({ depot: "Unmapped" })],
      tests: [
        at("2025-01-01"),
        at("2025-02-01", { altitudeM: 620 }),
        at("2025-03-01", { depot: "Highcol" }),
        at("2025-03-01", { attempt: 2 }),
        at("2025-04-01", { altitudeM: 60_000 }),
        at("2025-05-01", { altitudeM: 620 }),
        at("2025-06-01", { altitudeM: 620 }),
        at("2025-07-01", { altitudeM: 1850 }),
        at("2025-08-01"),
        at("2025-09-01", { altitudeM: 0 }),
      ],
    }),
  ).tests;
  const told = (date: string, attempt = 1) => sealed.find((t) => t.date === date && t.attempt === attempt);
  expect(told("2025-01-01")?.referral).toEqual(["altitude not known: sea level assumed, with a wider error"]);
  // Once each: the latest.
  expect(told("2025-03-01", 2)?.referral).toEqual(["referred from 1,850 m (the unit's usual altitude) to sea level"]);
  expect(told("2025-04-01")?.referral).toContain("referred from 1,850 m (the unit's usual altitude) to sea level");
  const last = told("2025-08-01");
  expect(last?.referral).toEqual(["referred from 620 m (the unit's usual altitude) to sea level"]);
  expect(last?.readings[0]?.value).toBeCloseTo(from620, -1);
  expect(last?.readings[0]?.referralSd).toBe(0);
  expect(told("2025-09-01")?.readings[0]?.value).toBe(1000);
});

test("with no place known sea level is assumed, with a wider error", () => {
  const sealed = compressionTest({});
  expect(sealed.readings[0]?.value).toBe(1000);
  expect(sealed.readings[0]?.referralSd).toBeCloseTo(1000 * unknownAltitudeSdShare, 9);
  expect(sealed.referral).toEqual(["altitude not known: sea level assumed, with a wider error"]);
});

test("figures that no place has are passed over and said so", () => {
  const hectopascal = compressionTest({ barometerKpa: 1013, depot: "Midfell" });
  expect(kpaOf(hectopascal)).toBeCloseTo(from620, -1);
  expect(hectopascal.referral[0]).toContain("1,013 kPa cannot be");
  expect(kpaOf(compressionTest({ altitudeM: 60_000, depot: "Midfell" }))).toBeCloseTo(from620, -1);
});

test("the first stroke is a share of the final value, whatever the altitude", () => {
  expect(compressionTest({ depot: "Highcol" }).readings[0]?.firstStrokeShare).toBe(0.6);
});
