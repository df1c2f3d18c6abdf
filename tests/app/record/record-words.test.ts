import { describe, expect, it } from "vitest";
import {
  distanceError,
  fewLimitsWords,
  heldFigure,
  issuedWords,
  madeFromWords,
  rangeFigure,
  widthInForceWords,
} from "@/app/_ui/record/record-words.ts";
import { widthWords } from "@/lib/assessment/width-words.ts";
import type { IssuedRecord, LimitScore, TrackRecord } from "@/lib/schema/track-record.ts";
import { heldWords } from "@/lib/track/words.ts";
import { formatsOf } from "@/lib/viewing/formats.ts";
import { plainPreferences } from "@/lib/viewing/preferences.ts";

const f = formatsOf(plainPreferences);
const plain = (text: string) => text.replaceAll("\u00a0", " ");

describe("the words of the track record", () => {
  it("tell a share, or a count where that is too few, on the page and in the terminal alike", () => {
    const few = { held: 17, of: 19, share: null, low: null, high: null };
    const enough = { held: 830, of: 1000, share: 0.83, low: 0.8, high: 0.86 };
    expect([few, enough].map((held) => plain(heldFigure(f, held)))).toEqual(["17 of 19", "83 %"]);
    expect([few, enough].map(heldWords)).toEqual(["17 of 19", "83 %"]);
    // Of ranges of distances the open ones are not decided yet.
    expect(rangeFigure(f, { held: 3, missed: 1, share: null })).toBe("3 of 4");
    expect(plain(rangeFigure(f, { held: 3, missed: 1, share: 0.7 }))).toBe("70 %");
  });

  it("tell one as one", () => {
    expect(fewLimitsWords(f, 0)).toMatch(/^After forecasts .+ no limit was met and borne out/);
    expect(fewLimitsWords(f, 1)).toMatch(/ 1 limit was met and/);
    expect(fewLimitsWords(f, 7)).toMatch(/ 7 limits were met and/);
    const issued = { from: "2026-06-30", to: "2026-06-30" } as IssuedRecord;
    const words = (of: Partial<IssuedRecord>) => plain(issuedWords(f, { ...issued, ...of }));
    expect(words({ assessments: 1 })).toBe("1 assessment was issued, for 30 Jun 2026, and is kept as it was.");
    expect(words({ assessments: 40, to: "2026-07-02" })).toBe(
      "40 assessments were issued, for 30 Jun 2026 to 2 Jul 2026, and are kept as they were.",
    );
    expect(words({ assessments: 0, from: null, to: null })).toBe("Nothing was issued yet.");
    const made = { asOf: "2026-06-30" } as TrackRecord;
    expect(plain(madeFromWords(f, { ...made, forecasts: 1, units: { judged: 1, known: 1 } }))).toMatch(
      /^1 forecast of 1 unit, .* up to 30 Jun 2026\.$/,
    );
    expect(madeFromWords(f, { ...made, forecasts: 1250, units: { judged: 100, known: 400 } })).toMatch(
      /^1,250 forecasts of 100 of 400 units, /,
    );
  });

  it("tell an error of the distance, that none was foreseen, or that there are too few", () => {
    const of = (medianError: number | null, outcomes: number) =>
      ({ forecasts: 100, met: 30, outcomes, ranges: null, medianError, pinball: null }) satisfies LimitScore;
    expect(plain(distanceError(f, of(0.31, 30), "borecast"))).toBe("31 %");
    expect(distanceError(f, of(null, 30), "last-time")).toBe("not foreseen");
    expect(distanceError(f, of(null, 3), "last-time")).toBe("–");
  });

  it("tell a factor in force as a unit’s page does", () => {
    for (const factor of [0.8, 1.25]) {
      expect(widthWords({ "leak-down": factor })).toContain(plain(widthInForceWords(f, factor)));
    }
    expect(widthInForceWords(f, 1)).toBe("as they come");
  });
});
