import { describe, expect, test } from "vitest";
import { conditioned, every10000, petrolV8, single } from "./histories.ts";

const worn = (i: number) => [7 + i, 8 + i, 6.5 + 0.8 * i, 7.5 + 1.2 * i];
const leak = [0, 1, 2, 3, 4, 5, 6].map(worn);
const shifted = (rows: readonly number[][], at: number, by: number) =>
  rows.map((r, i) => (i === at ? r.map((v) => v + by) : r));
const judge = (rows: readonly number[][], common = {}) => conditioned({ tests: every10000(rows, common) });
const codes = (rows: readonly number[][], common = {}) =>
  judge(rows, common).tests.map((t) => t.doubts.map((d) => d.code).join());
const none = ["", "", "", "", "", "", ""];
const offAt = (...at: number[]) => none.map((_, i) => (at.includes(i) ? "all-cylinders-off" : ""));

describe("all cylinders off together", () => {
  test("steady wear is no doubt, nor is a shift within usual repeatability", () => {
    expect(codes(leak)).toEqual(none);
    expect(codes(shifted(leak, 3, 4.5))).toEqual(none);
  });

  test.each([1, 2, 3, 4, 5])("test %i twelve points up, the next back: hardly used", (at) => {
    const { tests } = judge(shifted(leak, at, 12));
    expect(tests.map((t) => t.doubts[0]?.code ?? "")).toEqual(offAt(at));
    for (const weight of tests[at]?.weights ?? [1]) {
      expect(weight).toBeGreaterThanOrEqual(0.1);
      expect(weight).toBeLessThan(0.2);
    }
    expect(tests[at]?.doubts[0]?.words).toMatch(/^all cylinders read 12 points higher than the other tests foretell/);
  });

  test("better than it should be is as doubtful", () => {
    const { tests } = judge(
      shifted(
        leak.map((r) => r.map((v) => v + 10)),
        3,
        -12,
      ),
    );
    expect(tests.map((t) => t.doubts[0]?.code ?? "")).toEqual(offAt(3));
    expect(tests[3]?.doubts[0]?.words).toContain("lower");
  });

  test("at the last test nothing confirms it: a milder doubt, and a call to test again", () => {
    const last = judge(shifted(leak, 6, 20)).tests[6];
    for (const weight of last?.weights ?? [1]) {
      expect(weight).toBeGreaterThanOrEqual(0.35);
      expect(weight).toBeLessThan(0.4);
    }
    expect(last?.doubts[0]?.words).toContain("test again");
  });

  test("worsening that stays is wear, whether since two tests or four", () => {
    for (const from of [3, 5]) expect(codes(leak.map((r, i) => (i >= from ? r.map((v) => v + 15) : r)))).toEqual(none);
  });

  test("half of a V8, or one cylinder, moving is not the whole test", () => {
    const eight = leak.map((r) => [...r, ...r]);
    const bank = eight.map((r, i) => r.map((v, c) => (i === 3 && c < 4 ? v + 15 : v)));
    expect(conditioned({ model: petrolV8, tests: every10000(bank) }).tests.every((t) => t.doubts.length === 0)).toBe(
      true,
    );
    expect(codes(leak.map((r, i) => (i === 3 ? [(r[0] ?? 0) + 30, ...r.slice(1)] : r)))).toEqual(none);
  });

  test("two faults, on different sides or next but one, do not hide one another", () => {
    expect(codes(shifted(shifted(leak, 2, 14), 4, 16))).toEqual(offAt(2, 4));
    const raised = leak.map((r) => r.map((v) => v + 10));
    expect(codes(shifted(shifted(raised, 2, 14), 4, -14))).toEqual(offAt(2, 4));
  });

  test("compression is judged by share: 15 % down is off, 4 % is not", () => {
    const kpa = leak.map((r, i) => r.map((_, c) => 1220 - 12 * i - 5 * c));
    const scaled = (by: number) => kpa.map((r, i) => (i === 3 ? r.map((v) => v * by) : r));
    const measure = { measure: "compression-dry" } as const;
    expect(codes(scaled(0.85), measure)).toEqual(offAt(3));
    expect(codes(scaled(0.96), measure)).toEqual(none);
    const words = judge(scaled(0.85), measure).tests[3]?.doubts[0]?.words;
    expect(words).toMatch(/^all cylinders read 15 % lower/);
  });

  test("needs three other sound tests in the same life", () => {
    const short = shifted(leak.slice(0, 3), 1, 15);
    expect(codes(short)).toEqual(["", "", ""]);
    const four = shifted(leak.slice(0, 4), 1, 20);
    expect(codes(four)).toEqual(["", "all-cylinders-off", "", ""]);
    const repaired = conditioned({ tests: every10000(four), repairs: [{ x: 75_000, scope: "top-end" }] });
    expect(repaired.tests.every((t) => t.doubts.length === 0)).toBe(true);
  });

  test("a reading converted with a wide error is given that width", () => {
    const tests = every10000(shifted(leak, 3, 12)).map((t, i) => (i === 3 ? { ...t, referralSd: 6 } : t));
    expect(conditioned({ tests }).tests[3]?.doubts).toEqual([]);
  });

  test("a single cylinder far off and back again is doubted in the same way", () => {
    const tests = every10000([[10], [11], [12], [30], [14], [15]]);
    const { tests: judged } = conditioned({ model: single, tests });
    expect(judged[3]?.doubts[0]?.words).toMatch(/^the cylinder reads 17 points higher/);
  });
});

describe("too good to be true", () => {
  const good = [1, 2, 0, 2];
  test("perfect sealing where 10 % and more stood, and stands again", () => {
    const raised = leak.map((r) => r.map((v) => v + 3));
    const { tests, improvements } = judge(raised.map((r, i) => (i === 4 ? good : r)));
    expect(tests[4]?.doubts.map((d) => d.code)).toContain("too-good");
    expect(tests[4]?.weights.every((w) => w <= 0.1)).toBe(true);
    expect(improvements).toEqual([]);
  });
  test("at the last test as well", () => {
    const { tests, improvements } = judge([...leak.slice(0, 6).map((r) => r.map((v) => v + 4)), good]);
    expect(tests[6]?.doubts[0]?.code).toBe("too-good");
    expect(improvements).toEqual([]);
  });
  test("not when the next test agrees, when the engine was as good before, or after a repair", () => {
    const stays = judge([...leak.slice(0, 4).map((r) => r.map((v) => v + 6)), good, [2, 2, 1, 2]]);
    expect(stays.tests.every((t) => t.doubts.length === 0)).toBe(true);
    expect(judge([[3, 4, 3, 4], [4, 4, 4, 4], good]).tests[2]?.doubts).toEqual([]);
    const repaired = conditioned({
      tests: every10000([...leak.slice(0, 4), good]),
      repairs: [{ x: 85_000, scope: "complete" }],
    });
    expect(repaired.tests[4]?.doubts).toEqual([]);
  });
});
