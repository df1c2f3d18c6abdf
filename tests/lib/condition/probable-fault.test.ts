import { describe, expect, test } from "vitest";
import { conditioned, every10000, petrol4, single, type TestGiven } from "./histories.ts";

/**
 * The rows of trade practice's table of set-up faults, each with made-up figures. Those of one reading stand in
 * not-at-tdc.test.ts and few-strokes.test.ts, those of columns in set-up-doubts.test.ts, those of many units in
 * tests/lib/comparison/shared-steps.test.ts, slips of writing in tests/lib/intake/odd-tests.test.ts.
 */
const kpa = [1200, 1180, 1190, 1210];
const leak = [7, 9, 8, 14];
const dry = (at: number, values: readonly number[], more: Partial<TestGiven> = {}) =>
  every10000(Array.from({ length: 6 }, (_, i) => (i === at ? values : kpa))).map((t, i) => ({
    ...t,
    measure: "compression-dry" as const,
    ...(i === at ? more : {}),
  }));
const down = (at: number, values: readonly number[], more: Partial<TestGiven> = {}) =>
  every10000(Array.from({ length: 6 }, (_, i) => (i === at ? values : leak))).map((t, i) => ({
    ...t,
    ...(i === at ? more : {}),
  }));
/** What is said of the test of one measure that lies off. */
const said = (tests: readonly TestGiven[], measure: TestGiven["measure"], model = petrol4) =>
  conditioned({ model, tests })
    .tests.filter((t) => t.test.measure === measure)
    .flatMap((t) => t.doubts.map((d) => d.words))
    .join("; ");

describe("compression, all low together", () => {
  test("the throttle shut: by the same share, leakage as usual", () => {
    const tests = [
      ...dry(
        3,
        kpa.map((v) => 0.75 * v),
      ),
      ...down(-1, leak),
    ];
    expect(said(tests, "compression-dry")).toContain("probably the throttle shut, or the gauge or its hose valve");
  });
  test("a cold engine: leakage up on the same day", () => {
    const tests = [
      ...dry(
        3,
        kpa.map((v) => 0.87 * v),
      ),
      ...down(
        3,
        leak.map((v) => v + 10),
      ),
    ];
    expect(said(tests, "compression-dry")).toContain("probably a cold engine");
    expect(said(tests, "leak-down")).toContain("compression was down as well: probably a cold engine");
  });
  test("a weak battery: by the cranking speed, above that at which a test is not used at all", () => {
    const tests = dry(
      3,
      kpa.map((v) => 0.85 * v),
      { setUp: { crankingRpm: 150 } },
    );
    expect(said(tests, "compression-dry")).toContain("cranking speed 150/min: probably a weak battery");
  });
  test("plugs left in: the leaky ones lose most", () => {
    const tests = [...dry(3, [1040, 1000, 1020, 880]), ...down(-1, leak)];
    expect(said(tests, "compression-dry")).toContain("the leaky ones lose most");
  });
  test("a tiring battery where no order was noted: one of several, but named", () => {
    expect(said(dry(3, [1160, 1080, 1020, 960]), "compression-dry")).toContain(
      "they slide down from the first cylinder to the last: a battery that tires if they were tested in that order, else",
    );
  });
  test.each([
    [1 / 6.895, "about a seventh of it: probably psi written as kPa"],
    [6.895, "about seven times as much: probably kPa written as psi"],
    [0.01, "about a hundredth of it: probably bar or kgf/cm2 written as kPa"],
    [0.069, "about a fourteenth of it: probably bar written as psi"],
  ])("another unit of pressure, %f times what was to be expected", (times, words) => {
    const slip = kpa.map((v) => Math.round(v * times));
    expect(said(dry(3, slip), "compression-dry")).toContain(words);
    expect(said(dry(5, slip), "compression-dry")).toContain(words);
  });
  test("cylinders written in reverse: told as that, once, and no cylinder is accused", () => {
    const lopsided = [5, 9, 14, 22];
    const tests = (at: number) =>
      every10000(Array.from({ length: 6 }, (_, i) => (i === at ? lopsided.toReversed() : lopsided)));
    for (const at of [3, 5]) {
      const engine = conditioned({ tests: tests(at) });
      expect(engine.tests.flatMap(({ doubts }, i) => doubts.map((d) => [i, d.code]))).toEqual([[at, "row-reversed"]]);
      expect(engine.tests[at]?.doubts[0]?.words).toMatch(/^its readings fit the other tests from the last cylinder/);
      expect(engine.improvements).toEqual([]);
    }
    expect(conditioned({ tests: tests(9) }).tests.flatMap(({ doubts }) => doubts)).toEqual([]);
    // A valve that begins to burn in the first cylinder turns nothing round.
    const burning = every10000(Array.from({ length: 6 }, (_, i) => (i === 5 ? [20, 9, 14, 22] : lopsided)));
    expect(conditioned({ tests: burning }).tests[5]?.doubts.map(({ code }) => code)).not.toContain("row-reversed");
  });
  test("a tiring battery: values slide down in the order of testing", () => {
    const tests = dry(3, [1160, 1080, 1020, 960]);
    const engine = conditioned({ tests });
    expect(engine.tests[3]?.doubts.map((d) => d.code)).toContain("all-cylinders-off");
    expect(
      said(
        tests.map((t) => ({ ...t, inOrder: true })),
        "compression-dry",
      ),
    ).toContain("they slide down in the order of testing: probably a battery that tires");
  });
  test("a gauge or its hose valve: nothing else to go by", () => {
    expect(
      said(
        dry(
          3,
          kpa.map((v) => 0.85 * v),
        ),
        "compression-dry",
      ),
    ).toContain("the gauge or its hose valve");
  });
  test("all high: another gauge, oil, or the altitude", () => {
    expect(
      said(
        dry(
          3,
          kpa.map((v) => 1.15 * v),
        ),
        "compression-dry",
      ),
    ).toContain("probably another gauge, oil or fuel");
  });
});

describe("leak-down, all off together", () => {
  test("a regulator not zeroed: all alike", () => {
    expect(
      said(
        down(
          3,
          leak.map((v) => v + 9),
        ),
        "leak-down",
      ),
    ).toContain("probably a regulator not zeroed");
  });
  test("a hose or adaptor: heard nowhere in the engine", () => {
    const tests = down(
      3,
      leak.map((v) => v + 9),
      { heardAt: ["none"] },
    );
    expect(said(tests, "leak-down")).toContain("air was heard nowhere in the engine: probably the hose or an adaptor");
  });
  test("low supply: reads worse, the leakier the more", () => {
    expect(said(down(3, [15, 19, 17, 30]), "leak-down")).toContain("probably low supply");
  });
  test("another orifice: all better", () => {
    const worn = [18, 20, 19, 22];
    const tests = every10000([worn, worn, worn, [7, 8, 8, 9], worn, worn]);
    expect(said(tests, "leak-down")).toContain("probably another orifice");
  });
  test("the valve core left in the hose", () => {
    expect(said(down(3, [1, 0, 1, 2]), "leak-down")).toContain("valve core left in the hose?");
  });
});

test("a sound engine's tests are given no name", () => {
  expect(said([...dry(-1, kpa), ...down(-1, leak)], "compression-dry")).toBe("");
  expect(said(every10000([[8], [8.4], [8.2], [8.8]]), "leak-down", single)).toBe("");
});
