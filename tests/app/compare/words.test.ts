import { describe, expect, test } from "vitest";
import { rateAxis, ratesFinding } from "../../../app/_ui/compare/rate-words.ts";
import { compareFinding } from "../../../app/_ui/compare/standing-words.ts";
import { fewEnginesWords, testersFinding, verdictWords } from "../../../app/_ui/compare/tester-words.ts";
import type { TesterOffset, UnitStanding } from "../../../lib/schema/comparison.ts";
import { formatsOf } from "../../../lib/viewing/formats.ts";
import { plainPreferences } from "../../../lib/viewing/preferences.ts";

const f = formatsOf(plainPreferences);
const plain = (words: string) => words.replaceAll("\u00a0", " ");

const standing: UnitStanding = {
  unit: "V-1",
  depot: null,
  fastest: { cylinder: 3, level: 12, perThousand: 1, p10: 0.5, p90: 1.5 },
  sisters: 11,
  slower: 11,
  fast: true,
  beyondBand: false,
};
const model = {
  engineModel: "m",
  measure: "leak-down",
  meterUnit: "km",
  modelName: "Four",
  units: 12,
  standingOut: [],
} as const;

describe("the finding of a comparison", () => {
  test.each([
    [[], { ...model, standingOut: ["V-1"] }, "Four: one of 12 units stands out from its sisters: V-1."],
    [[], model, "Four: none of 12 units stands out from its sisters."],
    [[], { ...model, units: 1 }, "Four: only one unit was tested, so it has no sister to stand beside."],
    [[standing], model, "V-1 declines faster than all 11 of its sisters."],
    [
      [{ ...standing, fast: false, slower: 4 }],
      model,
      "V-1 declines faster than 4 of its 11 sisters: it does not stand out.",
    ],
  ])("%#", (chosen, of, words) => expect(compareFinding(f, of, chosen)).toBe(words));
});

const tester: TesterOffset = {
  instrument: "tester G-3",
  orificeMm: 1,
  tests: 31,
  engines: 14,
  shared: 12,
  firstUsed: "2025-01-01",
  lastUsed: "2026-01-01",
  depots: [],
  units: [],
  against: ["tester G-1", "tester G-2"],
  offset: { mean: -4, standardError: 0.9, low: -6, high: -2, probability: 0.001 },
  soFar: null,
  verdict: "low",
};

describe("the words of a verdict", () => {
  test.each([
    [tester, "reads 4.0 points low (2.0 to 6.0), 31 tests, 12 engines in common"],
    [
      { ...tester, against: ["tester G-1"] },
      "reads 4.0 points low (2.0 to 6.0) beside tester G-1; which of the two is off, the tests do not say, 31 tests, 12 engines in common",
    ],
    [{ ...tester, verdict: "none" as const }, "no difference that shows, 31 tests, 12 engines in common"],
    [
      {
        ...tester,
        verdict: "too-few" as const,
        offset: null,
        shared: 2,
        soFar: { instrument: "tester G-1", engines: 2, mean: -15.4 },
      },
      "too few to tell: 2 engines in common with others; so far 15.4 points below tester G-1",
    ],
    [
      { ...tester, verdict: "too-few" as const, offset: null, shared: 0 },
      "no engine was read with it and another, so nothing to compare",
    ],
  ])("%#", (of, words) => expect(plain(verdictWords(f, "leak-down", of))).toBe(words));

  test("an instrument used on few engines that nothing is told of says so, and what its engines hint at", () => {
    const few = { ...tester, offset: null, shared: 0, engines: 4, verdict: "too-few" as const };
    const hint = { instrument: "tester G-3", from: "2025-03-01", mean: -4.2, engines: 4, probability: 0.71 };
    const words = (of: TesterOffset, by?: typeof hint) => plain(fewEnginesWords(f, "leak-down", of, by) ?? "nothing");
    expect(words(few)).toBe(
      "used on 4 engines only: if it reads off, that could not be told apart from wear; compare it with another on the same engine",
    );
    const hinted =
      "a hint only: all 4 engines that tell read 4.2 points lower since 1 Mar 2025 (71 % likely more than chance), too few to tell the instrument from their wear; nothing is corrected, so compare it with another on the same engine";
    expect(words(few, hint)).toBe(hinted);
    expect(words(tester)).toBe("nothing");
    expect(words({ ...few, engines: 7 })).toBe("nothing");
    const compared = { measure: "leak-down" as const, testers: [few], unnamed: 0, matters: 1.5, hints: [hint] };
    expect(plain(testersFinding(f, [compared]))).toBe(`tester G-3: ${hinted}.`);
  });

  test("the page opens with what reads high or low, else with how many could be compared", () => {
    const found = (testers: readonly TesterOffset[]) =>
      plain(testersFinding(f, [{ measure: "leak-down", testers, unnamed: 0, matters: 1.5 }]));
    expect(found([tester])).toBe(
      "tester G-3, 1.0 mm reads 4.0 points low (2.0 to 6.0), 31 tests, 12 engines in common.",
    );
    expect(found([{ ...tester, verdict: "none" }])).toBe(
      "Of one instrument that can be compared (tester G-3), none reads high or low.",
    );
    expect(found([])).toContain("Too few engines");
  });
});

describe("rates", () => {
  test("an axis holds nought and all rates, and is round where it is shown", () => {
    const axis = rateAxis(f, "compression-dry", "km", [-1.23, -0.4]);
    expect(axis.ticks.map((t) => t.shown)).toContain(0);
    for (const rate of [-1.23, 0]) {
      expect(axis.left(rate)).toBeGreaterThanOrEqual(0);
      expect(axis.left(rate)).toBeLessThanOrEqual(100);
    }
    for (const { rate, shown } of axis.ticks) expect(rate * 10).toBeCloseTo(shown, 9);
  });

  test("the finding tells of the largest model, as losses", () => {
    const quantiles = { p10: -3, p25: -2, p50: -1, p75: -0.5, p90: -0.1 };
    const rates = { weakest: [], middle: [{ engines: 12, quantiles, rates: [] }] };
    const made = { ...model, measure: "compression-dry", rates } as const;
    const words = ratesFinding(f, [made], { measure: "compression-dry", of: "middle" });
    expect(plain(words)).toBe(
      "Four: half of 12 engines lose more than 10 kPa per 10,000 km, the fastest tenth more than 30.",
    );
    expect(ratesFinding(f, [], { measure: "leak-down", of: "middle" })).toContain("five engines");
  });
});
