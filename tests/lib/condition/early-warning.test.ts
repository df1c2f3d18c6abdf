import { describe, expect, test } from "vitest";
import { earlyWarnings, falseAlarmsPerHundredYears } from "@/lib/condition/early-warning.ts";
import { type FamilySpreads, familySpread, type StartingSpread } from "@/lib/condition/family.ts";
import { normalQuantile } from "@/lib/statistics/normal.ts";
import { seededRandom } from "../../../demo-data/random.ts";
import { conditioned, type EngineGiven, every10000, petrol4, petrolV8, single } from "./histories.ts";

/** Rates for each km. */
const starting = (perPoint: number): StartingSpread => ({
  cylinderLevelSd: 1.5 * perPoint,
  cylinderRateSd: 1e-5 * perPoint,
  rateMean: 3e-5 * perPoint,
  rateSd: 2e-5 * perPoint,
  wanderVariance: 1e-6 * perPoint ** 2,
});
const spreads: FamilySpreads = {
  "leak-down": familySpread("leak-down", starting(1), null),
  "compression-dry": familySpread("compression-dry", starting(12), null),
};
const warnings = (given: EngineGiven) => earlyWarnings(conditioned(given), spreads);
const neighbours = { ...petrol4, neighbours: [[1, 2] as [number, number], [2, 3] as [number, number]] };

/** Whole-test errors that would hide a step in each cylinder's own line. */
const common = [0, 2, -2, 1, -1, 2, 0, 1];
const rows = (tests: number, step: (test: number) => readonly number[]) =>
  common.slice(0, tests).map((e, i) => [7, 7.5, 6, 8].map((v, c) => v + e + (step(i)[c] ?? 0)));

