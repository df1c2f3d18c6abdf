import { describe, expect, test } from "vitest";
import { conditioned, every10000, type TestGiven } from "./histories.ts";

const usual = [1200, 1180, 1190, 1210];
const tests = (at: number, values: readonly number[], first?: readonly number[]): TestGiven[] =>
  every10000(Array.from({ length: 6 }, (_, i) => (i === at ? values : usual))).map((t, i) => ({
    ...t,
    measure: "compression-dry",
    ...(i === at && first !== undefined ? { firstStrokeShares: first } : {}),
  }));
const codes = (given: readonly TestGiven[]) =>
  conditioned({ tests: given }).tests.map((t) => t.doubts.map((d) => `${d.code} ${d.cylinder}`));

describe("one cylinder that the way of testing explains", () => {
  test("too few strokes: low, and its gauge hardly climbed where the others’ did", () => {
    const low = [1200, 1180, 1040, 1210];
    expect(codes(tests(4, low, [0.7, 0.72, 0.97, 0.7]))[4]).toEqual(["few-strokes 3"]);
    expect(codes(tests(4, low, [0.7, 0.72, 0.7, 0.7]))[4]).toEqual([]);
    expect(codes(tests(4, low, [0.97, 0.96, 0.97, 0.97]))[4]).toEqual([]);
    expect(codes(tests(4, low))[4]).toEqual([]);
  });
  test("oil, fuel or carbon: above its siblings and its own tests, and not borne out by the next", () => {
    const high = [1200, 1180, 1370, 1210];
    expect(codes(tests(3, high))[3]).toEqual(["above-siblings 3"]);
    expect(codes(tests(5, high))[5]).toEqual(["above-siblings 3"]);
    const stays = every10000([usual, usual, usual, usual, high, high, high]).map((t) => ({
      ...t,
      measure: "compression-dry" as const,
    }));
    expect(codes(stays).slice(4, 6).flat()).toEqual([]);
  });
  test("a test in which all read high says nothing of one", () => {
    expect(
      codes(
        tests(
          3,
          usual.map((v) => v * 1.12),
        ),
      )[3]?.some((code) => code.startsWith("above")),
    ).toBe(false);
  });
  test("a cylinder that kept its own course while its siblings fell says nothing of oil", () =>
    expect(codes(tests(5, [1200, 940, 950, 1210]))[5]).toEqual([]));
  test("where the cylinder's own tests scatter as widely, one more is none", () => {
    const wide = [1080, 1300, 1120, 1290, 1100, 1310, 1090, 1370];
    const given = every10000(wide.map((kpa) => [1200, 1180, kpa, 1210])).map((t) => ({
      ...t,
      measure: "compression-dry" as const,
    }));
    expect(codes(given).at(-1)).toEqual([]);
  });
  test("cylinders without any compression say nothing of oil, and all weigh as much as they are", () => {
    const given: TestGiven[] = [
      [null, null, null, 0],
      [null, 0, 0, 0],
      [null, null, null, 0],
      [null, null, null, 0],
    ].map((values) => ({ measure: "compression-dry", x: 40_000, date: "2024-01-01", values }));
    const { tests: weighed } = conditioned({ tests: given });
    expect(weighed.flatMap(({ weights }) => weights).every((weight) => weight >= 0 && weight <= 1)).toBe(true);
    expect(weighed.flatMap(({ doubts }) => doubts.map(({ code }) => code))).not.toContain("above-siblings");
  });
});
