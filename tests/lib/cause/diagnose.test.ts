import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { diagnoseEngine, notTestedYet } from "@/lib/cause/diagnose.ts";
import type { CylinderDiagnosis } from "@/lib/cause/types.ts";
import { causeShareSchema } from "@/lib/schema/assessment.ts";
import { type Cause, causes, type Place, places, repairClassOf } from "@/lib/schema/words.ts";
import { asOf, compressions, type EngineGiven, engine, leakDowns, petrol4, type TestGiven } from "./engines.ts";

const diagnose = (given: EngineGiven) => diagnoseEngine(engine(given), { asOf });
const share = (diagnosis: CylinderDiagnosis | undefined, cause: Cause) =>
  diagnosis?.causes.find((one) => one.cause === cause)?.probability ?? Number.NaN;

const readings = fc.array(
  fc.record({
    value: fc.double({ min: 0, max: 100, noNaN: true }),
    heardAt: fc.uniqueArray(fc.constantFrom(...places), { maxLength: 3 }),
    firstStrokeShare: fc.double({ min: 0.2, max: 1, noNaN: true }),
    weight: fc.constantFrom(0, 0.3, 1),
  }),
  { minLength: 4, maxLength: 4 },
);
const anyTest = fc
  .record({
    measure: fc.constantFrom("leak-down" as const, "compression-dry" as const, "compression-wet" as const),
    day: fc.integer({ min: 1, max: 28 }),
    month: fc.integer({ min: 1, max: 6 }),
    readings,
  })
  .map(({ measure, day, month, readings: rows }): TestGiven => {
    const date = `2026-${String(month).padStart(2, "0")}-${String(day).padStart(2, "0")}`;
    const scale = measure === "leak-down" ? 1 : 12;
    return { measure, date, x: 1000 * month + 10 * day, readings: rows.map((r) => ({ ...r, value: r.value * scale })) };
  });
const anyHistory = fc.array(anyTest, { maxLength: 10 }).map((tests) => tests.toSorted((a, b) => a.x - b.x));