describe("a cylinder that leaves its family", () => {
  test("is told at the very test that shows a step after four sound ones, under whatever moves the whole test", () => {
    const tests = every10000(rows(5, (i) => (i === 4 ? [0, 0, 9, 0] : [])));
    const [warning, ...others] = warnings({ tests });
    expect(others).toEqual([]);
    expect(warning).toMatchObject({ measure: "leak-down", cylinder: 3, meter: 90_000, x: 90_000, date: "2025-05-15" });
    expect(warning?.amount).toBeGreaterThan(8);
    expect(warning?.statistic).toBeGreaterThan(warning?.limit ?? Infinity);
    expect(warning?.falseAlarms).toBe(falseAlarmsPerHundredYears);
    expect(warnings({ tests: tests.slice(0, 4) })).toEqual([]);
    expect(warning?.words).toMatch(
      /^early warning: cylinder 3 left its family at the test of 15 May 2025, \d+\.\d points above what it was expected to read \(usual scatter \d\.\d\); chosen are 1\.5 false warnings in 100 cylinder-years$/,
    );
  });
  test("two neighbours that step together are told where one alone would not be", () => {
    const step = (cylinders: readonly number[]) => every10000(rows(5, (i) => (i === 4 ? cylinders : [])));
    const told = (cylinders: readonly number[]) =>
      warnings({ model: neighbours, tests: step(cylinders) }).map((w) => w.cylinder);
    expect(told([0, 7.5, 7.5, 0])).toEqual([2, 3]);
    expect(told([0, 7.5, 0, 0])).toEqual([]);
  });
  test("a sound cylinder beside one that has long left is held against the sound ones, and no neighbour's fault is its own", () => {
    // Cylinder 3 departs at the fifth test and stays; the others go on as they were.
    const shared = [0, 2, -2, 1, -1, 2, 0, 1, -1, 0];
    const tests = every10000(shared.map((e, i) => [7, 7.5, 6, 8].map((v, c) => v + e + (c === 2 && i > 3 ? 15 : 0))));
    const inLine = { ...petrol4, neighbours: [...neighbours.neighbours, [3, 4] as [number, number]] };
    expect(warnings({ model: inLine, tests }).map(({ cylinder }) => cylinder)).toEqual([3]);
  });
  test("each of many neighbours counts in the limit, and as many as there are leave a fault of the cylinder alone", () => {
    const pairs = (cylinders: number, far: number) =>
      Array.from({ length: cylinders }, (_, a) =>
        Array.from({ length: cylinders }, (_, b) => [a + 1, b + 1] as [number, number]),
      )
        .flat()
        .filter(([a, b]) => a < b && b - a <= far);
    const told = (far: number) => {
      const tests = every10000(
        Array.from({ length: 5 }, (_, i) =>
          Array.from({ length: 8 }, (_, c) => 7 + (c === 3 && i === 4 ? 14 : 0.2 * c)),
        ),
      );
      return warnings({ model: { ...petrolV8, neighbours: pairs(8, far) }, tests });
    };
    const limits = [1, 2, 3, 7].map((far) => {
      const all = told(far);
      expect(all.map(({ cylinder }) => cylinder)).toEqual([4]);
      return all[0]?.limit ?? Number.NaN;
    });
    expect(new Set(limits.map((limit) => limit.toFixed(4))).size).toBe(4);
    for (const limit of limits) expect(limit).toBeGreaterThan(2);
  });
  test("slow growth is summed up, and the first test at which it had left stays the one told", () => {
    const tests = every10000(rows(8, (i) => [0, 0, 2 * Math.max(0, i - 2), 0]));
    const [first] = warnings({ tests: tests.slice(0, 7) });
    expect(first).toMatchObject({ cylinder: 3 });
    expect(warnings({ tests })[0]).toMatchObject({ date: first?.date, statistic: first?.statistic });
    expect(warnings({ tests })[0]?.amountSince).toBeGreaterThan(first?.amount ?? Infinity);
  });
  test("not one that improves, nor wear that all share, nor a little", () => {
    expect(warnings({ tests: every10000(rows(8, (i) => (i > 4 ? [0, 0, -5, 0] : []))) })).toEqual([]);
    expect(warnings({ tests: every10000(rows(8, (i) => [3 * i, 3 * i, 3 * i, 3 * i])) })).toEqual([]);
    expect(warnings({ tests: every10000(rows(8, (i) => [0, 0, 0.15 * i, 0])) })).toEqual([]);
  });
  test("one reading that the next takes back does not go on being told", () => {
    const tests = every10000(rows(6, (i) => (i === 4 ? [0, 0, 9, 0] : [])));
    expect(warnings({ tests: tests.slice(0, 5) })).toHaveLength(1);
    expect(warnings({ tests })).toEqual([]);
  });
  test("a repair of the cylinder ends it; what the others' baseline was stays", () => {
    const tests = every10000(rows(7, (i) => (i >= 4 && i < 6 ? [0, 0, 9, 0] : [])));
    expect(warnings({ tests: tests.slice(0, 6) })).toHaveLength(1);
    expect(warnings({ tests, repairs: [{ x: 105_000, scope: "top-end", cylinders: [3] }] })).toEqual([]);
  });
  test("a test that is not relied on says nothing", () => {
    const tests = every10000(rows(5, (i) => (i === 4 ? [0, 0, 9, 0] : [])));
    expect(warnings({ tests: tests.map((t, i) => (i === 4 ? { ...t, setUp: { gaugeZeroed: false } } : t)) })).toEqual(
      [],
    );
  });
  test("a converted reading is less sure", () => {
    const tests = every10000(rows(5, (i) => (i === 4 ? [0, 0, 9, 0] : [])));
    expect(warnings({ tests })).toHaveLength(1);
    expect(warnings({ tests: tests.map((t, i) => (i === 4 ? { ...t, referralSd: 4 } : t)) })).toEqual([]);
  });
});

