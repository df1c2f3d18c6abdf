import { describe, expect, test } from "vitest";
import { seededRandom } from "@/demo-data/random.ts";
import type { LevelCase, LimitCase } from "@/lib/schema/track-record.ts";
import { calibrationOf } from "@/lib/track/calibrate.ts";
import { levelReliability, levelScore } from "@/lib/track/level-scores.ts";
import { limitScore, metWithin, rangeHeld, withinScores } from "@/lib/track/limit-scores.ts";
import { warningsOf } from "@/lib/track/warnings.ts";
import { repairOf } from "./made-up-fleet.ts";

const none = { "straight-line": null, "last-time": null, "fixed-interval": null } as const;
const common = {
  engineModel: "made-up-4",
  meterUnit: "h",
  measure: "leak-down",
  cylinder: 1,
  made: "2024-01-01",
  tester: "tester A",
  depot: null,
} as const;

const levelCase = (engine: string, reading: number, more: Partial<LevelCase> = {}): LevelCase => ({
  ...common,
  unit: engine,
  engine,
  came: "2024-07-01",
  days: 182,
  distance: 500,
  reading,
  told: { borecast: [5, 6, 8, 10, 12, 14, 15], ...none },
  z: 0,
  reason: null,
  repairedNext: false,
  ...more,
});

const nowhere = [null, null, null, null, null, null, null];
const limitCase = (engine: string, more: Partial<LimitCase> = {}): LimitCase => ({
  ...common,
  unit: engine,
  engine,
  limit: 30,
  band: "sound",
  followed: 1000,
  until: "2026-01-01",
  endedBy: "last-test",
  met: null,
  metOn: null,
  told: {
    borecast: [100, 200, 300, 400, 500, 600, 700],
    "straight-line": nowhere,
    "last-time": nowhere,
    "fixed-interval": nowhere,
  },
  within: {
    borecast: [0.1, 0.4, 0.8],
    "straight-line": [0, 1, 1],
    "last-time": [0, 0, 0],
    "fixed-interval": [0, 0, 1],
  },
  reason: null,
  ...more,
});

describe("readings", () => {
  /** 1 to 20 read by 20 engines: 9, 10 … lie in the ranges. */
  const cases = Array.from({ length: 20 }, (_, i) => levelCase(`E-${i + 1}`, i + 1));

  test("ranges hold what lies within their ends", () => {
    const score = levelScore(cases, "borecast");
    expect(score?.coverage?.["50"]).toMatchObject({ held: 5, of: 20, share: 0.25 });
    expect(score?.coverage?.["80"]).toMatchObject({ held: 9, of: 20, share: 0.45 });
    expect(score?.coverage?.["90"]).toMatchObject({ held: 11, of: 20, share: 0.55 });
    expect(score?.medianError).toBe(5);
    expect(levelScore(cases, "straight-line")).toBeNull();
  });

  test("a 95 % interval counts the tests, not the readings", () => {
    const four = cases.flatMap((one) => [1, 2, 3, 4].map((cylinder) => ({ ...one, cylinder })));
    const [single, all] = [levelScore(cases, "borecast"), levelScore(four, "borecast")];
    expect(all?.readings).toBe(80);
    expect(all?.outcomes).toBe(20);
    expect(all?.coverage?.["80"].low).toBe(single?.coverage?.["80"].low);
  });

  test("19 are counted, and nothing more is told", () => {
    const score = levelScore(cases.slice(1), "borecast");
    expect(score).toMatchObject({ outcomes: 19, medianError: null, pinball: null });
    expect(score?.coverage?.["80"]).toEqual({ held: 9, of: 19, share: null, low: null, high: null });
  });

  test("reliability is told on the side of worse for both kinds of test", () => {
    const at90 = (some: readonly LevelCase[]) => levelReliability(some).find((p) => p.predicted === 0.9)?.came;
    expect(at90(cases)).toBe(14);
    expect(at90(cases.map((one) => ({ ...one, measure: "compression-dry" as const })))).toBe(15);
  });
});

