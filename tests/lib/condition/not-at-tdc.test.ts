import { describe, expect, test } from "vitest";
import { conditioned, petrol4, single, type TestGiven } from "./histories.ts";

const high: TestGiven = { x: 50_000, date: "2026-03-10", values: [9, 96, 8, 9] };
const dry = (values: number[], x = 50_300, date = "2026-03-20"): TestGiven => ({
  x,
  date,
  measure: "compression-dry",
  values,
});
const judge = (...tests: TestGiven[]) => {
  const found = conditioned({ tests }).tests.find(
    (t) => t.test.measure === "leak-down" && t.test.readings[1]?.value === 96,
  );
  return { weights: found?.weights, words: found?.doubts[0]?.words, code: found?.doubts[0]?.code };
};

describe("leakage of 85 % and more", () => {
  test("beside normal compression: not used, and the words say why", () => {
    expect(judge(high, dry([1200, 1190, 1210, 1205]))).toEqual({
      weights: [1, 0, 1, 1],
      code: "not-at-tdc",
      words: "cylinder 2 at 96 % beside normal compression: piston probably not at top dead centre; measure again",
    });
  });

  test("normal is within 12 % of the siblings", () => {
    expect(judge(high, dry([1200, 1060, 1200, 1200])).weights).toEqual([1, 0, 1, 1]);
    expect(judge(high, dry([1200, 1050, 1200, 1200])).weights).toEqual([1, 1, 1, 1]);
  });

  test("siblings as low as the cylinder, below the minimum, make nothing normal", () => {
    expect(judge(high, dry([500, 510, 505, 500])).weights).toEqual([1, 1, 1, 1]);
  });

  test("a compression test months and many kilometres away, before a repair, or itself not used, is no witness", () => {
    const alone = judge(high).words;
    expect(alone).toContain("at once");
    expect(judge(high).weights).toEqual([1, 0.3, 1, 1]);
    expect(judge(high, dry([1200, 1190, 1210, 1205], 60_000, "2026-06-20")).words).toBe(alone);
    expect(judge(high, { ...dry([1200, 1190, 1210, 1205]), setUp: { throttleOpen: false } }).words).toBe(alone);
    const repaired = conditioned({
      tests: [dry([1200, 1190, 1210, 1205], 49_000, "2026-03-01"), high],
      repairs: [{ x: 49_500, date: "2026-03-05", scope: "top-end" }],
    });
    expect(repaired.tests[1]?.doubts[0]?.words).toBe(alone);
  });

  test("close by use though months apart is near enough", () => {
    expect(judge(high, dry([1200, 1190, 1210, 1205], 51_000, "2026-09-20")).weights).toEqual([1, 0, 1, 1]);
  });

  test("without compression another test decides: as bad clears it, back to normal puts it aside", () => {
    expect(judge(high, { x: 52_000, values: [9, 70, 8, 9] }).weights).toEqual([1, 1, 1, 1]);
    expect(judge({ x: 48_000, values: [9, 62, 8, 9] }, high).weights).toEqual([1, 1, 1, 1]);
    expect(judge(high, { x: 52_000, values: [9, 10, 8, 9] })).toMatchObject({ weights: [1, 0, 1, 1] });
  });

  test("84 % is a reading like any other", () => {
    expect(
      conditioned({ tests: [{ x: 50_000, values: [9, 84, 8, 9] }, dry([1200, 1190, 1210, 1205])] }).tests[0]?.doubts,
    ).toEqual([]);
  });
});

test("a single cylinder is compared with its own other tests, or with new", () => {
  const model = { ...single, compression: petrol4.compression };
  const tests: TestGiven[] = [
    { x: 40_000, date: "2025-01-10", measure: "compression-dry", values: [1000] },
    { x: 50_000, date: "2026-03-10", measure: "compression-dry", values: [990] },
    { x: 50_000, date: "2026-03-10", values: [92] },
  ];
  expect(conditioned({ model, tests }).tests[2]?.weights).toEqual([0]);
  expect(conditioned({ model, tests: tests.slice(1) }).tests[1]?.weights).toEqual([1]);
});
