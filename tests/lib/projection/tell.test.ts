import { describe, expect, test } from "vitest";
import { type Telling, tellCrossing, toldProbability } from "@/lib/projection/tell.ts";

const telling: Telling = {
  asOf: "2026-06-30",
  meterNow: 50_000.4,
  use: { perDay: 100, logSd: 0, intervals: 3 },
  horizonDays: 365,
};
/** Crossed within the given use ahead with these chances; straight between. */
const tell = (...points: (readonly [ahead: number, probability: number])[]) =>
  tellCrossing(
    { ahead: Float64Array.from(points, ([x]) => x), probability: Float64Array.from(points, ([, p]) => p) },
    telling,
  );

describe("a crossing as told", () => {
  test("whole days and whole meters ahead", () =>
    expect(tell([0, 0], [10_050, 1])).toMatchObject({
      status: "projected",
      meter: { p10: 51_005, p50: 55_025, p90: 59_045 },
      date: { p10: "2026-07-11", p50: "2026-08-20", p90: "2026-09-29" },
      probabilityWithinYear: 1,
    }));

  test("due now is the meter as it reads, not what it rounds down to", () =>
    expect(tell([0, 0.6], [10_000, 1])).toMatchObject({
      meter: { p10: 50_000.4, p50: 50_000.4 },
      date: { p10: "2026-06-30", p50: "2026-06-30" },
    }));

  test("a quantile beyond the horizon is told neither by meter nor by date", () => {
    expect(tell([0, 0], [36_500, 0.4], [80_000, 1])).toMatchObject({
      status: "projected",
      meter: { p50: null, p90: null },
      date: { p50: null, p90: null },
    });
    expect(tell([0, 0], [36_500, 0.09], [80_000, 1])).toMatchObject({ status: "not-foreseen", date: { p10: null } });
  });
});

test("probabilities are told with four decimals, between 0 and 1", () =>
  expect([-1e-9, 0.123_456, 1 + 1e-9].map(toldProbability)).toEqual([0, 0.1235, 1]));
