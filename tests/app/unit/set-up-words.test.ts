import { expect, test } from "vitest";
import { decimalsOf, setUpWords } from "@/app/_ui/unit/set-up-words.ts";
import type { TestLine } from "@/lib/schema/report.ts";
import { formatsOf } from "@/lib/viewing/formats.ts";
import { plainPreferences } from "@/lib/viewing/preferences.ts";

const f = formatsOf(plainPreferences);
const setUp: TestLine["setUp"] = {
  orificeMm: null,
  warm: null,
  throttleOpen: null,
  allPlugsOut: null,
  tdcConfirmed: null,
  gaugeZeroed: null,
  crankingRpm: null,
  altitudeM: null,
  barometerKpa: null,
};
const entered = (order: number | null, cylinder: number): TestLine["entered"][number] => ({
  cylinder,
  value: 8,
  valueUnit: "%",
  supply: null,
  referred: 8,
  weight: 1,
  heardAt: [],
  order,
  remarks: null,
});
const words = (changes: Partial<TestLine["setUp"]>, readings: TestLine["entered"] = []) =>
  setUpWords({ setUp: { ...setUp, ...changes }, entered: readings }, f).map((w) => w.replaceAll("\u00a0", " "));

test("what was recorded is told, and what was not is left out", () => {
  expect(words({})).toEqual([]);
  expect(words({ warm: true, throttleOpen: true, allPlugsOut: true, tdcConfirmed: true, gaugeZeroed: true })).toEqual([
    "warm",
    "throttle open",
    "all plugs out",
    "top dead centre confirmed",
    "gauge zeroed",
  ]);
  expect(
    words({ warm: false, throttleOpen: false, allPlugsOut: false, tdcConfirmed: false, gaugeZeroed: false }),
  ).toEqual(["engine cold", "throttle shut", "plugs left in", "top dead centre not confirmed", "gauge not zeroed"]);
  expect(words({ orificeMm: 1.524, crankingRpm: 210, altitudeM: 1850, barometerKpa: 94.16 })).toEqual([
    "1.524 mm orifice",
    "cranked at 210/min",
    "at 1,850 m",
    "air at 94.2 kPa",
  ]);
});

test("the order of testing is told where it is known of every cylinder of several", () => {
  expect(words({}, [entered(2, 1), entered(3, 2), entered(1, 3)])).toEqual(["in the order 3, 1, 2"]);
  expect(words({}, [entered(2, 1), entered(null, 2)])).toEqual([]);
  expect(words({}, [entered(1, 1)])).toEqual([]);
});

test("figures keep the digits that they were written with, up to three", () => {
  expect([8, 8.5, 1.524, 0.12345].map(decimalsOf)).toEqual([0, 1, 3, 3]);
});
