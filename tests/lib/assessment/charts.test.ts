import { describe, expect, test } from "vitest";
import { measureCharts, repairMarks, testLines } from "@/lib/assessment/charts.ts";
import { daysBetween } from "@/lib/calendar.ts";
import type { CylinderSeries } from "@/lib/schema/report.ts";
import type { JudgedMeasure } from "@/lib/schema/words.ts";
import { reading, repairFact, unitFact } from "../sealing/facts.ts";
import { assessedUnit, dry, halfYearly, leakDown, petrol4, wet, worn } from "./made-up-fleet.ts";

const units = [unitFact()];
type Facts = Parameters<typeof assessedUnit>[0];

function seriesOf(facts: Facts, cylinder: number, measure: JudgedMeasure = "leak-down"): CylinderSeries {
  const chart = measureCharts(assessedUnit({ units, ...facts })).find((c) => c.measure === measure);
  const found = chart?.cylinders.find((c) => c.cylinder === cylinder);
  if (found === undefined) throw new Error(`no ${measure} of cylinder ${cylinder}`);
  return found;
}
const lives = (facts: Facts, cylinder: number) => seriesOf(facts, cylinder).points.map((p) => p.life);
const flat = halfYearly(worn(5, 6, 0));

describe("the charts of a unit", () => {
  test("one for each judged measure that was ever taken, with the model's lines", () => {
    const tests = [...flat, wet("2026-06-01", 100_000, [1250, 1250, 1250, 1250])];
    expect(measureCharts(assessedUnit({ units })).length).toBe(0);
    expect(measureCharts(assessedUnit({ units, tests })).map(({ cylinders: _, ...lines }) => lines)).toEqual([
      { measure: "leak-down", unit: "%", limit: 30, plan: 20, watch: 10 },
    ]);
    const both = [...tests, dry("2026-06-01", 100_000, [1250, 1250, 1250, 1250])];
    expect(measureCharts(assessedUnit({ units, tests: both }))[1]).toMatchObject({
      measure: "compression-dry",
      unit: "kPa",
      limit: 900,
      plan: null,
      watch: null,
    });
    const { leakDown: _, ...compressionOnly } = petrol4;
    expect(measureCharts(assessedUnit({ units, tests, models: [compressionOnly] }))[0]).toMatchObject({
      measure: "leak-down",
      limit: null,
      plan: null,
      watch: null,
    });
  });

  test("every cylinder has a series, one never measured an empty one", () => {
    const tests = halfYearly(Array.from({ length: 3 }, () => [6, null, 6, 6]));
    expect(seriesOf({ tests }, 1).points).toHaveLength(3);
    expect(seriesOf({ tests }, 2)).toMatchObject({ points: [], fan: [], band: null, level: null, crossing: null });
  });
});