describe("limits", () => {
  test("a range is decided by what came, or by how far nothing came; else it stays open", () => {
    expect(rangeHeld({ met: 300, followed: 900 }, 200, 600)).toBe(true);
    expect(rangeHeld({ met: 100, followed: 900 }, 200, 600)).toBe(false);
    expect(rangeHeld({ met: 300, followed: 900 }, null, null)).toBe(false);
    expect(rangeHeld({ met: null, followed: 700 }, 200, 600)).toBe(false);
    expect(rangeHeld({ met: null, followed: 500 }, 200, 600)).toBeNull();
    expect(rangeHeld({ met: null, followed: 9000 }, 200, null)).toBeNull();
  });

  test("shares weigh in what ended before it was decided", () => {
    // Of 40, 20 met their limit within the 80 % range; 20 were followed to the middle only: as good as not known.
    const met = Array.from({ length: 20 }, (_, i) => limitCase(`E-${i}`, { met: 450, metOn: "2025-01-01" }));
    const open = Array.from({ length: 20 }, (_, i) => limitCase(`F-${i}`, { followed: 400 }));
    const score = limitScore([...met, ...open], "borecast");
    expect(score.ranges?.["80"]).toEqual({ held: 20, missed: 0, open: 20, share: 1 });
    expect(score.medianError).toBeCloseTo(50 / 450, 4);
  });

  test("within a year is known when it was met, or when it was followed so long", () => {
    expect(metWithin({ made: "2024-01-01", metOn: "2024-06-01", until: "2024-08-01" }, 365)).toBe(true);
    expect(metWithin({ made: "2024-01-01", metOn: "2025-06-01", until: "2025-08-01" }, 365)).toBe(false);
    expect(metWithin({ made: "2024-01-01", metOn: null, until: "2024-08-01" }, 365)).toBeNull();
    const cases = Array.from({ length: 20 }, (_, i) =>
      limitCase(`E-${i}`, i < 5 ? { met: 200, metOn: "2024-06-01" } : {}),
    );
    const [, year] = withinScores(cases);
    expect(year).toMatchObject({ forecasts: 20, met: 5, cylinders: 20 });
    expect(year?.brier.borecast).toBeCloseTo((5 * 0.36 + 15 * 0.16) / 20, 4);
    expect(year?.brier["straight-line"]).toBeCloseTo(15 / 20, 4);
    expect(year?.brierOfShare).toBeCloseTo(0.25 * 0.75, 4);
  });
});

describe("widths of ranges", () => {
  const errors = (sd: number, engines: number) => {
    const random = seededRandom(17);
    return Array.from({ length: engines }, (_, i) => levelCase(`E-${i}`, 10, { z: random.normal(0, sd) }));
  };

  test("right ones keep their width; narrow ones are widened, wide ones narrowed, and then hold", () => {
    const [right] = calibrationOf(errors(1, 400));
    expect(right?.factor).toBeGreaterThan(0.93);
    expect(right?.factor).toBeLessThan(1.07);
    const [narrow] = calibrationOf(errors(1.5, 400));
    expect(narrow?.factor).toBeGreaterThan(1.35);
    expect(narrow?.before).toBeLessThan(0.65);
    expect(Math.abs((narrow?.after ?? 0) - 0.8)).toBeLessThan(0.06);
    expect(calibrationOf(errors(0.6, 400))[0]?.factor).toBeLessThan(0.7);
  });

  test("few outcomes move a width less, under 20 not at all, and none goes beyond a half and two", () => {
    const factor = (sd: number, engines: number) => calibrationOf(errors(sd, engines))[0]?.factor ?? 0;
    expect(factor(1.5, 25)).toBeLessThan(factor(1.5, 400));
    expect(factor(5, 19)).toBe(1);
    expect(factor(50, 400)).toBeLessThanOrEqual(2);
    expect(factor(0.01, 400)).toBeGreaterThanOrEqual(0.5);
  });
});

describe("warnings", () => {
  const band = (date: string, of: "sound" | "watch" | "plan") =>
    ({ cylinder: 1, measure: "leak-down", date, band: of }) as const;
  const met = limitCase("E-1", { met: 500, metOn: "2025-01-01", until: "2025-03-01" });

  test("count from the first telling that stood, each limit once", () => {
    const bands = [band("2024-01-01", "plan"), band("2024-04-01", "watch"), band("2024-07-01", "plan")];
    const told = warningsOf([{ bands, limits: [met, { ...met, made: "2024-04-01" }], repairs: [] }]);
    expect(told).toMatchObject({ met: 1, warned: 1, days: [184], medianDays: null });
    const late = warningsOf([{ bands: [band("2024-07-01", "sound")], limits: [met], repairs: [] }]);
    expect(late).toMatchObject({ met: 1, warned: 0 });
  });

  test("what was opened: flagged and sound is a false alarm, at fault and not flagged a miss", () => {
    const history = (causes: readonly ("exhaust-valve" | "test-set-up")[]) =>
      [{ ...repairOf("E-1", "2024-09-01", 900), x: 900, cylinders: [1], findings: [{ cylinder: 1, causes }] }] as const;
    const flagged = [band("2024-07-01", "plan")];
    const unflagged = [band("2024-07-01", "sound")];
    const of = (bands: typeof flagged | typeof unflagged, causes: Parameters<typeof history>[0]) =>
      warningsOf([{ bands, limits: [], repairs: history(causes) }]);
    expect(of(flagged, [])).toMatchObject({ opened: 1, openedFlagged: 1, flaggedSound: 1, faultUnflagged: 0 });
    expect(of(flagged, ["exhaust-valve"])).toMatchObject({ flaggedSound: 0, faultUnflagged: 0 });
    expect(of(unflagged, ["exhaust-valve"])).toMatchObject({ openedFlagged: 0, faultUnflagged: 1 });
    expect(of(unflagged, ["test-set-up"])).toMatchObject({ faultUnflagged: 0 });
    // Nothing was foretold before it was opened.
    expect(warningsOf([{ bands: [], limits: [], repairs: history([]) }]).opened).toBe(0);
  });
});
