import { describe, expect, test } from "vitest";
import { conditioned, every10000 } from "./histories.ts";

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

  test("is hardly used where the next test was not so, and borne out by one that is as tight", () => {
    const [first] = doubtsOf([
      [0, 7, 7, 8],
      [6, 7, 8, 8],
    ]);
    expect(first?.weights).toEqual([0.1, 1, 1, 1]);
    expect(first?.told[0]).toContain("The next test was not so: hardly used");
    const tight = doubtsOf([
      [0, 0, 0, 0],
      [1, 2, 2, 2],
    ]);
    expect(tight.flatMap(({ told }) => told)).toEqual([]);
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