describe("diagnoseEngine", () => {
  test("shares and classes add up to 1, descend, and fit the assessment's schema, whatever the tests", () => {
    fc.assert(
      fc.property(anyHistory, (tests) => {
        const diagnoses = diagnose({ tests });
        expect(diagnoses.map(({ cylinder }) => cylinder)).toEqual([1, 2, 3, 4]);
        for (const diagnosis of diagnoses) {
          const probabilities = diagnosis.causes.map(({ probability }) => probability);
          expect(new Set(diagnosis.causes.map(({ cause }) => cause))).toEqual(new Set(causes));
          expect(Math.abs(probabilities.reduce((sum, p) => sum + p, 0) - 1)).toBeLessThan(1e-12);
          expect(Math.abs(diagnosis.topEnd + diagnosis.bottomEnd + diagnosis.testSetUp - 1)).toBeLessThan(1e-12);
          expect(probabilities).toEqual(probabilities.toSorted((a, b) => b - a));
          for (const cause of diagnosis.causes) causeShareSchema.parse(cause);
          const topEnd = causes.filter((cause) => repairClassOf[cause] === "top-end");
          expect(diagnosis.topEnd).toBeCloseTo(
            topEnd.reduce((sum, cause) => sum + share(diagnosis, cause), 0),
            12,
          );
        }
      }),
      { numRuns: 200 },
    );
  });

  test("engines that hold nothing, or leak nothing, in any cylinder have shares all the same", () => {
    for (const leakage of [0, 100]) {
      for (const kpa of [0, 1200]) {
        const alike = (value: number) => [value, value, value, value];
        const tests = [...leakDowns([alike(leakage)]), ...compressions([alike(kpa), alike(kpa)])];
        for (const given of [{ tests }, { tests: tests.slice(1) }]) {
          for (const { causes: shares } of diagnose(given)) {
            for (const { probability } of shares) expect(probability).toBeGreaterThan(0);
          }
        }
      }
    }
  });

  test("what is said to lie below the watch level does so, though the last reading alone may not", () => {
    const [first] = diagnose({
      tests: leakDowns([
        [0, 3, 3, 3],
        [10, 3, 3, 3],
      ]),
    });
    const told = first?.causes.flatMap(({ because, against }) => [...because, ...against]) ?? [];
    expect(told.filter((words) => words.includes("below the watch level"))).not.toEqual([]);
    for (const words of told) expect(words).not.toContain("leakage 10 %, below");
  });

  test("the same history gives the same diagnosis, and later tests than the as-of date change nothing", () => {
    fc.assert(
      fc.property(anyHistory, (tests) => {
        const later: TestGiven = { measure: "leak-down", date: "2026-07-01", x: 90_000, readings: [40, 40, 40, 40] };
        expect(diagnose({ tests: [...tests, later] })).toEqual(diagnose({ tests }));
      }),
      { numRuns: 50 },
    );
  });

  test("the order of the readings within a test does not matter", () => {
    fc.assert(
      fc.property(anyHistory, (tests) => {
        const given = engine({ tests });
        const turned = {
          ...given,
          tests: given.tests.map((one) => ({
            ...one,
            test: { ...one.test, readings: one.test.readings.toReversed() },
            weights: one.weights.toReversed(),
          })),
        };
        expect(diagnoseEngine(turned, { asOf })).toEqual(diagnoseEngine(given, { asOf }));
      }),
      { numRuns: 50 },
    );
  });

  test("more evidence at the exhaust never lowers the exhaust valve", () => {
    fc.assert(
      fc.property(
        anyHistory.filter((tests) => tests.some(({ measure }) => measure === "leak-down")),
        fc.nat(),
        (tests, pick) => {
          const leakDownAt = tests.flatMap(({ measure }, index) => (measure === "leak-down" ? [index] : []));
          const at = leakDownAt[pick % leakDownAt.length];
          const louder = tests.map((one, index) => {
            if (index !== at) return one;
            return {
              ...one,
              readings: one.readings.map((reading) => {
                if (reading === null || typeof reading === "number") return reading;
                const heard = (reading.heardAt ?? []).filter((place) => place !== "none");
                return { ...reading, heardAt: [...new Set<Place>([...heard, "exhaust"])] };
              }),
            };
          });
          const before = diagnose({ tests });
          diagnose({ tests: louder }).forEach((after, index) => {
            const was = share(before[index], "exhaust-valve");
            expect(share(after, "exhaust-valve")).toBeGreaterThanOrEqual(was - 1e-12);
          });
        },
      ),
      { numRuns: 200 },
    );
  });

  test("tests that agree strengthen, but three are less than three times the evidence of one", () => {
    const heard = (times: number) =>
      leakDowns([0, 1, 2].map((i) => [9, 9, { value: 9, heardAt: i >= 3 - times ? ["exhaust"] : [] }, 9]));
    const odds = [0, 1, 2, 3].map((times) => {
      const p = share(diagnose({ tests: heard(times) })[2], "exhaust-valve");
      return Math.log(p / (1 - p));
    });
    const [none = 0, one = 0, two = 0, three = 0] = odds;
    expect(one).toBeGreaterThan(none);
    expect(two).toBeGreaterThan(one);
    expect(three).toBeGreaterThan(two);
    expect(three - none).toBeLessThan(2 * (one - none));
  });

  test("a cylinder that was never tested gets the priors and says so; its tested siblings do not", () => {
    const diagnoses = diagnose({ tests: leakDowns([[7, 7, 7, null]]) });
    const never = diagnoses[3];
    expect(never?.testSetUp).toBeLessThan(0.005);
    expect(never?.causes[0]?.cause).toBe("rings-or-bore");
    expect(share(never, "rings-or-bore")).toBeCloseTo(0.5, 1);
    expect(never?.causes.every(({ because }) => because[0] === notTestedYet)).toBe(true);
    expect(diagnoses[0]?.causes.some(({ because }) => because.includes(notTestedYet))).toBe(false);
    expect(diagnose({}).every(({ causes: all }) => all[0]?.because.includes(notTestedYet))).toBe(true);
  });

  test("a sound cylinder gets about the priors, and nobody is blamed", () => {
    const first = diagnose({ tests: [...leakDowns([[5, 5, 5, 5]]), ...compressions([[1230, 1225, 1235, 1230]])] })[0];
    expect(share(first, "rings-or-bore")).toBeGreaterThan(0.4);
    expect(share(first, "rings-or-bore")).toBeLessThan(0.6);
    expect(first?.testSetUp).toBeLessThan(0.12);
    expect(first?.causes[0]?.because.length).toBeGreaterThan(0);
  });

  test("a long history costs no more and changes nothing before its last tests", () => {
    const recent = leakDowns([
      [7, 7, 8, 7],
      [7, 8, 9, 7],
      [8, 7, 13, 8],
      [8, 8, 18, 7],
      [8, 8, 20, 7],
      [8, 8, 22, 7],
    ]);
    const old = Array.from({ length: 500 }, (_, i): TestGiven => {
      return { measure: "leak-down", date: "2010-01-01", x: i, readings: [40, 40, 40, 40], heardAt: ["inlet"] };
    });
    expect(diagnose({ tests: [...old, ...recent] })).toEqual(diagnose({ tests: recent }));
  });

  test("a leak from before an improvement that nobody explained is no longer held against the cylinder", () => {
    const tests = leakDowns([
      [7, 7, 7, { value: 26, heardAt: ["exhaust"] }],
      [7, 7, 7, 8],
      [7, 7, 7, 8],
    ]);
    const step = {
      measure: "leak-down" as const,
      cylinders: [4],
      beforeX: 145_000,
      afterX: 160_000,
      date: "2025-09-15",
      from: 26,
      to: 8,
      words: "was it repaired?",
    };
    const exhaust = (testsSince: number | null) => {
      const improvements = testsSince === null ? [] : [{ ...step, testsSince }];
      return share(diagnose({ tests, improvements, model: petrol4 })[3], "exhaust-valve");
    };
    expect(exhaust(1)).toBeLessThan(exhaust(null));
    expect(exhaust(2)).toBeLessThan(exhaust(null));
  });
});
