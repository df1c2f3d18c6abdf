import { expect, test } from "vitest";
import { addDays } from "@/lib/calendar.ts";
import { reportUnit } from "@/lib/report.ts";
import { meterFact, unitFact } from "../sealing/facts.ts";
import { assessedUnit } from "./made-up-fleet.ts";

type Reading = readonly [date: string, meter: number, reset?: boolean];
const useOf = (readings: readonly Reading[], changes: Parameters<typeof unitFact>[0] = {}) =>
  reportUnit(
    assessedUnit({
      units: [unitFact(changes)],
      meterReadings: readings.map(([date, meter, meterReset = false]) => meterFact({ date, meter, meterReset })),
    }),
  ).use;

test("use is told between readings, without gaps, also where the unit stood", () => {
  const { spans, resets } = useOf([
    ["2025-06-30", 10_000],
    ["2025-12-30", 15_000],
    ["2026-03-30", 15_000],
    ["2026-06-30", 17_500],
  ]);
  expect(spans).toEqual([
    { from: "2025-06-30", to: "2025-12-30", used: 5_000 },
    { from: "2025-12-30", to: "2026-03-30", used: 0 },
    { from: "2026-03-30", to: "2026-06-30", used: 2_500 },
  ]);
  expect(resets).toEqual([]);
});

test("readings within a week of each other are one, but the last is kept", () => {
  const { spans } = useOf([
    ["2026-01-01", 100],
    ["2026-01-03", 300],
    ["2026-02-01", 1_000],
    ["2026-02-04", 1_050],
  ]);
  expect(spans.map(({ from, to, used }) => [from, to, used])).toEqual([
    ["2026-01-01", "2026-02-01", 900],
    ["2026-02-01", "2026-02-04", 50],
  ]);
});

test("daily readings of many years come to no more steps than a chart can show, and lose no use", () => {
  const readings = Array.from({ length: 1_500 }, (_, i) => [addDays("2022-01-01", i), 10 * i] as const);
  const { spans } = useOf(readings);
  expect(spans.length).toBeLessThanOrEqual(151);
  expect(spans.reduce((sum, span) => sum + span.used, 0)).toBe(10 * 1_499);
  expect(spans.slice(1).every((span, i) => span.from === spans[i]?.to)).toBe(true);
});

test("a new meter is marked, and the use goes on", () => {
  const { spans, resets } = useOf([
    ["2025-06-30", 200_000],
    ["2025-12-30", 212_400],
    ["2026-01-30", 35, true],
    ["2026-06-30", 9_035],
  ]);
  expect(resets).toEqual([{ date: "2026-01-30", before: 212_400, after: 35 }]);
  expect(spans.map(({ used }) => used)).toEqual([12_400, 35, 9_000]);
});

test("the forecast has a range about its middle; out of service there is none", () => {
  const readings: Reading[] = [
    ["2025-06-30", 0],
    ["2025-12-30", 18_300],
    ["2026-06-30", 36_500],
  ];
  const { ahead, aheadIsPooled } = useOf(readings);
  expect(aheadIsPooled).toBe(false);
  expect(ahead?.p50).toBeCloseTo(100, -1);
  expect((ahead?.p50 ?? 0) ** 2 / ((ahead?.p10 ?? 1) * (ahead?.p90 ?? 1))).toBeCloseTo(1, 2);
  expect((ahead?.p90 ?? 0) / (ahead?.p10 ?? 1)).toBeGreaterThan(1.2);
  expect(useOf(readings, { status: "stopped" }).ahead).toBeNull();
  expect(useOf([])).toMatchObject({ spans: [], resets: [], aheadIsPooled: true });
});

test("a change of duty, standing and a season are said beside it; of a unit that works alike, nothing", () => {
  const months = (perMonth: (month: number) => number, count: number): Reading[] => {
    let meter = 1000;
    const first = 12 * 2026 + 5 - count;
    return Array.from({ length: count + 1 }, (_, i) => {
      if (i > 0) meter += perMonth(i);
      const month = first + i;
      return [`${Math.floor(month / 12)}-${String((month % 12) + 1).padStart(2, "0")}-10`, meter] as const;
    });
  };
  expect(useOf(months(() => 3000, 18)).notes).toEqual([]);
  expect(useOf(months((i) => (i <= 12 ? 3000 : 6000), 18)).notes).toEqual([
    "Use changed about Dec 2025: the forecast takes only what came after it.",
  ]);
  expect(useOf(months((i) => (i > 6 && i <= 9 ? 0 : 3000), 18)).notes).toEqual([
    "Stood from Jun 2025 to Sep 2025: not counted as a slower rate.",
  ]);
  // Four years that go alike to the month show a season, of one unit alone too, and no change of duty; a year and a half does not.
  const halves = (i: number) => ((i + 5) % 12 < 6 ? 1000 : 4000);
  expect(useOf(months(halves, 48)).notes).toEqual([
    expect.stringMatching(/^By season, as such units show, of their mean/),
  ]);
  expect(useOf(months(halves, 18)).notes).toEqual([]);
  expect(
    useOf(
      months((i) => (i <= 12 ? 3000 : 6000), 18),
      { status: "stopped" },
    ).notes,
  ).toEqual([]);
});
