import { describe, expect, test } from "vitest";
import type { FleetFacts, TestFact } from "@/lib/schema/facts.ts";
import { fewestOutcomes, type LevelCase, type LimitCase, trackRecordSchema } from "@/lib/schema/track-record.ts";
import { backTest, backTestOf } from "@/lib/track/back-test.ts";
import { trackRecordOf } from "@/lib/track/record.ts";
import { asOf as demoDay, readDemo } from "../demo-fleet.ts";
import { asOf, backTestFacts, factsOf, madeUpTests, repairOf, settings, testOf } from "./made-up-fleet.ts";

const { facts: demo } = await readDemo();
const ofDemo = (facts: FleetFacts) => backTestOf(facts, { asOf: demoDay, settings }, 40);
const before = ofDemo(demo);

const levelKey = (c: LevelCase) => [c.unit, c.measure, c.cylinder, c.made, c.came].join(" ");
const limitKey = (c: LimitCase) => [c.unit, c.measure, c.cylinder, c.made].join(" ");

describe("what came later is not known in the past", () => {
  const day = "2025-06-30";
  /** The demo as it might have gone on from the day: other readings, no repairs, stopped units, tests set aside. */
  const otherwise: FleetFacts = {
    ...demo,
    units: demo.units.map((unit) => ({ ...unit, status: "stopped", disposalDate: "2026-01-01", engineSerial: null })),
    tests: demo.tests.map((t) =>
      t.date <= day
        ? t
        : {
            ...t,
            readings: t.readings.map((r) => ({
              ...r,
              value: r.valueUnit === "%" ? Math.min(99, r.value + 9) : r.value * 0.9,
            })),
          },
    ),
    repairs: demo.repairs.filter(({ date }) => date <= day),
    checks: demo.checks.filter(({ date }) => date <= day),
    judgements: demo.tests.slice(0, 300).map((t) => ({
      unit: t.unit,
      date: t.date,
      test: t.test,
      attempt: t.attempt,
      instrument: t.instrument,
      cylinder: null,
      verdict: "set-aside",
      reason: "thought so afterwards",
      judgedBy: "A. Fitter",
      file: "",
      line: 1,
    })),
  };
  const after = ofDemo(otherwise);

  test("forecasts of readings are the same", () => {
    const known = new Map(after.levels.map((c) => [levelKey(c), c]));
    const made = before.levels.filter((c) => c.made <= day && known.has(levelKey(c)));
    expect(made.length).toBeGreaterThan(200);
    for (const one of made) expect(known.get(levelKey(one))?.told, levelKey(one)).toEqual(one.told);
    expect(made.some((one) => known.get(levelKey(one))?.reading !== one.reading)).toBe(true);
  });

  test("forecasts of limits are the same, but for the rule whose interval is chosen with hindsight", () => {
    const known = new Map(after.limits.map((c) => [limitKey(c), c]));
    const made = before.limits.filter((c) => c.made <= day && known.has(limitKey(c)));
    expect(made.length).toBeGreaterThan(200);
    for (const one of made) {
      const other = known.get(limitKey(one)) as LimitCase;
      expect(other.limit, limitKey(one)).toBe(one.limit);
      for (const of of ["borecast", "straight-line", "last-time"] as const) {
        expect(other.told[of], limitKey(one)).toEqual(one.told[of]);
        expect(other.within[of], limitKey(one)).toEqual(one.within[of]);
      }
    }
  });

  test("but what is told after the day does change", () => {
    const known = new Map(after.levels.map((c) => [levelKey(c), c]));
    const made = before.levels.filter((c) => c.made > day && known.has(levelKey(c)));
    expect(
      made.filter((one) => known.get(levelKey(one))?.told.borecast?.[3] !== one.told.borecast?.[3]).length,
    ).toBeGreaterThan(50);
  });
});

describe("the record", () => {
  test("is of the documented form, and the same for facts in another order", () => {
    const record = trackRecordOf(before, null);
    expect(trackRecordSchema.parse(JSON.parse(JSON.stringify(record)))).toEqual(record);
    const shuffled = { ...demo, tests: demo.tests.toReversed(), repairs: demo.repairs.toReversed() };
    expect(trackRecordOf(ofDemo(shuffled), null)).toEqual(record);
  });

  test("never tells a share of fewer than 20 outcomes", () => {
    const record = trackRecordOf(before, null);
    const scores = record.levels.flatMap((of) =>
      [...of.byModel, ...of.byTester, ...of.byAhead].flatMap((group) => group.scores.borecast ?? []),
    );
    expect(scores.some((s) => s.outcomes < fewestOutcomes)).toBe(true);
    for (const score of scores) {
      const told = score.outcomes >= fewestOutcomes;
      expect(score.coverage?.["80"].share !== null).toBe(told);
      expect(score.medianError !== null).toBe(told);
    }
    for (const { outcomes, raw, factor } of record.calibration) {
      expect(raw !== null).toBe(outcomes >= fewestOutcomes);
      if (raw === null) expect(factor).toBe(1);
    }
  });

  test("of a fleet without a past tells nothing", () => {
    const two = madeUpTests({ engines: 2, seed: 5, tests: 2 });
    const record = trackRecordOf(backTestFacts(factsOf(two)), null);
    expect(record).toMatchObject({ forecasts: 0, levels: [], misses: [], calibration: [] });
    expect(record.limits.overall.borecast).toMatchObject({ forecasts: 0, medianError: null, pinball: null });
    expect(trackRecordOf(backTestFacts(factsOf([])), null).forecasts).toBe(0);
  });
});

