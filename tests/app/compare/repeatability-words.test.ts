import { describe, expect, it } from "vitest";
import { repeatabilityLines, repeatWords } from "@/app/_ui/compare/repeatability-words.ts";
import { type FleetRepeatability, repeatLimit } from "@/lib/condition/fleet-repeatability.ts";
import { formatsOf } from "@/lib/viewing/formats.ts";
import { plainPreferences } from "@/lib/viewing/preferences.ts";

const f = formatsOf(plainPreferences);
const plain = (text: string) => text.replaceAll("\u00a0", " ");

const leakDown: FleetRepeatability = {
  measure: "leak-down",
  shared: { sd: 1.5, freedom: 12, occasions: 6, tests: 18 },
  between: { sd: 0.8, freedom: 3 },
  own: [{ sd: 0.9, level: 8.2, freedom: 140 }],
  instruments: [
    { instrument: "LT-1", factor: 1.12, freedom: 60, counts: true },
    { instrument: "LT-2", factor: 1.05, freedom: 4, counts: false },
  ],
};
const compression: FleetRepeatability = {
  measure: "compression-dry",
  shared: { sd: 1, freedom: 0, occasions: 0, tests: 0 },
  between: null,
  own: [],
  instruments: [],
};

describe("what readings repeat to", () => {
  it("is said in plain words first: what 19 in 20 differences of two tests stay below", () => {
    // 2.77 standard deviations of one test; ISO 5725-6 rounds to 2.8.
    expect(repeatLimit(1)).toBeCloseTo(2.772, 3);
    expect(plain(repeatWords(f, { "leak-down": leakDown, "compression-dry": compression }))).toBe(
      "Two tests of a sound engine, made soon after each other with one instrument, differ as a whole by less than 4.2 points of leakage, and 2.8 % of compression, 19 times in 20.",
    );
  });

  it("has a row for each part, with what it rests on and an interval where there is enough", () => {
    const rows = repeatabilityLines(f, leakDown).map((line) => Object.values(line).map(plain));
    expect(rows).toEqual([
      ["Of a whole test", "1.5 points", "1.1 to 2.5", "18 tests on 6 occasions, 12 degrees of freedom"],
      ["Between instruments", "0.8 points", "–", "3 degrees of freedom"],
      ["Of a reading itself, at about 8 %", "0.9 points", "0.8 to 1.0", "140 degrees of freedom"],
      ["LT-1, a reading itself", "1.12 × the fleet’s", "–", "60 degrees of freedom"],
      ["LT-2, a reading itself", "1.05 × the fleet’s", "–", "4 degrees of freedom, too few: counts as the fleet"],
    ]);
  });

  it("says so where no test was repeated", () => {
    expect(repeatabilityLines(f, compression).map(({ from, interval }) => [from, interval])).toEqual([
      ["starting value: no test has been repeated", "–"],
    ]);
  });
});
