import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { addDays } from "@/lib/calendar.ts";
import { conditionEngine } from "@/lib/condition/condition.ts";
import { repairScopes } from "@/lib/schema/words.ts";
import { conditioned, type EngineGiven, engineHistory, every10000, type TestGiven } from "./histories.ts";

const yesNo = fc.option(fc.boolean());
const anyTest = fc
  .record({
    day: fc.integer({ min: 0, max: 300 }),
    measure: fc.constantFrom("leak-down" as const, "compression-dry" as const, "compression-wet" as const),
    shares: fc.array(fc.option(fc.double({ min: 0, max: 1, noNaN: true })), { minLength: 4, maxLength: 4 }),
    attempt: fc.constantFrom(1, 1, 1, 2),
    setUp: fc.record({ warm: yesNo, tdcConfirmed: yesNo, throttleOpen: yesNo }),
    referralSd: fc.constantFrom(0, 0, 3),
  })
  .map(({ day, shares, ...rest }): TestGiven => {
    const scale = rest.measure === "leak-down" ? 100 : 1300;
    return {
      ...rest,
      x: 40_000 + 400 * day,
      date: addDays("2024-01-01", 3 * day),
      values: shares.map((s) => s && s * scale),
    };
  });
const anyEngine: fc.Arbitrary<EngineGiven> = fc.record({
  fromX: fc.constantFrom(0, 40_000),
  tests: fc.array(anyTest, { maxLength: 25 }),
  repairs: fc.array(
    fc.record({
      x: fc.integer({ min: 40_000, max: 160_000 }),
      scope: fc.constantFrom(...repairScopes),
      cylinders: fc.subarray([1, 2, 3, 4], { minLength: 1 }),
    }),
    { maxLength: 3 },
  ),
});

describe("conditionEngine", () => {
  test("an engine without tests", () => {
    expect(conditioned({})).toMatchObject({ tests: [], improvements: [] });
  });

  test("keeps every test and its order; a weight is the product of the doubts that concern the reading", () => {
    fc.assert(
      fc.property(anyEngine, (given) => {
        const history = engineHistory(given);
        const { tests, improvements } = conditionEngine(history);
        expect(tests.map((t) => t.test)).toEqual(history.tests);
        for (const { test: sealed, weights, doubts } of tests) {
          expect(weights).toHaveLength(sealed.readings.length);
          for (const [r, { cylinder }] of sealed.readings.entries()) {
            const concerned = doubts.filter((d) => d.cylinder === null || d.cylinder === cylinder);
            expect(weights[r]).toBeCloseTo(
              concerned.reduce((product, d) => product * d.weight, 1),
              12,
            );
          }
          for (const d of doubts) expect(d.weight >= 0 && d.weight < 1 && d.words.length > 0).toBe(true);
        }
        for (const i of improvements) {
          expect(i.afterX).toBeGreaterThanOrEqual(i.beforeX);
          expect(i.testsSince).toBeGreaterThan(0);
          expect(i.words).not.toMatch(/NaN|undefined/);
        }
      }),
      { numRuns: 300 },
    );
  });

  test("cylinders counted in another order are judged the same", () => {
    const turned = (values: readonly (number | null)[]) => values.toReversed();
    fc.assert(
      fc.property(fc.array(anyTest, { maxLength: 25 }), (tests) => {
        const one = conditioned({ tests });
        const other = conditioned({ tests: tests.map((t) => ({ ...t, values: turned(t.values) })) });
        // A battery tires from the first cylinder to the last, and not the other way round.
        const slides = [...one.tests, ...other.tests].some(({ doubts }) =>
          doubts.some(({ code }) => code === "slow-cranking"),
        );
        fc.pre(!slides);
        expect(other.tests.map((t) => t.weights.toReversed())).toEqual(one.tests.map((t) => t.weights));
        // Those of one place stand in the order of their cylinders.
        const places = (some: readonly (readonly number[])[]) => some.map((cylinders) => cylinders.join()).toSorted();
        expect(places(other.improvements.map((i) => i.cylinders.map((c) => 5 - c).toReversed()))).toEqual(
          places(one.improvements.map((i) => i.cylinders)),
        );
      }),
      { numRuns: 200 },
    );
  });

  test("use told from another start of the meter is judged the same", () => {
    const tests = every10000([9, 10, 24, 11, 12, 13, 5].map((v) => [v, v + 1, v - 1, v]));
    const moved = tests.map((t) => ({ ...t, x: t.x + 200_000 }));
    const weights = (given: EngineGiven) => conditioned(given).tests.map((t) => t.weights);
    expect(weights({ tests: moved, fromX: 240_000 })).toEqual(weights({ tests }));
    for (const weight of weights({ tests })[2] ?? [1]) expect(weight).toBeLessThan(0.2);
  });

  test("story: aircraft cylinder measured again after a run: the re-test stands, and next year's is no question", () => {
    const year = (x: number, date: string, values: number[], attempt = 1) => ({ x, date, values, attempt });
    const { tests, improvements } = conditioned({
      meterUnit: "h",
      fromX: 600,
      tests: [
        year(700, "2024-05-10", [10, 12, 11, 10]),
        year(800, "2025-05-10", [27.5, 12, 11, 10]),
        year(800, "2025-05-10", [11.25, 12, 11, 10], 2),
        year(900, "2026-05-12", [7.5, 11, 12, 10]),
      ],
    });
    expect(tests.map((t) => t.weights[0])).toEqual([1, 0, 1, 1]);
    expect(improvements).toEqual([]);
  });
});