describe("straight wear up to the limit", () => {
  const record = trackRecordOf(
    backTestFacts(factsOf(madeUpTests({ engines: 60, seed: 11, rate: 2, start: 22 }))),
    null,
  );
  const { borecast, "straight-line": line, "last-time": last, "fixed-interval": rule } = record.limits.overall;

  test("ranges of the distance hold about as often as told, and the likely distance beats the others", () => {
    expect(borecast.outcomes).toBeGreaterThan(40);
    expect(borecast.ranges?.["80"].share).toBeGreaterThan(0.65);
    expect(borecast.ranges?.["80"].share).toBeLessThan(0.95);
    expect(borecast.pinball).toBeLessThan(line.pinball ?? 0);
    expect(borecast.pinball).toBeLessThan(last.pinball ?? 0);
    expect(rule.ranges).toBeNull();
  });

  test("within a year: better than the share that came, and than the others", () => {
    const [, year] = record.limits.within;
    expect(year?.met).toBeGreaterThan(20);
    expect(year?.brier.borecast).toBeLessThan(year?.brierOfShare ?? 0);
    expect(year?.brier.borecast).toBeLessThan(year?.brier["last-time"] ?? 0);
  });

  test("most limits that were met were told before", () => {
    const { met, warned, medianDays, days } = record.warnings;
    expect(met).toBe(borecast.outcomes);
    expect(warned / met).toBeGreaterThan(0.8);
    expect(medianDays).toBeGreaterThan(90);
    expect(days).toHaveLength(warned);
  });
});

describe("ranges by their own past", () => {
  const calibrationOfFleet = (louder: number) => {
    const tests = madeUpTests({ engines: 40, seed: 23, louderFrom: 4, louder });
    return trackRecordOf(backTestFacts(factsOf(tests)), null).calibration[0];
  };

  test("as wide as they should be: a factor near 1", () => {
    const calm = calibrationOfFleet(1);
    expect(calm?.factor).toBeGreaterThan(0.85);
    expect(calm?.factor).toBeLessThan(1.2);
  });

  test("too narrow, because tests became worse: widened, and then they hold on engines that it was not learnt on", () => {
    const loud = calibrationOfFleet(3);
    expect(loud?.before).toBeLessThan(0.72);
    expect(loud?.factor).toBeGreaterThan(1.15);
    expect(loud?.after).toBeGreaterThan((loud?.before ?? 1) + 0.04);
  });
});

describe("an engine that is opened on the day of its test", () => {
  const days = ["2024-01-10", "2024-06-10", "2025-01-10", "2025-06-10", "2026-01-10"];
  const leakage = (i: number) => [15 + 4 * i, 15 + 4 * i, 16 + 4 * i, 14 + 4 * i];
  const tests = days.map((date, i) => testOf("U-2", date, 500 * (i + 1), leakage(i)));
  const rings = [1, 2, 3, 4].map((cylinder) => ({ cylinder, causes: ["rings-or-bore" as const] }));
  const openedOn = (date: string, meter: number, more: readonly TestFact[] = []) => {
    const repairs = [repairOf("U-2", date, meter, { findings: rings })];
    const test = backTestOf(factsOf([...tests, ...more], { repairs }), { asOf, settings }, 1);
    return { warnings: trackRecordOf(test, null).warnings, bands: test.engines.flatMap(({ bands }) => bands) };
  };
  const bandOf = (bands: readonly { cylinder: number; date: string; band: string | null }[], date: string) =>
    bands.find((b) => b.cylinder === 1 && b.date === date)?.band;

  test("is judged by what that test told, as if it had been opened the day after", () => {
    const { warnings, bands } = openedOn("2026-01-10", 2500);
    expect(warnings).toMatchObject({ opened: 4, openedFlagged: 4, faultUnflagged: 0 });
    expect(bandOf(bands, "2026-01-10")).toBe("past-limit");
    expect(warnings).toEqual(openedOn("2026-01-11", 2500).warnings);
    // The meter need not read the same.
    expect(openedOn("2026-01-10", 2501).warnings).toEqual(warnings);
  });
  test("a test of the day that checked the repair tells nothing of what was opened: what was told before does", () => {
    const checked = { ...testOf("U-2", "2026-01-10", 2500, [5, 5, 6, 5]), attempt: 2 };
    const later = testOf("U-2", "2026-05-10", 2900, [5.5, 5.5, 6.5, 5.5]);
    const { warnings, bands } = openedOn("2026-01-10", 2500, [checked, later]);
    expect(bandOf(bands, "2025-06-10")).toBe("plan");
    expect(bandOf(bands, "2026-01-10")).not.toBe("past-limit");
    expect(warnings).toMatchObject({ opened: 4, openedFlagged: 4 });
  });
});

test("hands over between the shapes of wear while pools are fitted, not only between engines", () => {
  const engines = 3;
  const steps = backTest(factsOf(madeUpTests({ engines, seed: 7, tests: 5 })), { asOf, settings }, engines);
  const told: number[] = [];
  let step = steps.next();
  for (; !step.done; step = steps.next()) told.push(step.value);
  const dates = step.value.poolDates.length;
  expect(dates).toBeGreaterThan(4);
  // Two measures, five shapes each, at each date; and it never goes back.
  expect(told.filter((share) => share < 0.4).length).toBeGreaterThanOrEqual(10 * dates);
  expect(told).toEqual(told.toSorted((a, b) => a - b));
});
