import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { AssessedUnit } from "@/lib/assess.ts";
import type { EngineState } from "@/lib/assessment/engine.ts";
import { assessCylinder, repairWindows } from "@/lib/assessment/unit.ts";
import { aheadGrid } from "@/lib/projection/crossing.ts";
import { repairFact, unitFact } from "../sealing/facts.ts";
import { assessedUnit, dry, halfYearly, leakDown, petrol4, settings, wet, worn } from "./made-up-fleet.ts";

const units = [unitFact()];

interface Shares {
  readonly topEnd: number;
  readonly bottomEnd: number;
  readonly testSetUp: number;
}
/** The state with the given shares for each cylinder from 1; the last ones go for all that follow. */
const withShares = (state: EngineState, ...shares: Shares[]): EngineState => ({
  ...state,
  cylinders: state.cylinders.map((c, i) => ({
    ...c,
    diagnosis: { ...c.diagnosis, ...(shares[i] ?? (shares.at(-1) as Shares)) },
  })),
});
const windowsOf = ({ state, telling }: AssessedUnit, ...shares: Shares[]) =>
  repairWindows(withShares(state, ...shares), telling, aheadGrid(telling.use, telling.horizonDays), {
    togetherMonths: 18,
    disposal: null,
  });

const top: Shares = { topEnd: 1, bottomEnd: 0, testSetUp: 0 };
const bottom: Shares = { topEnd: 0, bottomEnd: 1, testSetUp: 0 };

describe("repair windows", () => {
  // 3 points each half year, now at 27 of 30 %.
  const wearing = assessedUnit({ units, tests: halfYearly(worn(6, 12, 2.6)) });

  test("go to the class that the fault is of, and to that alone", () => {
    const [ofTop, ofBottom] = [windowsOf(wearing, top), windowsOf(wearing, bottom)];
    expect(ofTop.topEnd.status).toBe("projected");
    expect(ofTop.bottomEnd).toMatchObject({ status: "not-foreseen", probabilityWithinYear: 0 });
    expect(ofBottom.bottomEnd).toEqual(ofTop.topEnd);
    expect(ofBottom.topEnd).toEqual(ofTop.bottomEnd);
  });

  test("a class in doubt comes later or not at all, and both chances are below that of a class that is sure", () => {
    const sure = windowsOf(wearing, top).topEnd;
    const { topEnd, bottomEnd } = windowsOf(wearing, { topEnd: 0.7, bottomEnd: 0.3, testSetUp: 0 });
    const chances = [sure, topEnd, bottomEnd].map((c) => c.probabilityWithinYear ?? 0);
    expect(chances).toEqual(chances.toSorted((a, b) => b - a));
    expect(new Set(chances).size).toBe(3);
    expect(topEnd.date.p10 !== null && sure.date.p10 !== null && topEnd.date.p10 > sure.date.p10).toBe(true);
  });

  test("what may be the test's set-up is shared out by the two classes' own shares", () => {
    const told = (...shares: [number, number, number]) => {
      const [topEnd, bottomEnd, testSetUp] = shares;
      const windows = windowsOf(wearing, { topEnd, bottomEnd, testSetUp });
      return [windows.topEnd, windows.bottomEnd];
    };
    expect(told(0.3, 0.1, 0.6)).toEqual(told(0.75, 0.25, 0));
    expect(told(0, 0, 1)).toEqual(told(0.5, 0.5, 0));
    expect(told(0.75, 0.25, 0)).not.toEqual(told(0.5, 0.5, 0));
  });

  test("the first cylinder of a class decides: more of them can only bring the window forward", () => {
    const chance = (...shares: Shares[]) => windowsOf(wearing, ...shares).topEnd.probabilityWithinYear ?? 0;
    const [one, two, four] = [chance(top, bottom), chance(top, top, bottom), chance(top)];
    expect(one).toBeGreaterThan(0);
    expect(two).toBeGreaterThan(one);
    expect(four).toBeGreaterThan(two);
    // Cylinders wear together: far less than four independent ones.
    expect(four).toBeLessThan(1 - (1 - one) ** 4);
  });

  test("a cylinder past its limit puts the class that it mostly is of at now, and leaves the other open", () => {
    const past = assessedUnit({
      units,
      tests: halfYearly([...worn(5, 12, 0), [12, 12, 12, 12]].map((v) => [...v.slice(1), 44])),
    });
    expect(past.state.cylinders.map((c) => c.measures[0]?.crossed)).toEqual([false, false, false, true]);
    const mostlyTop = { topEnd: 0.5, bottomEnd: 0.4, testSetUp: 0.1 };
    const { topEnd, bottomEnd } = windowsOf(past, bottom, bottom, bottom, mostlyTop);
    expect(topEnd).toEqual({
      status: "crossed",
      meter: { p10: past.telling.meterNow, p50: past.telling.meterNow, p90: past.telling.meterNow },
      date: { p10: "2026-06-30", p50: "2026-06-30", p90: "2026-06-30" },
      probabilityWithinYear: 1,
    });
    expect(bottomEnd.status).toBe("projected");
    expect(windowsOf(past, top, top, top, bottom)).toMatchObject({
      topEnd: { status: "not-foreseen" },
      bottomEnd: { status: "crossed" },
    });
  });

  test("with too few tests no range is told, but the chance of the model's pool", () => {
    const few = windowsOf(assessedUnit({ units, tests: halfYearly(worn(2, 22, 2)) }), top);
    const none = { p10: null, p50: null, p90: null };
    expect(few.topEnd).toMatchObject({ status: "too-few-tests", meter: none, date: none });
    expect(few.topEnd.probabilityWithinYear).toBeGreaterThan(0);
    expect(few.topEnd.probabilityWithinYear).toBeLessThan(1);
    expect([few.topEndDistribution, few.bottomEndDistribution]).toEqual([null, null]);
    expect(few.bottomEnd.probabilityWithinYear).toBe(0);
  });

  test("one cylinder with tests enough gives a range, though its siblings have too few", () => {
    const rows = worn(6, 12, 3).map((values, i) => (i < 2 ? values : [values[0] ?? null, null, null, null]));
    const partly = assessedUnit({ units, tests: halfYearly(rows) });
    expect(partly.state.cylinders.map((c) => c.measures[0]?.wear.enough)).toEqual([true, false, false, false]);
    expect(windowsOf(partly, top).topEnd.status).toBe("projected");
  });

  test("a cylinder judged on both measures crosses with the sooner of them", () => {
    const falling = halfYearly(worn(6, 12, 0)).flatMap((t, i) => [
      t,
      dry(t.date, t.meter, Array(4).fill(1150 - 40 * i)),
    ]);
    const both = assessedUnit({ units, tests: falling });
    const leakOnly = assessedUnit({ units, tests: falling.filter((t) => t.test === "leak-down") });
    expect(windowsOf(leakOnly, bottom).bottomEnd.status).toBe("not-foreseen");
    expect(windowsOf(both, bottom).bottomEnd.status).toBe("projected");
  });
});

