import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Domain } from "@/app/_ui/unit/axis.ts";
import type { Choice } from "@/app/_ui/unit/choice.ts";
import { type ShownFactors, trendSeries } from "@/app/_ui/unit/trend-series.ts";
import { trendSource } from "@/app/_ui/unit/trend-source.ts";
import type { UnitReport } from "@/lib/schema/report.ts";
import { diesel, v8 } from "./fixture.ts";

type Chosen = Pick<Choice, "measure" | "cylinder"> & Partial<Choice>;
const drawn = (report: UnitReport, choice: Chosen, view?: Domain, shown?: ShownFactors) =>
  trendSeries(trendSource(report, { values: "referred", ...choice }), view, shown);

const leak = drawn(diesel, { measure: "leak-down", cylinder: 3 });
const pressure = drawn(v8, { measure: "compression-dry", cylinder: 6 });

/** The diesel with cylinder 3 of its leak-down chart changed. */
function withCylinder3(change: Partial<UnitReport["charts"][number]["cylinders"][number]>): UnitReport {
  return {
    ...diesel,
    charts: diesel.charts.map((chart) => ({
      ...chart,
      cylinders: chart.cylinders.map((c) => (c.cylinder === 3 ? { ...c, ...change } : c)),
    })),
  };
}

describe("trendSeries", () => {
  it("gives a line a cylinder and life, the chosen cylinder last", () => {
    expect(leak.lines.map((l) => l.key)).toEqual(["c1_0", "c1_1", "c2_0", "c2_1", "c4_0", "c4_1", "c3_0", "c3_1"]);
    expect(leak.lines.filter((l) => l.chosen).map((l) => l.key)).toEqual(["c3_0", "c3_1"]);
  });

  it("breaks a line at a repair: no row carries both lives of a cylinder", () => {
    expect(leak.rows.some((r) => r["c3_0"] !== undefined && r["c3_1"] !== undefined)).toBe(false);
    expect(leak.rows.filter((r) => r["c3_0"] !== undefined).map((r) => r.x)).toEqual([24600, 46200, 64200]);
  });

  it("keeps doubtful readings out of the lines, under a key of their own, with the reason", () => {
    const cold = leak.rows.filter((r) => r.x === 101500);
    expect(cold).toEqual([{ x: 101500, d1: 12, d2: 13, d3: 12, d4: 11 }]);
    expect(leak.doubts).toEqual([
      { x: 101500, value: 13, farthest: 11, words: "not used: engine cold: all four up 6 points", offAxis: [] },
    ]);
  });

  it("keeps every reading exactly once", () => {
    const drawn = leak.rows.flatMap((r) => Object.keys(r).filter((k) => /^[cd]\d/.test(k)));
    expect(drawn).toHaveLength(4 * 11);
  });

  it("gives a second test at the same meter reading a row of its own", () => {
    const points = diesel.charts[0]?.cylinders[2]?.points ?? [];
    const repeat = points.map((p) => ({ ...p, value: p.value + 1 }));
    const twice = drawn(withCylinder3({ points: [...points, ...repeat] }), { measure: "leak-down", cylinder: 3 });
    const last = twice.rows.filter((r) => r.x === 148300).map((r) => r["c3_1"]);
    expect(last).toEqual([22, 23]);
  });

  it("puts whiskers on used readings of the chosen cylinder only", () => {
    const whiskered = leak.rows.filter((r) => r["sd"] !== undefined);
    expect(whiskered).toHaveLength(10);
    expect(whiskered.every((r) => r["c3_0"] !== undefined || r["c3_1"] !== undefined)).toBe(true);
  });

  it("spreads the fan from today and cuts it at the end of the axis", () => {
    const fan = leak.rows.filter((r) => r["p50"] !== undefined);
    expect(fan[0]).toMatchObject({ x: 148600, b80: [20, 24], b50: [21, 23], p50: 22 });
    expect(fan.at(-1)?.x).toBe(leak.x.domain[1]);
    const [low, high] = (fan.at(-1)?.["b80"] ?? []) as number[];
    expect(low).toBeGreaterThan(28.5);
    expect(high).toBeGreaterThan(60);
    expect(drawn(diesel, { measure: "leak-down", cylinder: 1 }).hasFan).toBe(false);
  });

  it("reaches from before the first reading to beyond the late edge of the crossing", () => {
    expect(leak.x.domain[0]).toBeLessThan(24600);
    expect(leak.x.domain[1]).toBeGreaterThan(168300);
    expect(leak.crossing).toEqual({ status: "projected", limit: 28, p10: 151900, p50: 156800, p90: 168300 });
  });

  it("leaves out a late edge that the axis does not reach", () => {
    const crossingX = { p10: 160000, p50: 400000, p90: 900000 };
    const far = drawn(withCylinder3({ crossingX }), { measure: "leak-down", cylinder: 3 });
    expect(far.x.domain[1]).toBeLessThan(400000);
    expect(far.crossing).toMatchObject({ p10: 160000, p50: null, p90: null });
  });

  it("starts leakage at 0 and compression below its minimum, with limits among the ticks", () => {
    expect(leak.y).toEqual({ domain: [0, 36], ticks: [0, 10, 18, 28, 36] });
    expect(pressure.y.domain[0]).toBeGreaterThan(0);
    expect(pressure.y.domain[0]).toBeLessThan(950);
    expect(pressure.y.ticks).toContain(950);
  });

  it("leaves out plan and watch lines that lie beyond the limit in force", () => {
    const tight = drawn(withCylinder3({ limit: 16 }), { measure: "leak-down", cylinder: 3 });
    expect(tight.limits.map((l) => [l.kind, l.value])).toEqual([
      ["limit", 16],
      ["watch", 10],
      ["usual-limit", 28],
    ]);
  });

  it("shows a quarter of a year's use at least, so that dates can be told", () => {
    const points = (diesel.charts[0]?.cylinders[2]?.points ?? []).slice(-1);
    const charts = diesel.charts.map((c) => ({ ...c, cylinders: c.cylinders.map((s) => ({ ...s, points })) }));
    const first = drawn({ ...diesel, charts }, { measure: "leak-down", cylinder: 1 });
    expect(first.today - first.x.domain[0]).toBeGreaterThan(10000);
    expect(first.dates.length).toBeGreaterThan(0);
  });

  it("washes the bad side of the limit", () => {
    expect(leak.wash).toEqual([28, 36]);
    expect(pressure.wash).toEqual([pressure.y.domain[0], 950]);
  });

  it("does not let one doubtful reading flatten the rest: its point stays on the edge, its value in words", () => {
    const points = (diesel.charts[0]?.cylinders[2]?.points ?? []).map((p) =>
      p.weight === 0 ? { ...p, value: 96 } : p,
    );
    const off = drawn(withCylinder3({ points }), { measure: "leak-down", cylinder: 3 });
    expect(off.y.domain).toEqual([0, 36]);
    expect(off.rows.find((r) => r.x === 101500)?.["d3"]).toBeCloseTo(35.57, 2);
    expect(off.doubts[0]?.offAxis).toEqual([{ cylinder: 3, value: 96 }]);
  });

  it("draws the tighter limit in force for a valve with its own plan and watch, beside the usual one", () => {
    const leakDown = diesel.model.leakDown;
    if (leakDown === undefined) throw new Error("the fixture has leak-down limits");
    const valves = { watchPercent: 8, planPercent: 12, limitPercent: 16 };
    const model = { ...diesel.model, leakDown: { ...leakDown, valves } };
    const tight = drawn({ ...withCylinder3({ limit: 16 }), model }, { measure: "leak-down", cylinder: 3 });
    expect(tight.limits).toEqual([
      { kind: "limit", value: 16 },
      { kind: "plan", value: 12 },
      { kind: "watch", value: 8 },
      { kind: "usual-limit", value: 28 },
    ]);
  });

  it("marks repairs by letter and an assumed one apart", () => {
    const [repair] = diesel.repairs;
    if (repair === undefined) throw new Error("the fixture has a repair");
    const report = { ...diesel, repairs: [repair, { ...repair, x: 110000, scope: "assumed" as const }] };
    const marks = drawn(report, { measure: "leak-down", cylinder: 3 }).repairs;
    expect(marks.map((m) => [m.letter, m.assumed])).toEqual([
      ["T", false],
      ["?", true],
    ]);
  });

  it("lays the years along the meter by the unit's own use", () => {
    expect(leak.dates.map((d) => d.date)).toEqual(["2024-01-01", "2025-01-01", "2026-01-01", "2027-01-01"]);
    const xs = leak.dates.map((d) => d.x);
    expect(xs).toEqual([...xs].sort((a, b) => a - b));
  });

  it("gives the second bank square points", () => {
    expect(pressure.lines.filter((l) => l.square).map((l) => l.cylinder)).toEqual([5, 5, 7, 7, 8, 8, 6, 6]);
    expect(leak.lines.some((l) => l.square)).toBe(false);
  });

  it("leaves points of the others out where more than eight cylinders would hide each other", () => {
    expect(pressure.isCrowded).toBe(false);
    const chart = v8.charts[0];
    const ninth = chart?.cylinders[0];
    if (chart === undefined || ninth === undefined) throw new Error("the fixture has a chart");
    const charts = [{ ...chart, cylinders: [...chart.cylinders, { ...ninth, cylinder: 9 }] }];
    expect(drawn({ ...v8, charts }, { measure: "compression-dry", cylinder: 6 }).isCrowded).toBe(true);
  });

  it("makes room for wet readings of the chosen cylinder beside its dry ones", () => {
    const [test] = diesel.tests.filter((t) => t.measure === "compression-wet");
    if (test === undefined) throw new Error("the fixture has a wet test");
    const high = { ...test, entered: test.entered.map((e) => ({ ...e, referred: 3400 })) };
    const dry = { measure: "compression-dry", cylinder: 3 } as const;
    expect(drawn({ ...diesel, tests: [high] }, dry)).toMatchObject({ wet: [{ x: test.x, value: 3400 }] });
    expect(drawn({ ...diesel, tests: [high] }, dry).y.domain[1]).toBeGreaterThan(3400);
    expect(drawn({ ...diesel, tests: [] }, dry).y.domain[1]).toBeLessThan(3400);
  });

  it("shows a part of the axis: marks and notes in view, labels where lines leave it", () => {
    const part = drawn(diesel, { measure: "leak-down", cylinder: 3 }, [64_200, 110_000]);
    expect(part.x.domain).toEqual([64_200, 110_000]);
    expect(part.repairs.map((r) => r.letter)).toEqual(["T"]);
    expect(part.doubts).toHaveLength(1);
    expect(part.hasFan).toBe(false);
    // Cylinder 3 read 6 at 104,200 and 7 at 123,000.
    expect(part.ends.find((e) => e.cylinder === 3)?.value).toBeCloseTo(6 + 5_800 / 18_800, 6);
    const early = drawn(diesel, { measure: "leak-down", cylinder: 3 }, [66_000, 72_000]);
    expect(early.ends).toEqual([]);
    expect(early.doubts).toEqual([]);
    const ahead = drawn(diesel, { measure: "leak-down", cylinder: 3 }, [148_400, 170_000]);
    expect(ahead.hasFan).toBe(true);
    expect(ahead.repairs).toEqual([]);
  });

  it("puts ticks on round figures of what is shown, on canonical places", () => {
    const shown = { meter: 1 / 1.609344, level: 0.1450377 };
    const psi = drawn(v8, { measure: "compression-dry", cylinder: 6 }, undefined, shown);
    const miles = psi.x.ticks.map((x) => x * shown.meter);
    expect(miles.every((m) => Math.abs(m / 100 - Math.round(m / 100)) < 1e-6)).toBe(true);
    expect(psi.y.ticks).toContain(950);
    for (const end of psi.y.domain)
      expect(Math.abs(end * shown.level - Math.round(end * shown.level))).toBeLessThan(1e-6);
  });

  it("refuses a measure that the report does not chart", () => {
    expect(() => drawn(v8, { measure: "leak-down", cylinder: 1 })).toThrow("no chart of leak-down");
  });

  it("keeps axes finite and ascending, and used readings on them, whatever was read", () => {
    const reading = fc.record({
      x: fc.integer({ min: 0, max: 148600 }),
      value: fc.double({ min: 0, max: 100, noNaN: true }),
    });
    fc.assert(
      fc.property(fc.array(reading, { minLength: 1, maxLength: 12 }), (readings) => {
        const points = readings.map((r) => ({
          ...r,
          date: "2026-01-01",
          entered: r.value,
          sd: 1,
          weight: 1,
          life: 0,
          doubt: null,
        }));
        const series = drawn(withCylinder3({ points }), { measure: "leak-down", cylinder: 3 });
        for (const [low, high] of [series.x.domain, series.y.domain]) expect(high).toBeGreaterThan(low);
        for (const axis of [series.x, series.y]) {
          expect(axis.ticks.length).toBeGreaterThan(1);
          expect(axis.ticks.every((t) => t >= axis.domain[0] && t <= axis.domain[1])).toBe(true);
        }
        for (const { x, value } of points) {
          expect(x).toBeGreaterThanOrEqual(series.x.domain[0]);
          expect(value).toBeLessThanOrEqual(series.y.domain[1]);
        }
      }),
    );
  });
});
