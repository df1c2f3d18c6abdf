import { describe, expect, it } from "vitest";
import { notUnderstoodWords } from "@/app/_ui/not-understood.tsx";
import { whyAddress } from "@/app/_ui/unit-address.ts";
import { readWhyAddress, understoodOfWhy } from "@/app/_ui/why/address.ts";
import { barOf } from "@/app/_ui/why/bars.ts";
import {
  datesWords,
  latestWords,
  levelRangeWords,
  movedNote,
  moveWords,
  nextTestWords,
  notAskedWords,
  openStepWords,
  powersWords,
  rangeNowWords,
  shareWords,
  spanWords,
  spreadWords,
  straightUse,
  strongest,
  strongestWords,
  unexplainedWords,
  whyFinding,
  widthWords,
} from "@/app/_ui/why/why-words.ts";
import type { Explained, NextTest, TestEffect } from "@/lib/explain/types.ts";
import type { Crossing } from "@/lib/schema/assessment.ts";
import { formatsOf } from "@/lib/viewing/formats.ts";
import { plainPreferences } from "@/lib/viewing/preferences.ts";

const f = formatsOf(plainPreferences);
const plain = (text: string) => text.replaceAll("\u00a0", " ");

const crossing = (
  p10: string | null,
  p50: string | null,
  p90: string | null,
  status: Crossing["status"] = "projected",
): Crossing => ({
  status,
  meter: { p10: null, p50: null, p90: null },
  date: { p10, p50, p90 },
  probabilityWithinYear: 0.4,
});
const now = crossing("2026-10-01", "2027-03-01", "2027-12-01");
const met = crossing("2026-06-30", "2026-06-30", "2026-06-30", "crossed");
const beyond = crossing(null, null, null, "not-foreseen");

const test = (date: string, laterDays: number | null, without: Crossing = now): TestEffect => ({
  date,
  unit: "V-1",
  meter: 1000,
  attempt: 1,
  instrument: null,
  value: 12,
  weight: 1,
  without,
  laterDays,
});

const e: Explained = {
  state: "explained",
  asOf: "2026-06-30",
  side: "topEnd",
  window: now,
  classProbability: 0.8,
  cylinder: 3,
  cylinders: 4,
  decides: true,
  sides: ["topEnd"],
  causes: { cylinder: 3, causes: [], findings: [] },
  measure: "leak-down",
  meterUnit: "h",
  meterNow: 5000,
  told: {
    measure: "leak-down",
    unit: "%",
    tests: 6,
    latest: 21,
    level: 20.4,
    limit: 30,
    band: "plan",
    rate: { perThousand: 4.8, p10: 2, p90: 8 },
    crossing: now,
    reason: "",
  },
  levelRange: { better: 19.2, worse: 21.4 },
  usableTests: 6,
  use: { perDay: 2, logSd: 0.2, intervals: 4 },
  sisters: { engines: 4, tests: 30, ratePerThousand: 2, rateSdPerThousand: 1 },
  errors: { test: 1.5, reading: 1.2 },
  ownShare: 0.6,
  course: {
    shapes: [{ kind: "even", share: 1 }],
    powers: [
      { power: 1, share: 0.6, amongSisters: 0.5 },
      { power: 1.5, share: 0.4, amongSisters: 0.5 },
    ],
    faults: [],
    rulings: [],
  },
  openStep: null,
  moved: "p50",
  tests: [test("2026-06-01", 92), test("2026-01-01", -8)],
  olderTests: 0,
  nextTest: null,
};

const next = (without: Crossing, after: Crossing): NextTest => ({
  date: "2026-07-30",
  without,
  asForeseen: { value: 21, crossing: after },
  better: { value: 19, crossing: after },
  worse: { value: 23, crossing: after },
});