describe("the points of a cylinder", () => {
  test("the line breaks at repairs that give a new baseline, of the cylinders named", () => {
    const repairs = [
      repairFact({ date: "2025-01-10", meter: 75_000, scope: "top-end", cylinders: [2] }),
      repairFact({ date: "2026-01-10", meter: 93_000, scope: "complete" }),
    ];
    expect(lives({ tests: flat, repairs }, 1)).toEqual([0, 0, 0, 0, 1]);
    expect(lives({ tests: flat, repairs }, 2)).toEqual([0, 0, 1, 1, 2]);
  });

  test("an adjustment breaks no line", () => {
    const repairs = [repairFact({ date: "2025-01-10", meter: 75_000, scope: "adjustment" })];
    expect(lives({ tests: flat, repairs }, 1)).toEqual([0, 0, 0, 0, 0]);
  });

  test("a test at the repair's own meter found what it cured, be it of the same day; one of a later day followed it", () => {
    // The tests are of 1 June 2025 at 82,000 km.
    const at = (date: string) => ({ tests: flat, repairs: [repairFact({ date, meter: 82_000 })] });
    expect(lives(at("2025-06-03"), 1)).toEqual([0, 0, 0, 1, 1]);
    expect(lives(at("2025-06-01"), 1)).toEqual([0, 0, 0, 1, 1]);
    expect(lives(at("2025-05-30"), 1)).toEqual([0, 0, 1, 1, 1]);
  });

  test("two repairs at one meter break the line once", () => {
    const repairs = [
      repairFact({ date: "2025-06-03", meter: 82_000, scope: "top-end" }),
      repairFact({ date: "2025-06-04", meter: 82_000, scope: "bottom-end" }),
    ];
    expect(lives({ tests: flat, repairs }, 1)).toEqual([0, 0, 0, 1, 1]);
  });

  test("what is not used keeps its place, with weight 0 and the reason of its own cylinder", () => {
    const shut = dry("2026-06-20", 101_000, [900, 900, 900, 900], { throttleOpen: false });
    const tests = [...flat.map((t) => dry(t.date, t.meter, [1240, 1240, 1240, 1240])), shut];
    const { points } = seriesOf({ tests }, 1, "compression-dry");
    expect(points.map((p) => p.weight)).toEqual([1, 1, 1, 1, 1, 0]);
    expect(points.at(-1)).toMatchObject({ x: 101_000, date: "2026-06-20", value: 900 });
    expect(points.at(-1)?.doubt).toContain("throttle shut");
    expect(points[0]?.doubt).toBeNull();

    const wild = leakDown("2026-06-20", 101_000, [6, 96, 6, 6]);
    const near = dry("2026-06-20", 101_000, [1240, 1240, 1240, 1240]);
    const last = (cylinder: number) =>
      seriesOf({ tests: [...flat, ...tests.slice(0, 5), near, wild] }, cylinder).points.at(-1);
    expect(last(2)).toMatchObject({ value: 96, weight: 0, doubt: expect.stringContaining("top dead centre") });
    expect(last(1)).toMatchObject({ value: 6, weight: 1, doubt: null });
  });

  test("keeps what was entered beside what it was made into, in kPa or %", () => {
    const high = leakDown("2026-06-20", 101_000, [], {
      readings: [
        reading({ cylinder: 1, value: 60, valueUnit: "psi", supply: 80 }),
        reading({ cylinder: 2, value: 20 }),
        reading({ cylinder: 3, value: 4.5, valueUnit: "bar", supply: 6 }),
      ],
      orificeMm: 1.5,
      altitudeM: 1850,
    });
    const entered = [1, 2, 3].map((n) => seriesOf({ tests: [...flat, high] }, n).points.at(-1));
    expect(entered.map((p) => p?.entered)).toEqual([25, 20, 25]);
    expect(entered.every((p) => (p?.value ?? 0) > 1.3 * (p?.entered ?? Infinity))).toBe(true);

    const pressures = [
      reading({ cylinder: 1, value: 10.2, valueUnit: "bar" }),
      reading({ cylinder: 2, value: 150, valueUnit: "psi" }),
    ];
    const thin = dry("2026-06-20", 101_000, [], { readings: pressures, altitudeM: 1850 });
    const [bar, psi] = [1, 2].map((n) => seriesOf({ tests: [thin] }, n, "compression-dry").points.at(-1));
    expect(bar?.entered).toBe(1020);
    expect(psi?.entered).toBeCloseTo(1034.2, 1);
    expect(bar?.value).toBeGreaterThan(1200);
  });

  test("a reading referred over an unknown altitude is less sure than one at a known one", () => {
    const known = seriesOf({ tests: [dry("2026-06-01", 100_000, [1200, 1200, 1200, 1200])] }, 1, "compression-dry");
    const unknown = seriesOf(
      { tests: [dry("2026-06-01", 100_000, [1200, 1200, 1200, 1200], { altitudeM: null })] },
      1,
      "compression-dry",
    );
    expect(known.points[0]?.sd).toBeGreaterThan(0);
    expect(unknown.points[0]?.sd).toBeGreaterThan(known.points[0]?.sd ?? Infinity);
  });
});

