import fc from "fast-check";
import { expect, test } from "vitest";
import {
  continuousMeter,
  cumulativeOfReading,
  cumulativeOnDate,
  isBetweenReadings,
  type MeterObservation,
} from "@/lib/sealing/meters.ts";

const at = (date: string, meter: number, reset = false): MeterObservation => ({ date, meter, reset });

test("without a reset the axis is the meter", () => {
  const meter = continuousMeter([at("2025-03-01", 300), at("2025-01-01", 100), at("2025-02-01", 200)]);
  expect(meter.cumulative).toEqual([300, 100, 200]);
  expect(meter.points.map((p) => p.date)).toEqual(["2025-01-01", "2025-02-01", "2025-03-01"]);
  expect(meter.offset).toBe(0);
  expect(meter.warnings).toEqual([]);
});

test("a day of any number of readings, on an old meter and a new one", () => {
  const old = Array.from({ length: 150_000 }, (_, i) => at("2025-01-01", 1000 + i));
  const fresh = Array.from({ length: 150_000 }, () => at("2025-03-01", 5));
  const meter = continuousMeter([...old, at("2025-02-01", 0, true), ...fresh]);
  expect(meter.points.map((p) => p.cumulative)).toEqual([150_999, 150_999, 151_004]);
});

test("nothing known", () => {
  const meter = continuousMeter([]);
  expect(meter.points).toEqual([]);
  expect(cumulativeOnDate(meter, "2025-01-01")).toBe(0);
  expect(cumulativeOfReading(meter, { date: "2025-01-01", meter: 70 })).toBe(70);
  expect(isBetweenReadings(meter, "2025-01-01")).toBe(false);
});

test("a new meter: wear goes on from the old one's last reading", () => {
  const meter = continuousMeter([
    at("2025-01-01", 200_000),
    at("2025-06-01", 212_400),
    at("2025-06-03", 35, true),
    at("2025-12-01", 20_035),
  ]);
  expect(meter.points.map((p) => p.cumulative)).toEqual([200_000, 212_400, 212_435, 232_435]);
  expect(meter.offset).toBe(212_400);
  expect(meter.warnings).toEqual([]);
  expect(cumulativeOfReading(meter, { date: "2025-03-01", meter: 205_000 })).toBe(205_000);
  expect(cumulativeOfReading(meter, { date: "2025-09-01", meter: 10_000 })).toBe(222_400);
});

test("on the day of the reset readings of both meters are told apart; the last stands for the day", () => {
  const observations = [
    at("2025-06-01", 212_400),
    at("2025-06-03", 40),
    at("2025-06-03", 35, true),
    at("2025-06-03", 212_450),
  ];
  const meter = continuousMeter(observations);
  expect(meter.cumulative).toEqual([212_400, 212_490, 212_485, 212_450]);
  expect(meter.points.at(-1)).toEqual({ date: "2025-06-03", meter: 40, cumulative: 212_490 });
  expect(cumulativeOfReading(meter, { date: "2025-06-03", meter: 212_440 })).toBe(212_440);
  expect(cumulativeOfReading(meter, { date: "2025-06-03", meter: 38 })).toBe(212_488);
});

test("the same reset told in two files is one new meter", () => {
  const meter = continuousMeter([at("2025-01-01", 900), at("2025-02-01", 5, true), at("2025-02-01", 5, true)]);
  expect(meter.points.at(-1)?.cumulative).toBe(905);
});

test("a new meter that is not lower is believed, with a warning", () => {
  const meter = continuousMeter([at("2025-01-01", 300), at("2025-12-01", 400, true)]);
  expect(meter.points.at(-1)?.cumulative).toBe(700);
  expect(meter.warnings).toHaveLength(1);
});

test("one mistyped high reading does not throw away what follows", () => {
  const meter = continuousMeter([
    at("2025-01-01", 100),
    at("2025-02-01", 20_000),
    at("2025-03-01", 300),
    at("2025-04-01", 400),
  ]);
  expect(meter.cumulative).toEqual([100, null, 300, 400]);
  expect(meter.warnings).toEqual([expect.stringContaining("20,000 of 1 Feb 2025")]);
});

test("a fall without a reset: the earlier reading stands, and the cure is told", () => {
  const meter = continuousMeter([at("2025-01-01", 212_400), at("2025-02-01", 35)]);
  expect(meter.cumulative).toEqual([212_400, null]);
  expect(meter.warnings[0]).toContain("meter_reset = yes");
});

test("between readings use runs straight; outside it stands", () => {
  const meter = continuousMeter([at("2025-01-01", 100), at("2025-01-11", 200)]);
  expect(cumulativeOnDate(meter, "2025-01-04")).toBeCloseTo(130, 10);
  expect(cumulativeOnDate(meter, "2024-01-01")).toBe(100);
  expect(cumulativeOnDate(meter, "2026-01-01")).toBe(200);
  expect(isBetweenReadings(meter, "2025-01-04")).toBe(true);
  expect(isBetweenReadings(meter, "2025-01-11")).toBe(false);
});

const date = fc
  .integer({ min: 0, max: 900 })
  .map((day) => new Date(Date.UTC(2023, 0, 1 + day)).toISOString().slice(0, 10));
const observation = fc.record({ date, meter: fc.integer({ min: 0, max: 5000 }), reset: fc.boolean() });

test("whatever is told, the axis never falls, has one point a date, and does not hang on the order", () => {
  const observations = fc.uniqueArray(observation, { maxLength: 25, selector: (o) => `${o.date} ${o.meter}` });
  fc.assert(
    fc.property(
      observations.chain((all) => fc.tuple(fc.constant(all), fc.shuffledSubarray(all, { minLength: all.length }))),
      ([all, shuffled]) => {
        const meter = continuousMeter(all);
        for (let i = 1; i < meter.points.length; i++) {
          expect(meter.points[i]?.cumulative).toBeGreaterThanOrEqual(meter.points[i - 1]?.cumulative ?? 0);
          expect((meter.points[i]?.date ?? "") > (meter.points[i - 1]?.date ?? "")).toBe(true);
        }
        const again = continuousMeter(shuffled);
        expect(again.points).toEqual(meter.points);
        expect(again.warnings).toEqual(meter.warnings);
      },
    ),
  );
});

test("keeps as many readings as any choice could (against trying every choice)", () => {
  const meters = fc.array(fc.integer({ min: 0, max: 6 }), { minLength: 1, maxLength: 9 });
  fc.assert(
    fc.property(meters, (values) => {
      const observations = values.map((value, i) => at(`2025-01-${String(i + 10)}`, value));
      const kept = continuousMeter(observations).cumulative.filter((c) => c !== null).length;
      let best = 0;
      for (let choice = 0; choice < 2 ** values.length; choice++) {
        const chosen = values.filter((_, i) => (choice >> i) & 1);
        if (chosen.every((v, i) => i === 0 || v >= (chosen[i - 1] ?? 0))) best = Math.max(best, chosen.length);
      }
      expect(kept).toBe(best);
    }),
  );
});