describe("a cylinder", () => {
  const assessed = assessedUnit({ units, tests: halfYearly(worn(5, 6, 0)) });
  const tell = ({ state, telling }: AssessedUnit, number: number, shares?: Shares) => {
    const told = shares === undefined ? state : withShares(state, shares);
    const own = told.cylinders[number - 1];
    if (own === undefined) throw new Error(`no cylinder ${number}`);
    return assessCylinder(told, own, settings, telling);
  };

  test("its three shares add up to 1 after rounding, none below 0", () => {
    fc.assert(
      fc.property(fc.nat(1e9), fc.nat(1e9), fc.nat(1e9), (a, b, c) => {
        const sum = Math.max(1, a + b + c);
        const { topEnd, bottomEnd, testSetUp } = tell(assessed, 1, {
          topEnd: a / sum,
          bottomEnd: b / sum,
          testSetUp: c / sum,
        });
        expect(Math.round(1e4 * topEnd) + Math.round(1e4 * bottomEnd) + Math.round(1e4 * testSetUp)).toBe(1e4);
        expect(Math.min(topEnd, bottomEnd, testSetUp)).toBeGreaterThanOrEqual(0);
        for (const [told, given] of [
          [topEnd, a / sum],
          [bottomEnd, b / sum],
        ] as const) {
          expect(Math.abs(told - given)).toBeLessThan(1.01e-4);
        }
      }),
      // Both halves round up.
      { examples: [[33_335, 66_665, 0]] },
    );
  });

  test("a measure never taken is left out; never tested, nothing is said", () => {
    expect(tell(assessed, 1).measures.map((m) => m.measure)).toEqual(["leak-down"]);
    expect(tell(assessedUnit({ units }), 1)).toMatchObject({ band: null, measures: [], reason: "never tested" });
  });

  test("a wet test is kept as evidence: counted, its last reading told, never judged", () => {
    const tests = [
      ...halfYearly(worn(5, 6, 0)),
      wet("2025-06-01", 82_000, [1280, 1250, 1250, 1250]),
      wet("2026-06-01", 100_000, [1300.04, null, 1250, 1250]),
    ];
    const told = [1, 2].map((number) => tell(assessedUnit({ units, tests }), number).measures.at(-1));
    const unjudged = {
      measure: "compression-wet",
      unit: "kPa",
      level: null,
      limit: null,
      band: null,
      rate: null,
      crossing: null,
    };
    expect(told).toMatchObject([
      { ...unjudged, tests: 2, latest: 1300 },
      { ...unjudged, tests: 1, latest: 1250 },
    ]);
  });

  test("its band is its worst measure's, with the reasons of that one alone", () => {
    const tests = [
      ...halfYearly(worn(5, 12, 0)),
      ...halfYearly(worn(5, 6, 0)).map((t) => dry(t.date, t.meter, Array(4).fill(1240))),
    ];
    const told = tell(assessedUnit({ units, tests }), 1);
    expect(told.measures.map((m) => m.band)).toEqual(["watch", "sound"]);
    expect([told.band, told.reason]).toEqual(["watch", told.measures[0]?.reason]);
    expect(told.reason).toMatch(/watch from 10, limit 30$/);
  });

  test("a rate of compression falls where the engine wears, and its range lies about it", () => {
    const tests = halfYearly(worn(6, 12, 1)).flatMap((t, i) => [t, dry(t.date, t.meter, Array(4).fill(1203 - 21 * i))]);
    const [leak, compression] = tell(assessedUnit({ units, tests }), 1).measures;
    // Between what is usual and what these tests alone say: 1 point and 21 kPa each 9,000 km; of leakage a little more
    // now than over the tests, for as an area it grew evenly.
    expect(leak?.rate?.perThousand).toBeGreaterThan(1.5 / 45);
    expect(leak?.rate?.perThousand).toBeLessThan(1.3 / 9);
    expect(compression?.rate?.perThousand).toBeLessThan(-25 / 45);
    expect(compression?.rate?.perThousand).toBeGreaterThan(-21 / 9);
    for (const rate of [leak?.rate, compression?.rate]) {
      expect(rate?.p10).toBeLessThan(rate?.perThousand ?? -Infinity);
      expect(rate?.p90).toBeGreaterThan(rate?.perThousand ?? Infinity);
    }
  });

  test("after a bottom-end repair without a test there is no level, no band and no range", () => {
    const repairs = [repairFact({ date: "2026-06-20", meter: 101_000, scope: "complete" })];
    const told = tell(assessedUnit({ units, tests: halfYearly(worn(5, 25, 2)), repairs }), 1);
    expect(told).toMatchObject({ band: null, reason: "no usable test since the last repair" });
    expect(told.measures[0]).toMatchObject({ tests: 5, latest: 33, level: null, band: null, rate: null });
    expect(told.measures[0]?.crossing?.status).toBe("too-few-tests");
  });

  test("without a limit in the model a measure is told but not judged", () => {
    const { compression: _, ...leakDownOnly } = petrol4;
    const tests = [dry("2026-06-01", 100_000, [700, 700, 700, 700]), leakDown("2026-06-01", 100_000, [6, 6, 6, 6])];
    const told = tell(assessedUnit({ units, tests, models: [leakDownOnly] }), 1);
    expect(told.measures[1]).toMatchObject({ latest: 700, limit: null, band: null, crossing: null, reason: "" });
    expect(told.band).toBe("sound");
  });
});

test("a limit met only since the last test carries the level of that test; one met by then does not", () => {
  const tests = halfYearly(worn(6, 14, 3));
  const measureOn = (asOf: string, given = tests) =>
    assessedUnit({ units: [unitFact()], tests: given }, { asOf }).assessment.cylinders[0]?.measures[0];
  expect(measureOn("2026-06-30")).not.toHaveProperty("crossedAfter");
  const since = measureOn("2026-12-30");
  expect(since?.band).toBe("past-limit");
  expect(since?.crossedAfter).toEqual({ date: "2026-06-01", level: 29 });
  const read = measureOn("2026-12-30", halfYearly(worn(6, 20, 3)));
  expect(read?.band).toBe("past-limit");
  expect(read).not.toHaveProperty("crossedAfter");
  // Read past it, though the estimate lay short of it then.
  const high = halfYearly([14, 17, 19, 22, 24, 30.5].map((value) => Array(4).fill(value)));
  expect(measureOn("2026-06-01", high)?.band).toBe("plan");
  expect(measureOn("2026-12-30", high)?.band).toBe("past-limit");
  expect(measureOn("2026-12-30", high)).not.toHaveProperty("crossedAfter");
});