describe("the fan of a cylinder", () => {
  const falling = {
    tests: halfYearly(worn(6, 0, 1)).map((t, i) => dry(t.date, t.meter, Array(4).fill(1150 - 40 * i))),
  };
  const rising = { tests: halfYearly(worn(6, 12, 3)) };

  test.each([
    ["leak-down", rising, 1],
    ["compression-dry", falling, -1],
  ] as const)("of %s starts now at the level, widens, and is in order at every place", (measure, facts, sign) => {
    const { fan, level } = seriesOf(facts, 1, measure);
    const { xNow } = assessedUnit({ units, ...facts });
    expect(fan.length).toBeGreaterThan(10);
    expect(fan[0]?.x).toBeCloseTo(xNow, 1);
    expect(fan[0]?.p50).toBeCloseTo(level ?? Number.NaN, 1);
    for (const [i, at] of fan.entries()) {
      const quantiles = [at.p10, at.p25, at.p50, at.p75, at.p90];
      expect(quantiles).toEqual(quantiles.toSorted((a, b) => a - b));
      const before = fan[i - 1];
      if (before === undefined) continue;
      expect(at.x).toBeGreaterThan(before.x);
      expect(at.p90 - at.p10).toBeGreaterThan(before.p90 - before.p10);
      expect(sign * (at.p50 - before.p50)).toBeGreaterThan(0);
    }
  });

  test("reaches past the late end of the crossing, but not past the horizon", () => {
    const late = seriesOf({ tests: halfYearly(worn(8, 6, 3)) }, 1);
    expect(late.crossingX?.p90).not.toBeNull();
    expect(late.fan.at(-1)?.x).toBeGreaterThan(late.crossingX?.p90 ?? Infinity);
    const assessed = assessedUnit({ units, tests: flat });
    const end = assessed.xNow + assessed.telling.use.perDay * daysBetween("2026-06-30", "2031-06-30");
    expect(seriesOf({ tests: flat }, 1).fan.at(-1)?.x).toBeCloseTo(end, 0);
  });

  test("there is none with too few tests", () => {
    const few = seriesOf({ tests: flat.slice(-2) }, 1);
    expect(few.fan).toEqual([]);
    expect(few.crossing?.status).toBe("too-few-tests");
    expect(few.crossingX).toBeNull();
  });

  test("a crossing stands on the engine's axis where its meter was replaced", () => {
    const facts = {
      tests: rising.tests.map((t) => (t.date < "2026" ? t : { ...t, meter: 7500 })),
      meterReadings: [{ unit: "V-101", date: "2026-01-01", meter: 0, meterReset: true, file: "m.csv", line: 2 }],
    };
    const assessed = assessedUnit({ units, ...facts });
    const { crossing, crossingX } = seriesOf(facts, 1);
    expect(assessed.xNow).toBeGreaterThan(90_000);
    expect(assessed.telling.meterNow).toBeLessThan(10_000);
    expect((crossingX?.p10 ?? 0) - assessed.xNow).toBeCloseTo(
      (crossing?.meter.p10 ?? 0) - assessed.telling.meterNow,
      6,
    );
  });
});

describe("the table of tests", () => {
  test("newest first, what was entered beside what it was made into", () => {
    const held = leakDown("2026-06-20", 101_000, [], {
      readings: [reading({ cylinder: 3, value: 75, valueUnit: "psi", supply: 80, heardAt: ["exhaust"], line: 41 })],
      testedBy: "A. Fitter",
      instrument: "T-2",
    });
    const lines = testLines(assessedUnit({ units, tests: [...flat, held] }));
    expect(lines.map((l) => l.date)).toEqual([...flat.map((t) => t.date), "2026-06-20"].toReversed());
    expect(lines[0]).toMatchObject({ testedBy: "A. Fitter", instrument: "T-2", meter: 101_000, line: 41, attempt: 1 });
    expect(lines[0]?.entered).toHaveLength(1);
    expect(lines[0]?.entered[0]).toMatchObject({
      cylinder: 3,
      value: 75,
      valueUnit: "psi",
      supply: 80,
      heardAt: ["exhaust"],
    });
    // 5 of 80 psi lost; referred to the usual tester's supply it stays near that share.
    expect(Math.abs((lines[0]?.entered[0]?.referred ?? 0) - 6.25)).toBeLessThan(1);
  });
});

