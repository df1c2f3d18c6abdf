import { describe, expect, test } from "vitest";
import { conditioned, type EngineGiven, every10000, petrolV8 } from "./histories.ts";

const bank = [
  [22, 23, 21, 22, 7, 8, 7, 8],
  [24, 24, 23, 24, 8, 8, 7, 9],
  [26, 26, 25, 26, 8, 9, 8, 9],
  [8, 8, 7, 9, 9, 9, 8, 10],
  [9, 8, 8, 9, 9, 9, 9, 10],
];
const found = (given: EngineGiven) => conditioned(given).improvements;

describe("story: one bank falls from 26 to 8 % and no repair is on file", () => {
  const [step, ...others] = found({ model: petrolV8, tests: every10000(bank) });
  test("is one question for the four cylinders", () => {
    expect(others).toEqual([]);
    expect(step).toMatchObject({
      measure: "leak-down",
      cylinders: [1, 2, 3, 4],
      beforeX: 70_000,
      afterX: 80_000,
      testsSince: 2,
    });
    expect(step?.from).toBeCloseTo(26, 0);
    expect(step?.to).toBeCloseTo(8, 0);
    expect(step?.words).toMatch(
      /^Cylinders 1 to 4 fell from 26 to 8 % between 27 Oct 2024 and 4 Feb 2025 and no repair is on file: repaired, engine swapped or another tester\?/,
    );
  });
  test("whose tests since keep their weight, also when it was the last one", () => {
    const { tests, improvements } = conditioned({ model: petrolV8, tests: every10000(bank.slice(0, 4)) });
    expect(improvements).toHaveLength(1);
    expect(improvements[0]?.testsSince).toBe(1);
    expect(tests.every((t) => t.weights.every((w) => w === 1))).toBe(true);
  });
});

const four = bank.map((row) => row.slice(0, 4));

describe("what explains an improvement", () => {
  test.each(["top-end", "bottom-end", "complete", "adjustment", "engine-swap"] as const)("a repair: %s", (scope) => {
    expect(found({ tests: every10000(four), repairs: [{ x: 75_000, scope }] })).toEqual([]);
  });
  test("for the cylinders that it names only", () => {
    const repairs = [{ x: 75_000, scope: "top-end" as const, cylinders: [1, 3] }];
    expect(found({ tests: every10000(four), repairs })[0]?.cylinders).toEqual([2, 4]);
  });
  test("but not a repair before or after the step", () => {
    for (const x of [65_000, 85_000]) {
      expect(found({ tests: every10000(four), repairs: [{ x, scope: "adjustment" }] })).toHaveLength(1);
    }
  });
  test("a test of the repair's day at the same meter counts as made after it, one of an earlier day as made before", () => {
    const tests = every10000(four);
    expect(found({ tests, repairs: [{ x: 80_000, scope: "top-end" }] })).toEqual([]);
    expect(found({ tests, repairs: [{ x: 70_000, date: "2024-11-03", scope: "top-end" }] })).toEqual([]);
  });
  test("rings that bed in", () => {
    const tests = every10000(four).map((t, i) => ({ ...t, x: [1000, 2000, 4000, 9000, 20_000][i] as number }));
    expect(found({ fromX: 0, tests })).toEqual([]);
    expect(found({ fromX: 40_000, tests: every10000(four) })).toHaveLength(1);
  });
});

