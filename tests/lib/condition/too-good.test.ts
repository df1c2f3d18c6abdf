import { describe, expect, test } from "vitest";
import { diagnoseEngine } from "@/lib/cause/diagnose.ts";
import { conditionEngine } from "@/lib/condition/condition.ts";
import { conditioned, engineHistory, every10000, single } from "./histories.ts";

const doubtsOf = (rows: readonly (readonly number[])[]) =>
  conditioned({ tests: every10000(rows) }).tests.map(({ doubts, weights }) => ({
    weights,
    told: doubts.map(({ code, cylinder, words }) => `${code} ${cylinder ?? "all"}: ${words}`),
  }));

describe("a first reading at 0 %", () => {
  test("is doubted and asks for a repeat, of one cylinder or of the whole test", () => {
    const [one] = doubtsOf([[0, 7, 7, 8]]);
    expect(one?.weights).toEqual([0.3, 1, 1, 1]);
    expect(one?.told).toEqual([
      "too-good 1: cylinder 1 at 0 %, which no engine reads: tester shut or not zeroed, or the valve core left in the hose? Test again",
    ]);
    const [all] = doubtsOf([[0, 0, 0, 0]]);
    expect(all?.told).toEqual([expect.stringMatching(/^too-good all: cylinders 1 to 4 at 0 %, which no engine reads/)]);
  });

  test("is hardly used where the next test was not so, and one of a single cylinder is borne out by tight siblings", () => {
    const [first] = doubtsOf([
      [0, 7, 7, 8],
      [6, 7, 8, 8],
    ]);
    expect(first?.weights).toEqual([0.1, 1, 1, 1]);
    expect(first?.told[0]).toContain("The next test was not so: hardly used");
    // As of an engine just rebuilt.
    expect(doubtsOf([[0, 2, 1, 2]])[0]?.told).toEqual([]);
  });

  test("is no matter of a later test, nor of a reading that shows a little", () => {
    expect(doubtsOf([[1, 2, 2, 1]])[0]?.told).toEqual([]);
    const later = doubtsOf([
      [2, 2, 2, 2],
      [0, 2, 2, 2],
    ]);
    expect(later.flatMap(({ told }) => told)).toEqual([]);
  });
});

test("a first reading at 100 % is doubted as well: not at top dead centre, or a valve", () => {
  const [first] = doubtsOf([[100, 7, 7, 8]]);
  expect(first?.weights).toEqual([0.3, 1, 1, 1]);
  expect(first?.told[0]).toMatch(/^not-at-tdc 1: cylinder 1 at 100 % at once/);
});

describe("all cylinders at 0 %", () => {
  test("are doubted in test after test: the same tester bears nothing out", () => {
    const run = doubtsOf([
      [0, 0, 0, 0],
      [0, 0, 0, 0],
      [0, 0, 0, 0],
    ]);
    for (const { weights, told } of run) {
      expect(weights).toEqual([0.3, 0.3, 0.3, 0.3]);
      expect(told).toEqual([
        "too-good all: cylinders 1 to 4 at 0 %, as in 2 other tests, which no engine reads: tester shut, not connected or zeroed with the hose shut, or the valve core left in the hose? Test again",
      ]);
    }
    const singleCylinder = conditioned({ model: single, tests: every10000([[0], [0.2], [0]]) });
    expect(singleCylinder.tests.flatMap(({ doubts }) => doubts.map(({ code }) => code))).toEqual([
      "too-good",
      "too-good",
      "too-good",
    ]);
  });

  test("are hardly used where other tests were not so, also of a leakage too low to be far off", () => {
    const [before, nothing, after] = doubtsOf([
      [5, 4, 5, 6],
      [0, 0, 0, 0],
      [5, 5, 5, 6],
    ]);
    expect(nothing?.weights).toEqual([0.1, 0.1, 0.1, 0.1]);
    expect(nothing?.told).toEqual([
      expect.stringMatching(
        /^too-good all: cylinders 1 to 4 at 0 %, which no .+ Other tests were not so: hardly used$/,
      ),
    ]);
    expect([before?.told, after?.told]).toEqual([[], []]);
  });

  test("count half beside tests that are nearly as tight, and a cylinder measured by itself in full", () => {
    const tight = doubtsOf([
      [0, 0, 0, 0],
      [1, 2, 2, 2],
    ]);
    expect(tight.map(({ weights }) => weights)).toEqual([
      [0.5, 0.5, 0.5, 0.5],
      [1, 1, 1, 1],
    ]);
    const alone = conditioned({ model: single, tests: every10000([[2], [0], [1]]) });
    expect(alone.tests.flatMap(({ doubts }) => doubts)).toEqual([]);
  });

  test("tell nothing of the life before a repair, stand where a person accepted them, and are told once", () => {
    const repaired = conditioned({
      tests: every10000([
        [22, 23, 21, 22],
        [0, 0, 0, 0],
        [2, 3, 2, 2],
      ]),
      repairs: [{ x: 55_000, scope: "complete" }],
    });
    expect(repaired.tests.map(({ weights }) => weights[0])).toEqual([1, 0.5, 1]);
    const accepted = conditioned({
      tests: every10000([[0, 0, 0, 0]], {
        judgements: [{ cylinder: null, verdict: "accepted", reason: "tester checked", by: "Ada" }],
      }),
    });
    expect(accepted.tests[0]?.weights).toEqual([1, 1, 1, 1]);
    expect(accepted.tests[0]?.doubts.map(({ code }) => code)).toEqual(["accepted", "overruled"]);
    const tooGood = doubtsOf([
      [14, 15, 14, 15],
      [15, 15, 15, 16],
      [0, 0, 0, 0],
      [16, 17, 16, 17],
    ]);
    expect(tooGood[2]?.told.filter((words) => words.startsWith("too-good"))).toHaveLength(1);
  });

  test("say no more than a little where the tester is read in steps of 5 %", () => {
    const history = engineHistory({
      tests: every10000([
        [5, 0, 5, 0],
        [0, 0, 0, 0],
      ]),
    });
    const coarse = history.tests.map((t) => ({
      ...t,
      readings: t.readings.map((r) => ({ ...r, roundingSd: 5 / Math.sqrt(12) })),
    }));
    const { tests } = conditionEngine({ ...history, tests: coarse });
    expect(tests[1]?.doubts).toEqual([]);
  });
});

test("nothing read is no evidence of a cause: rings gain nothing by it, and the test is what may be at fault", () => {
  const engine = conditioned({
    tests: every10000([
      [0, 0, 0, 0],
      [0, 0, 0, 0],
    ]),
  });
  const [first] = diagnoseEngine(engine, { asOf: "2030-01-01" });
  const untested = diagnoseEngine(conditioned({}), { asOf: "2030-01-01" })[0];
  const rings = (of: typeof first) => of?.causes.find(({ cause }) => cause === "rings-or-bore");
  expect(rings(first)?.probability).toBeLessThan(rings(untested)?.probability as number);
  expect(first?.causes.flatMap(({ because }) => because).filter((words) => words.includes("below the watch"))).toEqual(
    [],
  );
  expect(first?.testSetUp).toBeGreaterThan(0.08);
});
