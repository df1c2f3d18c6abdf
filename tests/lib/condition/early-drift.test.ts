import { describe, expect, test } from "vitest";
import { earlyDrifts } from "@/lib/condition/early-drift.ts";
import { conditioned, type EngineGiven, every10000, single } from "./histories.ts";

/** Whole-test errors that hide the drift in each cylinder's own line. */
const common = [0, 2, -2, 1, -1, 2, 0, 1];
const rows = (drift: number) => common.map((e, i) => [7 + e, 7.5 + e, 6 + e + drift * i, 8 + e]);
const drifts = (given: EngineGiven) => earlyDrifts(conditioned(given));

describe("earlyDrifts", () => {
  test("a cylinder that draws away from its siblings is told, under whatever moves the whole test", () => {
    const [drift, ...others] = drifts({ tests: every10000(rows(1)) });
    expect(others).toEqual([]);
    expect(drift).toMatchObject({ measure: "leak-down", cylinder: 3 });
    expect(drift?.amount).toBeCloseTo(7, 6);
    expect(drift?.words).toBe(
      "early warning: cylinder 3 has drawn away from its siblings by 7 points within 70,000 km",
    );
  });
  test("not one that improves, that moves little, or wear that all share", () => {
    expect(drifts({ tests: every10000(rows(-0.6)) })).toEqual([]);
    expect(drifts({ tests: every10000(rows(0.3)) })).toEqual([]);
    expect(drifts({ tests: every10000(rows(0).map((r, i) => r.map((v) => v + 2 * i))) })).toEqual([]);
  });
  test("compression by share", () => {
    const kpa = common.map((e, i) => [1210, 1200, 1205 - 12 * i, 1195].map((v) => v + 20 * e));
    const [drift] = drifts({ tests: every10000(kpa, { measure: "compression-dry" }) });
    expect(drift).toMatchObject({ measure: "compression-dry", cylinder: 3 });
    expect(drift?.words).toContain("by 7 % within");
  });
  test("needs six sound tests since the last repair", () => {
    const tests = every10000(rows(1).slice(0, 6));
    expect(drifts({ tests })).toHaveLength(1);
    expect(drifts({ tests: tests.slice(1) })).toEqual([]);
    expect(drifts({ tests, repairs: [{ x: 55_000, scope: "top-end", cylinders: [1] }] })).toEqual([]);
    expect(drifts({ tests: tests.map((t, i) => (i === 2 ? { ...t, setUp: { gaugeZeroed: false } } : t)) })).toEqual([]);
  });
  test("says nothing of a single cylinder", () => {
    expect(drifts({ model: single, tests: every10000(common.map((_, i) => [8 + i])) })).toEqual([]);
  });
});
