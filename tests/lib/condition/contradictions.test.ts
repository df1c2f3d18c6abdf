import { describe, expect, test } from "vitest";
import { conditioned, type EngineGiven, every10000 } from "./histories.ts";

const gasket = [
  [7, 6, 5, 6],
  [6, 7, 5, 6],
  [8, 7, 5, 7],
  [9, 28, 31, 7],
  [9, 10, 8, 8],
];
const found = (given: EngineGiven) => conditioned(given).contradictions;
const tests = every10000(gasket);

describe("story: two neighbours at 28 and 31 %, then one test at 10 and 8 % without a repair", () => {
  test("is one question, of both cylinders, with what was read at each", () => {
    const [only, ...others] = found({ tests });
    expect(others).toEqual([]);
    expect(only).toMatchObject({ measure: "leak-down", cylinders: [2, 3] });
    expect(only?.words).toMatch(
      /^cylinders 2 and 3 read 10 and 8 % after 28 and 31 % on 4 Feb 2025 with no repair on file/,
    );
  });
  test("which takes no weight from either test, and is no step of the wear", () => {
    const engine = conditioned({ tests });
    expect(engine.tests.every((t) => t.weights.every((w) => w === 1))).toBe(true);
    expect(engine.improvements).toEqual([]);
  });
  test("and which a second good test settles", () => {
    expect(found({ tests: every10000([...gasket, [9, 9, 9, 8]]) })).toEqual([]);
  });
});

test("cylinders that were last measured on different days are told apart, each with its own date", () => {
  const apart = every10000([...gasket.slice(0, 3), [9, 6, 31, 7], [9, 28, 5, 7], [9, 10, 5, 8]]).map((t, i) =>
    i === 4 ? { ...t, values: [9, 28, null, 7] } : t,
  );
  expect(found({ tests: apart }).map(({ cylinders, words }) => [cylinders, words.match(/on .+ with/)?.[0]])).toEqual([
    [[2], "on 15 May 2025 with"],
    [[3], "on 4 Feb 2025 with"],
  ]);
});

describe("what is no contradiction", () => {
  test.each(["top-end", "bottom-end", "complete", "adjustment"] as const)("after a repair: %s", (scope) => {
    expect(found({ tests, repairs: [{ x: (tests[4]?.x ?? 0) - 5000, scope }] })).toEqual([]);
  });
  test("of the cylinder that a repair names; of the other it stays one", () => {
    const repairs = [{ x: (tests[4]?.x ?? 0) - 5000, scope: "top-end" as const, cylinders: [2] }];
    expect(found({ tests, repairs })[0]?.cylinders).toEqual([3]);
  });
  test("once the cylinder was repaired, or the engine swapped, after both tests", () => {
    const last = tests[4]?.x ?? 0;
    for (const scope of ["top-end", "adjustment", "engine-swap"] as const) {
      expect(found({ tests, repairs: [{ x: last + 5000, scope }] })).toEqual([]);
    }
  });
  test("that a person settled: the last test accepted, or one of the two set aside", () => {
    const judged = (place: number, verdict: "accepted" | "set-aside") =>
      tests.map((t, i) =>
        i === place ? { ...t, judgements: [{ cylinder: null, verdict, reason: "looked at", by: "R. Ames" }] } : t,
      );
    expect(found({ tests: judged(4, "accepted") })).toEqual([]);
    expect(found({ tests: judged(4, "set-aside") })).toEqual([]);
    expect(found({ tests: judged(3, "set-aside") })).toEqual([]);
    expect(found({ tests: judged(3, "accepted") })).toHaveLength(1);
  });
  test("between two wear lives", () => {
    const repairs = [{ x: (tests[3]?.x ?? 0) - 5000, scope: "top-end" as const }];
    expect(found({ tests, repairs })).toEqual([]);
  });
  test("of two tests of one day", () => {
    const sameDay = tests.map((t, i) =>
      i === 4 ? { ...t, date: "2025-02-04" } : i === 3 ? { ...t, date: "2025-02-04" } : t,
    );
    expect(found({ tests: sameDay })).toEqual([]);
  });
  test("within four standard deviations of two readings", () => {
    const gasketAt = (bad: number) => every10000([...gasket.slice(0, 3), [9, bad, 5, 7], [9, 9, 5, 8]]);
    // 13 points are 59 %, and 3.5 standard deviations.
    expect(found({ tests: gasketAt(22) })).toEqual([]);
    expect(found({ tests: gasketAt(28) })).toHaveLength(1);
  });
  test("while the bad test is the last one", () => {
    expect(found({ tests: tests.slice(0, 4) })).toEqual([]);
  });
  test("where the bad level had been seen twice: that is an improvement", () => {
    const twice = every10000([...gasket.slice(0, 4), [9, 29, 31, 8], [9, 10, 8, 8]]);
    expect(found({ tests: twice })).toEqual([]);
    expect(conditioned({ tests: twice }).improvements).toHaveLength(1);
  });
  test("a step of less than 8 points, or less than 35 %", () => {
    const steps = (bad: number, good: number) =>
      every10000([[6], [6], [6], [bad], [good]].map(([v = 0]) => [v, 6, 6, 6]));
    expect(found({ tests: steps(16, 9) })).toEqual([]);
    expect(found({ tests: steps(40, 27) })).toEqual([]);
    expect(found({ tests: steps(40, 20) })).toHaveLength(1);
  });
});