describe("other witnesses", () => {
  test("compression alone, by share", () => {
    const kpa = common.slice(0, 6).map((e, i) => [1210, 1200, i === 5 ? 1060 : 1205, 1195].map((v) => v + 20 * e));
    const [warning] = warnings({ tests: every10000(kpa, { measure: "compression-dry" }) });
    expect(warning).toMatchObject({ measure: "compression-dry", cylinder: 3 });
    expect(warning?.words).toMatch(/, 1[12] % below what it was expected to read \(usual scatter [23] %\)/);
  });
  test("both measures together tell what neither tells alone", () => {
    const leak = every10000(rows(6, (i) => (i === 5 ? [0, 0, 7, 0] : [])));
    const kpa = common.slice(0, 6).map((_, i) => [1210, 1200, i === 5 ? 1122 : 1205, 1195]);
    const dry = every10000(kpa, { measure: "compression-dry" });
    expect(warnings({ tests: leak })).toEqual([]);
    expect(warnings({ tests: dry })).toEqual([]);
    expect(warnings({ tests: [...leak, ...dry] })).toMatchObject([{ cylinder: 3, measure: "leak-down" }]);
  });
  test("the first test of the other measure takes no warning back; a repair does, by whichever measure comes first", () => {
    const leak = every10000(rows(6, (i) => (i >= 4 ? [0, 0, 12, 0] : [])));
    const told = warnings({ tests: leak });
    expect(told).toMatchObject([{ measure: "leak-down", cylinder: 3 }]);
    const dry = { x: 101_000, measure: "compression-dry" as const, values: [1200, 1190, 1195, 1205] };
    expect(warnings({ tests: [...leak, dry] })).toMatchObject([{ cylinder: 3, date: told[0]?.date }]);
    const early = { ...dry, x: 50_000 };
    const repairs = [{ x: 100_500, scope: "top-end" as const, cylinders: [3] }];
    expect(warnings({ tests: [early, ...leak], repairs })).toHaveLength(1);
    expect(warnings({ tests: [early, ...leak, dry], repairs })).toEqual([]);
    expect(warnings({ tests: [...leak, dry], repairs })).toEqual([]);
  });
  test("evidence gathered by one measure is not lost at the first test of the other", () => {
    const leak = every10000(rows(7, (i) => [0, 0, 2 * Math.max(0, i - 2), 0]));
    const [first] = warnings({ tests: leak });
    // Compression as sound as the siblings', just before the test at which leak-down alone would tell.
    const dry = { x: (first?.x ?? 0) - 1000, measure: "compression-dry" as const, values: [1200, 1195, 1190, 1205] };
    expect(warnings({ tests: [...leak, dry] })).toMatchObject([{ cylinder: 3 }]);
  });
  test("air heard at a valve makes a smaller rise tell, not a fall", () => {
    const told = (rise: number, heardAt: readonly ("exhaust" | "crankcase")[]) => {
      const engine = conditioned({ tests: every10000(rows(5, (i) => (i === 4 ? [0, 0, rise, 0] : []))) });
      const tests = engine.tests.map((of, i) =>
        i < 4
          ? of
          : {
              ...of,
              test: {
                ...of.test,
                readings: of.test.readings.map((r) => (r.cylinder === 3 ? { ...r, heardAt } : r)),
              },
            },
      );
      return earlyWarnings({ ...engine, tests }, spreads);
    };
    expect(told(4.5, ["exhaust"])).toMatchObject([{ cylinder: 3, heardAt: ["exhaust"] }]);
    expect(told(4.5, ["exhaust"])[0]?.words).toContain(", with air heard at exhaust;");
    expect(told(4.5, ["crankcase"])).toEqual([]);
    expect(told(-2, ["exhaust"])).toEqual([]);
  });
  test("a cylinder tested alone, long after its siblings, is held against the wear that they share", () => {
    // Half a point for each 10,000 km, in all cylinders.
    const even = (i: number) => [7, 7.5, 6, 8].map((v, c) => v + 0.5 * i + 0.3 * Math.sin(3 * i + c));
    const before = every10000(Array.from({ length: 8 }, (_, i) => even(i)));
    const alone = (x: number, value: number) => ({ x, values: [null, null, value, null] });
    const later = (off: number) => [alone(290_000, 6 + 12 + off), alone(291_000, 6 + 12 + off)];
    expect(warnings({ tests: [...before, ...later(0)] })).toEqual([]);
    expect(warnings({ tests: [...before, ...later(16)] })).toMatchObject([{ cylinder: 3, x: 290_000 }]);
    const expected = warnings({ tests: [...before, ...later(16)] })[0]?.expected ?? 0;
    expect(Math.abs(expected - 18)).toBeLessThan(3);
    // The same far off is more, right after the siblings were tested than long after.
    const soon = warnings({ tests: [...before, alone(121_000, 9.5 + 16), alone(122_000, 9.5 + 16)] });
    expect(soon).toMatchObject([{ cylinder: 3, x: 121_000 }]);
    expect(soon[0]?.sd).toBeLessThan(0.8 * (warnings({ tests: [...before, ...later(16)] })[0]?.sd ?? 0));
  });
  test("after an overhaul what siblings had in common before is no wear that goes on", () => {
    const worn = every10000(Array.from({ length: 6 }, (_, i) => [7, 7.5, 6, 8].map((v) => v + 4 * i)));
    const fresh = [115_000, 125_000].map((x) => ({ x, values: [7, 7.5, 6, 8] }));
    const repairs = [{ x: 110_000, scope: "complete" as const }];
    const alone = { x: 126_000, values: [null, null, 26, null] };
    expect(warnings({ tests: [...worn, ...fresh, alone], repairs })).toMatchObject([{ cylinder: 3, x: 126_000 }]);
  });
  test("an engine of one cylinder is held against its own course", () => {
    const course = (last: number) => every10000([[8], [8.5], [9], [8.6], [last]]);
    expect(warnings({ model: single, tests: course(9.5) })).toEqual([]);
    const [warning] = warnings({ model: single, tests: course(24) });
    expect(warning?.words).toContain("cylinder 1 left its own course at the test of");
  });
});