describe("what the page is asked to explain", () => {
  it("is a class of repair, a cylinder or both, and reads back what it writes", () => {
    const parts = Object.fromEntries(
      new URL(whyAddress("V 1", { repair: "bottom-end", cylinder: 2 }), "http://h").searchParams,
    );
    expect(readWhyAddress(parts, 4)).toEqual({ side: "bottomEnd", cylinder: 2 });
    expect(whyAddress("V 1")).toBe("/units/V%201/why");
  });

  it("is said to have no date where something else is explained instead", () => {
    expect(notAskedWords(e, {})).toBeNull();
    expect(notAskedWords(e, { cylinder: 3, side: "topEnd" })).toBeNull();
    expect(notAskedWords(e, { cylinder: 1, side: "bottomEnd" })).toMatch(
      /^Of cylinder 1 and the bottom-end repair no date can be explained: .+ What decides the unit’s date is shown\.$/,
    );
  });

  it("is what decides where it is not understood", () => {
    const nothing = { side: undefined, cylinder: undefined };
    for (const parts of [{}, { repair: "both" }, { cylinder: "5" }, { cylinder: "0" }, { cylinder: ["1", "2"] }]) {
      expect(readWhyAddress(parts, 4)).toEqual(nothing);
    }
    expect(notUnderstoodWords({ cylinder: "5" }, understoodOfWhy(4), "all is shown")).toContain("“cylinder=5” is not");
    expect(notUnderstoodWords({ cylinder: "4" }, understoodOfWhy(4), "all is shown")).toBeNull();
  });
});

