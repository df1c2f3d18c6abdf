import { describe, expect, test } from "vitest";
import type { FaultRuling } from "@/lib/projection/observations.ts";
import { fitWearPool } from "@/lib/projection/pool.ts";
import { expectedRate, likelyLevel } from "@/lib/projection/project.ts";
import { wearScaleOf } from "@/lib/projection/scale.ts";
import { type EngineFit, fitEngineWear } from "@/lib/projection/wear-model.ts";
import { petrol4 } from "../cause/engines.ts";
import { observed } from "./engine-given.ts";

const scale = wearScaleOf(petrol4, "leak-down");
const pool = fitWearPool(petrol4, "leak-down", "h", []);
const pairs = [
  [1, 2],
  [2, 3],
  [3, 4],
] as const;

const wearOf = (given: ReturnType<typeof observed>, xNow: number) => fitEngineWear(given, pool, xNow, scale);
const even = (n: number, last: readonly number[] = []) => [
  ...Array(n).fill([8, 9, 8, 8]),
  ...(last.length > 0 ? [last] : []),
];
const faulty = (of: ReturnType<typeof wearOf>, cylinder: number) =>
  (of.cylinders[cylinder - 1]?.faults ?? []).reduce((sum, fault) => sum + fault.probability, 0);

describe("fitEngineWear", () => {
  test("what branches say adds up to 1, with any number of tests", () => {
    for (const n of [1, 2, 5, 30]) {
      for (const { branches } of wearOf(observed(even(n)), 500 * n).cylinders) {
        expect(branches.reduce((sum, b) => sum + b.probability, 0)).toBeCloseTo(1, 10);
        for (const b of branches) {
          expect(b.levelVariance).toBeGreaterThan(0);
          expect(b.covariance ** 2).toBeLessThanOrEqual(b.levelVariance * b.rateVariance * (1 + 1e-9));
        }
      }
    }
  });

  test("leans less on the sisters as tests come in", () => {
    const shares = [1, 3, 8, 30].map((n) => wearOf(observed(even(n)), 500 * n).cylinders[0]?.ownShare ?? 0);
    expect(shares).toEqual(shares.toSorted((a, b) => a - b));
    expect(shares[0]).toBeLessThan(0.4);
    expect(shares[3]).toBeGreaterThan(0.75);
  });

  test("a step of one cylinder at the last test may be a fault or a misreading: both stay open", () => {
    const open = wearOf(observed(even(6, [8, 9, 15, 8])), 3500);
    expect(faulty(open, 3)).toBeGreaterThan(0.1);
    expect(faulty(open, 3)).toBeLessThan(0.9);
    expect(faulty(open, 1)).toBe(0);
    const next = wearOf(observed([...even(6, [8, 9, 15, 8]), [8, 9, 16, 8]]), 4000);
    expect(faulty(next, 3)).toBeGreaterThan(0.75);
  });

  test("neighbours that step together bear each other out, cylinders apart less so", () => {
    const beside = wearOf(observed(even(6, [8, 15, 14, 8]), { neighbours: pairs }), 3500);
    const apart = wearOf(observed(even(6, [14, 9, 8, 15]), { neighbours: pairs }), 3500);
    expect(faulty(beside, 3)).toBeGreaterThan(faulty(apart, 4));
  });

  test("air heard elsewhere than at the crankcase makes a fault likelier, at the crankcase alone less likely", () => {
    const rows = even(6, [8, 9, 13, 8]);
    const heard = (odds: number) =>
      rows.map((row, t) => row.map((_: number, c: number) => (t === 6 && c === 2 ? odds : 0)));
    const [elsewhere, nothing, crankcase] = [Math.log(12), 0, Math.log(0.3)].map((odds) =>
      faulty(wearOf(observed(rows, { heard: heard(odds) }), 3500), 3),
    ) as [number, number, number];
    expect(elsewhere).toBeGreaterThan(nothing);
    expect(crankcase).toBeLessThanOrEqual(nothing);
  });

  test("a rise over a great many tests leaves an account, however open it is when it began", () => {
    for (const n of [60, 120, 200]) {
      const rows = Array.from({ length: n }, (_, t) => {
        const stray = (k: number) => 1.5 * Math.sin(12.9898 * (t + 1) * k);
        return [8 + stray(1), 8 + stray(2), 8 + stray(3) + 12 * Math.max(0, t / n - 0.3), 8 + stray(4)];
      });
      const x = rows.map((_, t) => 1000 + (1500 * t) / n);
      const { cylinders } = wearOf(observed(rows, { x }), 2500);
      expect(cylinders.map((c) => c.branches.length > 0)).toEqual([true, true, true, true]);
      const { branches } = cylinders[2] ?? { branches: [] };
      expect(likelyLevel(branches, scale)).toBeGreaterThan(12);
      expect(branches.reduce((sum, b) => sum + (b.isFault ? b.probability : 0), 0)).toBeGreaterThan(0.8);
    }
  });

  test("a meter that says nothing of when the rings were last renewed leaves the readings to tell it", () => {
    const rows = [8, 9, 10, 11, 12].map((v) => [v, v + 0.5, v, v + 1]);
    const from = (start: number, originKnown: boolean) => {
      const x = rows.map((_, t) => start + 400 * t);
      const [first] = wearOf(observed(rows, { x, originKnown }), start + 1600).cylinders;
      return 1000 * expectedRate(first?.branches ?? [], scale).mean;
    };
    const soon = from(500, true);
    // Sure that nothing was renewed in 20,000 h, its wear must be slow.
    expect(from(20_500, true)).toBeLessThan(0.4 * soon);
    expect(from(20_500, false)).toBeGreaterThan(0.6 * soon);
    expect(from(500, false)).toBeCloseTo(soon, 6);
  });

  describe("what a person ruled of a fault", () => {
    const rows = [...even(6), [8, 9, 14, 8], [8, 9, 13, 8]];
    const ruledAs = (rulings: Readonly<Record<number, FaultRuling>>) => {
      const ruled = rows.map((row, t) => row.map((_: number, c: number) => (c === 2 ? (rulings[t] ?? null) : null)));
      return wearOf(observed(rows, { ruled }), 4500);
    };
    const begunBy = (fit: EngineFit) => fit.cylinders[2]?.faults.map(({ by }) => by) ?? [];

    test("confirmed: one had begun by that test, whatever the readings say of it", () => {
      const fit = ruledAs({ 6: "fault" });
      expect(faulty(fit, 3)).toBeCloseTo(1, 9);
      for (const x of begunBy(fit)) expect(x).toBeLessThanOrEqual(3500);
      expect(faulty(ruledAs({ 2: "fault" }), 3)).toBeCloseTo(1, 9);
    });

    test("rejected: none had, but one may have begun since", () => {
      const fit = ruledAs({ 6: "no-fault" });
      expect(faulty(fit, 3)).toBeLessThan(faulty(ruledAs({}), 3));
      for (const x of begunBy(fit)) expect(x).toBeGreaterThan(3500);
      expect(faulty(ruledAs({ 7: "no-fault" }), 3)).toBe(0);
    });

    test("both: it began between the two, and of two that contradict each other the later test's holds", () => {
      const between = ruledAs({ 5: "no-fault", 6: "fault" });
      expect(faulty(between, 3)).toBeCloseTo(1, 9);
      expect(new Set(begunBy(between))).toEqual(new Set([3500]));
      expect(faulty(ruledAs({ 5: "fault", 7: "no-fault" }), 3)).toBe(0);
    });
  });

  test("one cylinder goes its own way and leaves its siblings", () => {
    const rows = Array.from({ length: 8 }, (_, t) => [8, 8, 8 + 1.5 * t, 8]);
    const { cylinders } = wearOf(observed(rows), 4000);
    const levels = cylinders.map((c) => likelyLevel(c.branches, scale));
    expect(levels[2]).toBeGreaterThan(16);
    for (const c of [0, 1, 3]) expect(levels[c]).toBeLessThan(10);
  });

  test("wear that went on since the last test is carried forward, and less sure", () => {
    const rows = Array.from({ length: 8 }, (_, t) => [8 + t, 8 + t, 8 + t, 8 + t]);
    const [at, later] = [4000, 6000].map((xNow) => wearOf(observed(rows), xNow).cylinders[0]?.branches ?? []);
    expect(likelyLevel(later ?? [], scale)).toBeGreaterThan(likelyLevel(at ?? [], scale) + 1);
    expect(later?.[0]?.levelVariance).toBeGreaterThan(at?.[0]?.levelVariance ?? Number.POSITIVE_INFINITY);
  });

  test("a single cylinder is read by its own course", () => {
    const rows = [8, 8, 9, 9, 22, 26].map((v) => [v]);
    const one = fitEngineWear(
      observed(rows),
      fitWearPool({ ...petrol4, cylinders: 1, neighbours: [] }, "leak-down", "h", []),
      3000,
      scale,
    );
    expect(one.sharedUncertainty).toBe(0);
    expect(likelyLevel(one.cylinders[0]?.branches ?? [], scale)).toBeGreaterThan(18);
    expect(faulty(one, 1)).toBeGreaterThan(0.5);
  });
});