describe("what is no improvement", () => {
  test("noise: 7 points, or less than 35 %", () => {
    expect(
      found({
        tests: every10000([
          [17, 17, 17, 17],
          [17, 17, 17, 17],
          [10, 10, 10, 10],
          [10, 10, 10, 10],
        ]),
      }),
    ).toEqual([]);
    expect(
      found({
        tests: every10000([
          [40, 40, 40, 40],
          [40, 40, 40, 40],
          [28, 28, 28, 28],
          [28, 28, 28, 28],
        ]),
      }),
    ).toEqual([]);
  });
  test("one reading that was high, or one that is low", () => {
    expect(found({ tests: every10000([[8], [9], [30], [9], [9]].map(([v]) => [v ?? 0, 8, 8, 8])) })).toEqual([]);
    expect(found({ tests: every10000([[28], [29], [8], [30], [30]].map(([v]) => [v ?? 0, 8, 8, 8])) })).toEqual([]);
  });
  test("a doubted test before", () => {
    const tests = every10000(four.slice(2)).map((t, i) => (i === 0 ? { ...t, setUp: { warm: false } } : t));
    expect(found({ tests })).toEqual([]);
  });
  test("two testers on one day", () => {
    const one = { x: 50_000, date: "2026-03-01" };
    const tests = [
      { ...one, values: [26, 26, 26, 26], instrument: "A" },
      { ...one, values: [8, 8, 8, 8], instrument: "B" },
    ];
    expect(found({ tests })).toEqual([]);
  });
  test("wear", () => {
    expect(found({ tests: every10000(four.toReversed()) })).toEqual([]);
  });
  test("a converted reading within its own wide error", () => {
    const tests = every10000(four).map((t, i) => (i > 2 ? { ...t, referralSd: 6 } : t));
    expect(found({ tests })).toEqual([]);
  });
});

test("a rise of compression by 20 % is asked about, one of 6 % is not", () => {
  const kpa = (after: number) =>
    every10000(
      [
        [1010, 1005],
        [1000, 1000],
        [after, after],
        [after, after],
      ],
      { measure: "compression-dry" },
    );
  const [step] = found({ tests: kpa(1200) });
  expect(step).toMatchObject({ measure: "compression-dry", cylinders: [1, 2] });
  expect(step?.words).toMatch(/^Cylinders 1 and 2 rose from 1,000 to 1,200 kPa/);
  expect(found({ tests: kpa(1060) })).toEqual([]);
});

test("what else changed at the step is told", () => {
  const tests = every10000(four).map((t, i) => ({
    ...t,
    instrument: i < 3 ? "LD-1" : "LD-7",
    depot: i < 3 ? "Lowmarsh" : "Midfell",
    setUp: { orificeMm: i < 3 ? 1.016 : 1.5 },
  }));
  const words = found({ tests })[0]?.words;
  expect(words).toMatch(/^All cylinders fell/);
  expect(words).toContain("The instrument changed from LD-1 to LD-7.");
  expect(words).toContain("The tester's restrictor changed from 1.016 to 1.5 mm.");
  expect(words).toContain("The depot changed from Lowmarsh to Midfell.");
  const blank = tests.map((t, i) => (i < 3 ? t : { ...t, setUp: { orificeMm: null } }));
  expect(found({ tests: blank })[0]?.words).toContain("was not recorded at the later test");
  const never = tests.map((t) => ({ ...t, setUp: { orificeMm: null } }));
  expect(found({ tests: never })[0]?.words).not.toContain("restrictor");
});

describe("a tester whose restrictor nobody tells", () => {
  const stepped = (later: readonly { readonly instrument: string; readonly orificeMm: number | null }[]) => {
    const before = Array.from({ length: 4 }, (_, i) => ({
      x: 10_000 * i,
      values: [20, 20, 21, 20],
      instrument: "T-1",
      setUp: { orificeMm: 1.016 },
    }));
    const since = later.map(({ instrument, orificeMm }, i) => ({
      x: 10_000 * (4 + i),
      values: [5, 5, 5, 4.5],
      instrument,
      setUp: { orificeMm },
    }));
    return conditioned({ tests: [...before, ...since] }).improvements.map(({ blankBoreOf }) => blankBoreOf);
  };
  const blank = { instrument: "T-2", orificeMm: null };

  test("is named while all tests since the step were made with it", () => {
    expect(stepped([blank])).toEqual(["T-2"]);
    expect(stepped([blank, blank])).toEqual(["T-2"]);
  });

  test("not once its restrictor is told, another tester agrees, or it is the old one", () => {
    expect(stepped([blank, { ...blank, orificeMm: 1.016 }])).toEqual([null]);
    expect(stepped([blank, { instrument: "T-3", orificeMm: null }])).toEqual([null]);
    expect(stepped([{ instrument: "T-1", orificeMm: null }])).toEqual([null]);
  });
});
