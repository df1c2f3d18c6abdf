import { describe, expect, test } from "vitest";
import { conditioned, every10000, type RepairGiven, single, type TestGiven } from "./histories.ts";

const model = { ...single, compression: { newKpa: 900, minimumKpa: 600 } as NonNullable<typeof single.compression> };
const codes = (tests: readonly TestGiven[], repairs: readonly RepairGiven[] = [], of?: typeof single) =>
  conditioned({ tests, repairs, ...(of === undefined ? {} : { model: of }) }).tests.map((t) =>
    t.doubts.map((d) => d.code),
  );

describe("a decompressor", () => {
  const dry = (kpa: readonly number[]) =>
    every10000(kpa.map((v) => [v])).map((t) => ({ ...t, measure: "compression-dry" as const }));
  const leak = (percent: number) => every10000([[percent], [percent], [percent]]);
  const isNoted = (tests: readonly TestGiven[]) => codes(tests, [], model).flat().includes("decompressor");
  test("very low from new, flat, beside normal leakage", () => {
    expect(isNoted([...dry([420, 425, 415]), ...leak(9)])).toBe(true);
  });
  test("not where it falls, where it leaks, or where it was sound", () => {
    expect(isNoted([...dry([600, 500, 415]), ...leak(9)])).toBe(false);
    expect(isNoted([...dry([420, 425, 415]), ...leak(25)])).toBe(false);
    expect(isNoted([...dry([850, 845, 850]), ...leak(9)])).toBe(false);
    expect(isNoted(dry([420, 425, 415]))).toBe(false);
  });
});

describe("hydraulic lifters pumped up", () => {
  const repairs = [{ x: 65_000, scope: "top-end" as const, date: "2024-08-01" }];
  const tests = (values: readonly (readonly number[])[], date: string): TestGiven[] =>
    values.map((v, i) => ({
      x: 66_000 + 10_000 * i,
      values: v,
      date: i === 0 ? date : "2025-03-01",
      heardAt: ["exhaust"],
    }));
  test("several leak at the valves soon after the head was off, and no more at the next test", () => {
    expect(
      codes(
        tests(
          [
            [14, 15, 13, 8],
            [7, 6, 8, 7],
          ],
          "2024-08-10",
        ),
        repairs,
      )[0],
    ).toContain("lifters");
    expect(codes(tests([[14, 15, 13, 8]], "2024-08-10"), repairs)[0]).toContain("lifters");
  });
  test("not one cylinder, not long after, not where the next test bears it out", () => {
    expect(codes(tests([[14, 5, 6, 8]], "2024-08-10"), repairs)[0]).not.toContain("lifters");
    expect(codes(tests([[14, 15, 13, 8]], "2024-12-10"), repairs)[0]).not.toContain("lifters");
    expect(
      codes(
        tests(
          [
            [14, 15, 13, 8],
            [14, 15, 13, 8],
          ],
          "2024-08-10",
        ),
        repairs,
      )[0],
    ).not.toContain("lifters");
  });
});