describe("why this date", () => {
  it("names the place that decides, and when it meets its limit", () => {
    expect(plain(whyFinding(e, f))).toBe(
      "Cylinder 3 decides: its leakage, 20.4 % now, likely meets its limit of 30.0 % in Mar 2027.",
    );
    const with_ = (of: Crossing) => plain(whyFinding({ ...e, told: { ...e.told, crossing: of } }, f));
    expect(with_(crossing("2026-06-30", "2026-06-30", "2026-06-30", "crossed"))).toContain("is at or past its limit");
    // The cylinder's own range, where it is another than the unit's window.
    expect(with_(crossing("2026-09-12", "2026-09-24", "2026-10-13"))).toMatch(
      / on 24 Sep 2026 \(early 12 Sep 2026, late 13 Oct 2026\)\.$/,
    );
    expect(with_(crossing("2030-01-01", null, null))).toContain("hardly meets its limit of 30.0 % before Jan 2030");
    expect(with_(crossing("2026-09-12", "2026-09-24", "2026-10-13"))).toContain("on 24 Sep 2026");
    expect(with_(beyond)).toContain("No date: cylinder 3 is the nearest to one");
    // A level in doubt is told with its range.
    const wide = { ...e, levelRange: { better: 5, worse: 39 } };
    expect(plain(whyFinding(wide, f))).toContain("its leakage, 20.4 % now (perhaps 5.0 % to 39.0 %), likely meets");
    expect(plain(levelRangeWords(wide, f))).toBe(", and with 8 chances in 10 between 5.0 % and 39.0 %");
    expect(levelRangeWords({ ...e, levelRange: null }, f)).toBe("");
    // Another cylinder that was asked for decides nothing.
    expect(plain(whyFinding({ ...e, decides: false }, f))).toMatch(
      /^Cylinder 3: its leakage, 20.4 % now, likely meets/,
    );
    expect(plain(whyFinding({ ...e, decides: false, told: { ...e.told, crossing: beyond } }, f))).toMatch(
      /^Cylinder 3: its leakage, 20.4 % now, is not foreseen to meet its limit of 30.0 % within the horizon\.$/,
    );
  });

  it("tells a step for the better that nobody explained, and what the date holds of it", () => {
    expect(openStepWords(e, f)).toBe("");
    const step = { date: "2026-04-08", from: 28, to: 8, believed: 0.75 };
    expect(plain(openStepWords({ ...e, openStep: step }, f))).toBe(
      "A question is open: cylinder 3 stood at about 28.0 %, and at about 8.0 % from the test of 8 Apr 2026 on, with no repair on file. The date rests by 75 % on a repair that nobody recorded, and by 25 % on the course before it, which holds if the tests since mislead.",
    );
  });

  it("opens the ways that wear goes on into the powers that they are made of", () => {
    expect(plain(powersWords(e, f))).toMatch(
      /^Wear is tried by the powers 1 and 1\.5 of use .* By the model’s engines these are 50 % and 50 % likely; after this cylinder’s tests 60 % and 40 %\.$/,
    );
    const one = { powers: [{ power: 2, share: 1, amongSisters: 1 }], faults: [] };
    expect(plain(powersWords({ course: { ...e.course, ...one }, sisters: { ...e.sisters, engines: 0 } }, f))).toBe(
      "Wear goes by the power 2 of use: starting values for engines at large leave no other likely. After this cylinder’s tests that is 100 % likely.",
    );
  });

  it("tells the share of own tests in tenths", () => {
    expect(shareWords(e, f)).toBe(
      "Six tenths of what is said of its rate are this engine’s own tests, the rest its 4 sister engines.",
    );
    const of = (ownShare: number, engines = 4) => shareWords({ ...e, ownShare, sisters: { ...e.sisters, engines } }, f);
    expect(of(0.12, 1)).toContain(
      "One tenth of what is said of its rate is this engine’s own tests, the rest its one sister engine.",
    );
    expect(of(0.01, 0)).toMatch(/^Hardly any .* starting values/);
    expect(of(0.98)).toMatch(/^Nearly all/);
    expect(of(0.5, 1500)).toContain("the rest its 1,500 sister engines.");
    const [fault] = e.course.faults;
    const faulty = { ...e, course: { ...e.course, faults: [{ ...(fault as NonNullable<typeof fault>), share: 0.9 }] } };
    expect(plain(shareWords(faulty, f))).toBe(
      "Its rate is most likely that of a fault (90 %), as this engine’s own tests show it. Six tenths of what is said of the wear beside it are this engine’s own tests, the rest its 4 sister engines.",
    );
  });

  it("names the test that moves the date most; one without which there is no date moves it most of all", () => {
    expect(strongestWords(e, f)).toBe(
      "The leak-down test of 1 Jun 2026 moves the likely date most: without it the date would be 3 months later.",
    );
    const open = test("2025-06-01", null, beyond);
    expect(strongest([...e.tests, open])).toBe(open);
    expect(strongestWords({ ...e, tests: [...e.tests, open] }, f)).toContain("would lie beyond the horizon");
    expect(strongest([test("2026-06-01", 0)])).toBeNull();
    expect(strongestWords({ ...e, moved: null, tests: [] }, f)).toBe("");
  });

  it("tells moves and widths in days where they are few, in months beyond", () => {
    expect([spanWords(-12, f), spanWords(1, f), spanWords(426, f)]).toEqual(["12 days", "1 day", "14 months"]);
    expect(e.tests.map((one) => moveWords(one, "p50", f))).toEqual(["3 months later", "8 days sooner"]);
    expect(moveWords(test("2026-06-01", null, beyond), "p50", f)).toBe("beyond the horizon");
    expect([now, crossing("2026-10-01", null, null), beyond].map((one) => widthWords(one, f))).toEqual([
      "14 months",
      "no late end",
      "none within the horizon",
    ]);
  });

  it("tells what a test next month does to the range", () => {
    const narrow = crossing("2026-12-01", "2027-03-01", "2027-06-01");
    const short = crossing("2027-02-01", "2027-03-01", "2027-03-11");
    const open = crossing("2026-10-01", "2027-03-01", null);
    const a = "A leak-down test next month that reads as foreseen would";
    const words = (without: Crossing, after: Crossing) => nextTestWords(next(without, after), "leak-down", f);
    expect(words(now, narrow)).toBe(`${a} narrow the range from 14 to 6 months, as they would stand on 30 Jul 2026.`);
    expect(words(now, short)).toBe(
      `${a} narrow the range from 14 months to 38 days, as they would stand on 30 Jul 2026.`,
    );
    expect(words(narrow, now)).toBe(`${a} widen the range from 6 to 14 months, as they would stand on 30 Jul 2026.`);
    expect(words(now, now)).toBe(`${a} leave the range as wide as it is, 14 months.`);
    expect(words(open, narrow)).toBe(`${a} give the range a late end: it would span 6 months.`);
    expect(words(open, open)).toBe(`${a} leave the range without a late end.`);
    expect(words(now, open)).toBe(`${a} put the late end beyond the horizon.`);
    expect(words(open, beyond)).toBe(`${a} put the whole range beyond the horizon.`);
    expect(words(beyond, beyond)).toBe(`${a} leave the whole range beyond the horizon.`);
    expect(words(beyond, open)).toBe(`${a} bring the early date within the horizon, to Oct 2026.`);
    expect(words(now, met)).toBe(`${a} bear out that the limit is met.`);
    expect(words(met, now)).toBe(`By then the limit would be met; ${a.replace("A", "a")} put it ahead again.`);
  });

  it("of a limit that is met tells no range and no way to it", () => {
    const crossed = { ...e, told: { ...e.told, crossing: met } };
    expect(widthWords(met, f)).toBe("none: met now");
    expect(movedNote(crossed, f)).toBe("where the limit would be met without that one test; now it is met");
    expect(rangeNowWords(crossed, f)).toBe("The limit is met now, so there is no range.");
    expect(datesWords(crossed, f)).toMatch(/^The level now is at or past the limit/);
    for (const words of [movedNote(crossed, f), rangeNowWords(crossed, f), datesWords(crossed, f)]) {
      expect(words).not.toMatch(/0 days|met now now|Early is/);
    }
    expect(plain(movedNote(e, f))).toBe("where the likely date would be without that one test; now Mar 2027");
    expect(plain(rangeNowWords(e, f))).toBe("Now the range is 14 months.");
    const now = (of: Crossing) => rangeNowWords({ told: { ...e.told, crossing: of } }, f);
    expect(now(crossing("2027-01-01", "2028-01-01", null))).toBe("Now the range has no late end.");
    expect(now(beyond)).toBe("Now no range lies within the horizon.");
    expect(plain(datesWords(e, f))).toContain("Early is Oct 2026, late Dec 2027");
  });

  it("tells errors as differences, and the last reading where there is one", () => {
    expect(plain(spreadWords(e, 1.52, f))).toBe("1.5 points");
    expect(plain(spreadWords({ told: { ...e.told, unit: "kPa" } }, 28.4, f))).toBe("28 kPa");
    expect(plain(latestWords(e, f))).toBe("; the last reading was 21.0 %");
    expect(latestWords({ told: { ...e.told, latest: null } }, f)).toBe("");
  });

  it("tells a unit without a date what would give it one", () => {
    expect(unexplainedWords("V-1", { state: "too-few-tests" }).title).toContain("too few usable tests");
    expect(unexplainedWords("V-1", { state: "never-tested" }).title).toContain("no test yet");
    const { title, says } = unexplainedWords("V-1", { state: "no-limit", measures: ["leak-down", "compression-dry"] });
    expect(title).toBe("V-1 has no date: its engine model has no limit for leak-down and compression.");
    expect(says).toContain("Give the engine model a limit");
  });

  it("reckons the straight way to the limit from level and rate", () => {
    expect(straightUse(e)).toBeCloseTo(2000, 6);
    const rate = { perThousand: -4.8, p10: -8, p90: -2 };
    expect(straightUse({ ...e, told: { ...e.told, rate } })).toBeNull();
    const kpa = {
      ...e.told,
      unit: "kPa" as const,
      level: 1000,
      limit: 900,
      rate: { perThousand: -50, p10: -80, p90: -20 },
    };
    expect(straightUse({ ...e, told: kpa })).toBeCloseTo(2000, 6);
  });

  it("draws a bar from the middle, to the edge for the longest and where no date is left", () => {
    expect([barOf(50, 100), barOf(-100, 100), barOf(0, 0), barOf(null, 10)]).toEqual([
      { left: 50, width: 25 },
      { left: 0, width: 50 },
      { left: 50, width: 0 },
      { left: 50, width: 50 },
    ]);
  });
});
