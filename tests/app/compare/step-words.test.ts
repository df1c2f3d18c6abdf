import { describe, expect, it } from "vitest";
import { stepQuestion, stepWords } from "@/app/_ui/compare/step-words.ts";
import type { SharedStep } from "@/lib/schema/comparison.ts";
import { formatsOf } from "@/lib/viewing/formats.ts";
import { plainPreferences } from "@/lib/viewing/preferences.ts";

const f = formatsOf(plainPreferences);

const step: SharedStep = {
  measure: "leak-down",
  of: "depot",
  name: "Midfell",
  date: "2025-09-03",
  mean: -11,
  low: -12.2,
  high: -9.8,
  from: 18,
  to: 7,
  engines: 5,
  units: ["V-1", "V-2", "V-3", "V-4", "V-5"],
  boreNotNoted: false,
  newInstruments: [],
};
const words = (changes: Partial<SharedStep>) => stepWords(f, { ...step, ...changes }).replaceAll("\u00a0", " ");

describe("a step that many units took together", () => {
  it("tells where, how far with its range from the smaller to the larger, and since when", () => {
    expect(words({})).toBe(
      "At Midfell the leakage of 5 engines has read 11.0 points lower (9.8 to 12.2) since 3 Sep 2025, from about 18 % to 7 %, with no repair on file.",
    );
    expect(words({ of: "instrument", name: "G-2", measure: "compression-dry", mean: 6, low: 4, high: 8 })).toMatch(
      /^With G-2 the compression of 5 engines has read 6\.0 % higher \(4\.0 to 8\.0\) since/,
    );
  });

  it("asks for the bore first, then for a new instrument, then for what is left", () => {
    const asked = (changes: Partial<SharedStep>) => stepQuestion({ ...step, ...changes });
    expect(asked({ boreNotNoted: true, newInstruments: ["LT-9"] })).toMatch(/^No bore has been noted since/);
    expect(asked({ newInstruments: ["LT-9"] })).toMatch(/^LT-9 was new then/);
    expect(asked({ newInstruments: ["LT-9", "LT-8"] })).toMatch(/^LT-9 and LT-8 were new then/);
    expect(asked({ of: "instrument", name: "G-2" })).toMatch(/^Check G-2:/);
    expect(asked({})).toMatch(/^Another tester, another hand/);
  });
});