test("sound cylinders get about the chosen number of false warnings, and no more", () => {
  const random = seededRandom(7);
  /** Student's t with five degrees of freedom, scaled to a standard deviation of 1. */
  const heavyTailed = () => {
    const squares = Array.from({ length: 5 }, () => random.normal(0, 1) ** 2).reduce((a, b) => a + b, 0);
    return (random.normal(0, 1) / Math.sqrt(squares / 5)) * Math.sqrt(3 / 5);
  };
  const spread = spreads["leak-down"];
  let told = 0;
  let years = 0;
  for (let engine = 0; engine < 150; engine++) {
    const levels = Array.from({ length: 4 }, () => 8 + random.normal(0, spread.cylinderLevelSd));
    const tests = Array.from({ length: 13 }, (_, i) => {
      const shared = random.normal(0, 1.5);
      const values = levels.map((level) => Math.max(0, level + shared + heavyTailed() * spread.ownSd(level, null)));
      return { x: 50_000 + 10_000 * i, values };
    });
    for (let n = 1; n <= tests.length; n++) {
      const date = conditioned({ tests: tests.slice(0, n) }).history.tests.at(-1)?.date;
      told += warnings({ tests: tests.slice(0, n) }).filter((w) => w.date === date).length;
    }
    years += (4 * (tests.length - 1) * 100) / 365;
  }
  const per = (100 * told) / years;
  // Of this many years' chance, a count lies within three roots of it.
  const half = (normalQuantile(0.9987) * Math.sqrt(Math.max(1, told)) * 100) / years;
  expect(told).toBeGreaterThan(0);
  expect(per - half).toBeLessThanOrEqual(falseAlarmsPerHundredYears);
  expect(per).toBeLessThan(2);
});

test("of two tests of the day the one that shows it most tells how far", () => {
  const leak = every10000(rows(5, (i) => (i === 4 ? [0, 0, 20, 0] : [])));
  const dry = every10000(common.slice(0, 5).map((_, i) => [1210, 1200, i === 4 ? 1040 : 1205, 1195])).map((t) => ({
    ...t,
    measure: "compression-dry" as const,
  }));
  expect(warnings({ tests: dry })).toHaveLength(1);
  expect(warnings({ tests: [...dry, ...leak] })).toMatchObject([{ cylinder: 3, measure: "leak-down" }]);
});
