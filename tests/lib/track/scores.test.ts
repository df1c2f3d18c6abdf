import { describe, expect, test } from "vitest";
import { seededRandom } from "@/demo-data/random.ts";
import { addDays } from "@/lib/calendar.ts";
import type { LevelCase, LimitCase } from "@/lib/schema/track-record.ts";
import { calibrationOf } from "@/lib/track/calibrate.ts";
import { levelReliability, levelScore } from "@/lib/track/level-scores.ts";
import { limitReliability, limitScore, rangeHeld, withinScores } from "@/lib/track/limit-scores.ts";
import { warningsOf } from "@/lib/track/warnings.ts";
import { outcomesWithin } from "@/lib/track/within.ts";
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

  test("within a year is known when it was met, or when it was followed so long; never of a younger forecast", () => {
    const of = (metOn: string | null, until: string, asOf = "2026-01-01") =>
      outcomesWithin([{ made: "2024-01-01", metOn, until }], 365, asOf).known.map(({ came }) => came);
    expect(of("2024-06-01", "2024-08-01")).toEqual([true]);
    expect(of("2025-06-01", "2025-08-01")).toEqual([false]);
    expect(of(null, "2024-08-01")).toEqual([]);
    expect(of("2024-06-01", "2024-08-01", "2024-12-01")).toEqual([]);
  });

  test("scores of what came within a year", () => {
    const cases = Array.from({ length: 20 }, (_, i) =>
      limitCase(`E-${i}`, i < 5 ? { met: 200, metOn: "2024-06-01" } : {}),
    );
    const [, year] = withinScores(cases, "2026-06-30");
    expect(year).toMatchObject({ forecasts: 20, met: 5, cylinders: 20 });
    expect(year?.brier.borecast).toBeCloseTo((5 * 0.36 + 15 * 0.16) / 20, 4);
    expect(year?.brier["straight-line"]).toBeCloseTo(15 / 20, 4);
    expect(year?.brierOfShare).toBeCloseTo(0.25 * 0.75, 4);
  });
});

describe("a forecaster that tells the very chances", () => {
  const today = "2026-06-30";
  const random = seededRandom(23);
  const { uniform } = random;
  /** Tested every half year; a cylinder in five is repaired for something else in between, whatever its state. */
  const fleet = Array.from({ length: 8000 }, (_, i) => {
    const chance = [0.04, 0.3, 0.75][i % 3] as number;
    const hazard = -Math.log(1 - chance) / 365;
    const age = Math.floor(uniform() * 1000);
    const made = addDays(today, -age);
    const met = Math.max(1, Math.round(-Math.log(uniform()) / hazard));
    const tested = 182 * Math.floor(age / 182);
    const repaired = uniform() < 0.35 ? Math.floor(uniform() * 600) : Number.POSITIVE_INFINITY;
    const until = Math.min(tested, repaired);
    const within = [182, 365, 730].map((days) => 1 - Math.exp(-hazard * days));
    const likely = -Math.log(0.5) / hazard;
    const one = limitCase(`E-${i}`, {
      made,
      followed: until,
      until: addDays(made, until),
      met: met <= until ? met : null,
      metOn: met <= until ? addDays(made, met) : null,
      within: { ...limitCase("").within, borecast: within },
      told: { ...limitCase("").told, borecast: [0.05, 0.1, 0.25, 0.5, 0.75, 0.9, 0.95].map(() => likely) },
    });
    return { one, met, within, likely };
  }).filter(({ one }) => one.followed > 0);
  const cases = fleet.map(({ one }) => one);

  test("is shown as one, however many forecasts are young or end in a repair", () => {
    const points = limitReliability(cases, today);
    expect(points.map((p) => p.predicted)).toEqual([0.04, 0.3, 0.75]);
    for (const { predicted, observed, low, high } of points) {
      expect(Math.abs((observed ?? 0) - predicted)).toBeLessThan(0.025);
      expect(low).toBeLessThan(predicted);
      expect(high).toBeGreaterThan(predicted);
    }
  });
  test("scores as if all were known", () => {
    const mean = (of: readonly number[]) => of.reduce((sum, v) => sum + v, 0) / of.length;
    for (const [i, { days, brier, brierOfShare }] of withinScores(cases, today).entries()) {
      const chances = fleet.map(({ within }) => within[i] as number);
      const off = Math.abs((brier.borecast ?? 0) - mean(chances.map((p) => p * (1 - p))));
      // Of two years few were followed to the end: three standard deviations of what chance does.
      expect(off).toBeLessThan(days === 730 ? 0.02 : 0.01);
      const share = mean(fleet.map(({ met }) => Number(met <= days)));
      expect(Math.abs((brierOfShare ?? 0) - share * (1 - share))).toBeLessThan(0.01);
    }
  });
  test("is not made better or worse in its distances by what is known early", () => {
    // What can be known at all: met within the longest that anybody was followed.
    const longest = Math.max(...fleet.map(({ one }) => one.followed));
    const errors = fleet.flatMap(({ met, likely }) => (met <= longest ? [Math.abs(likely - met) / met] : []));
    const truth = errors.toSorted((a, b) => a - b)[Math.floor(errors.length / 2)] ?? 0;
    const told = limitScore(cases, "borecast").medianError ?? 0;
    expect(Math.abs(told - truth) / truth).toBeLessThan(0.1);
    // Of those that are known, counted alike, it is far off.
    const known = fleet.flatMap(({ one, met, likely }) => (one.met === null ? [] : [Math.abs(likely - met) / met]));
    expect((known.toSorted((a, b) => a - b)[Math.floor(known.length / 2)] ?? 0) / truth).toBeGreaterThan(1.2);
  });
  test("tells no share where nobody was followed so long", () => {
    const short = cases.map((one) => ({ ...one, until: addDays(one.made, Math.min(300, one.followed)) }));
    const all = short.map((one) =>
      one.metOn !== null && one.metOn > one.until ? { ...one, met: null, metOn: null } : one,
    );
    const [halfYear, year] = withinScores(all, today);
    expect(halfYear?.brier.borecast).not.toBeNull();
    expect(year?.brier.borecast).toBeNull();
    expect(limitReliability(all, today).map(({ observed }) => observed)).toEqual([null, null, null]);
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
    ({ cylinder: 1, measure: "leak-down", date, beforeOpening: false, band: of }) as const;
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
