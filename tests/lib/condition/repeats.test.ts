import { expect, test } from "vitest";
import { conditioned } from "./histories.ts";

const day = { x: 50_000, date: "2026-03-01" };

test("the repeat of the same day counts, for the cylinders that were measured again", () => {
  const { tests } = conditioned({
    tests: [
      { ...day, values: [27, 9, 8, 9] },
      { ...day, attempt: 2, values: [11, null, null, null] },
    ],
  });
  expect(tests.map((t) => t.weights)).toEqual([[0, 1, 1, 1], [1]]);
  expect(tests[0]?.doubts).toEqual([
    { code: "repeated-the-same-day", cylinder: 1, weight: 0, words: "repeated the same day: the repeat counts" },
  ]);
});

test("of three attempts the last counts, and a whole repeat is one doubt of the whole test", () => {
  const values = [9, 9, 9, 9];
  const { tests } = conditioned({
    tests: [1, 2, 3].map((attempt) => ({ ...day, attempt, values })),
  });
  expect(tests.map((t) => t.weights[2])).toEqual([0, 0, 1]);
  expect(tests[1]?.doubts).toHaveLength(1);
  expect(tests[1]?.doubts[0]?.cylinder).toBeNull();
});

test("another measure, another day or another instrument's first attempt is no repeat", () => {
  const { tests } = conditioned({
    tests: [
      { ...day, values: [9, 9, 9, 9], instrument: "A" },
      { ...day, values: [9, 9, 9, 9], instrument: "B" },
      { ...day, measure: "compression-dry", attempt: 2, values: [1200, 1200, 1200, 1200] },
      { ...day, date: "2026-03-02", attempt: 2, values: [9, 9, 9, 9] },
    ],
  });
  for (const t of tests) expect(t.doubts).toEqual([]);
});

test("a repeat that was done worse does not outdo the first attempt", () => {
  const { tests } = conditioned({
    tests: [
      { ...day, measure: "compression-dry", values: [1200, 1200, 1200, 1200] },
      { ...day, measure: "compression-dry", attempt: 2, values: [1000, 1000, 1000, 1000], setUp: { crankingRpm: 100 } },
    ],
  });
  expect(tests.map((t) => t.weights[0])).toEqual([1, 0]);
});

test("a test after a repair repeats none from before it; of what the repair left alone it does", () => {
  const { tests } = conditioned({
    tests: [
      { ...day, values: [27, 9, 8, 9], repairSameDay: "before" },
      { ...day, attempt: 2, values: [8, 9, 8, 9], repairSameDay: "after" },
    ],
    repairs: [{ ...day, scope: "top-end", cylinders: [1] }],
  });
  expect(tests.map((t) => t.weights)).toEqual([
    [1, 0, 0, 0],
    [1, 1, 1, 1],
  ]);
});