describe("the marks of repairs", () => {
  const marks = (facts: Facts) => repairMarks(assessedUnit({ units, ...facts }), (cause) => cause.replace("-", " "));

  test("say what was done, to which cylinders, what was found and remarked; ascending", () => {
    const repairs = [
      repairFact({ date: "2026-01-10", meter: 93_000, scope: "complete", cost: 120_000, labourHours: 40 }),
      repairFact({
        date: "2024-09-10",
        meter: 69_000,
        cylinders: [4],
        found: ["exhaust-valve"],
        remarks: "seat burnt",
      }),
      repairFact({ date: "2025-03-10", meter: 78_000, scope: "adjustment", cylinders: [1, 3] }),
    ];
    const found = marks({ tests: flat, repairs });
    expect(found.map(({ date, x, meter, words }) => [date, x, meter, words])).toEqual([
      ["2024-09-10", 69_000, 69_000, "top-end repair, cylinder 4; found: exhaust valve; seat burnt"],
      ["2025-03-10", 78_000, 78_000, "adjustment, cylinders 1 and 3"],
      ["2026-01-10", 93_000, 93_000, "complete overhaul, all cylinders"],
    ]);
    expect(found[2]).toMatchObject({ scope: "complete", cost: 120_000, labourHours: 40 });
  });

  test("an improvement that nobody explained is marked as assumed", () => {
    const tests = halfYearly([...worn(3, 24, 1), ...worn(3, 6, 0)]);
    const [mark, ...others] = marks({ tests });
    expect(others).toEqual([]);
    expect(mark).toMatchObject({
      scope: "assumed",
      cylinders: [1, 2, 3, 4],
      x: 82_000,
      meter: 82_000,
      date: "2025-06-01",
    });
    expect(mark?.words).toMatch(/no repair is on file/);
  });

  test("an engine that came in by a swap is marked once, on the day of the swap", () => {
    const repairs = [repairFact({ date: "2025-01-10", meter: 75_000, scope: "engine-swap", engineSerial: "E-7" })];
    expect(marks({ tests: flat, repairs })).toEqual([
      {
        unit: "V-101",
        date: "2025-01-10",
        x: 75_000,
        meter: 75_000,
        scope: "engine-swap",
        cylinders: [],
        words: "this engine fitted to V-101",
        cost: null,
        labourHours: null,
        downtimeDays: null,
      },
    ]);
  });

  test("an engine that was noticed by its serial alone has a date as well, that of its first test there", () => {
    const tests = [
      leakDown("2024-06-01", 50_000, [6, 6, 6, 6], { unit: "V-100", engineSerial: "E-7" }),
      leakDown("2026-03-01", 5000, [7, 7, 7, 7], { engineSerial: "E-7" }),
      leakDown("2026-06-01", 9000, [7, 7, 7, 7], { engineSerial: "E-7" }),
    ];
    const facts = { units: [unitFact({ unit: "V-100" }), unitFact()], tests };
    const [mark, ...others] = repairMarks(assessedUnit(facts), String);
    expect(others).toEqual([]);
    expect(mark).toMatchObject({ scope: "engine-swap", words: "this engine fitted to V-101", date: "2026-03-01" });
    expect(mark?.meter).toBeLessThanOrEqual(5000);

    const { state, ...assessed } = assessedUnit(facts);
    const { history } = state.conditioned;
    const undated = (kept: typeof history.tests) => {
      const fittings = history.fittings.map((f) => ({ ...f, fromDate: null }));
      const conditioned = { ...state.conditioned, history: { ...history, fittings, tests: kept } };
      return repairMarks({ ...assessed, state: { ...state, conditioned } }, String).map((m) => m.date);
    };
    expect(undated(history.tests)).toEqual(["2026-03-01"]);
    expect(undated([])).toEqual(["2026-06-30"]);
  });
});
