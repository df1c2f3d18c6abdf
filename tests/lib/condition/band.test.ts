import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  bandOfMeasure,
  leakDownLimitsInForce,
  type MeasureEvidence,
  spreadBreaches,
  worstBand,
} from "@/lib/condition/band.ts";
import { engineModelSchema } from "@/lib/schema/engine-model.ts";
import { bands } from "@/lib/schema/words.ts";

const settings = { leadTimeMonths: 12, planProbability: 0.3, watchProbability: 0.1 };
const leakage: MeasureEvidence = {
  measure: "leak-down",
  level: 6,
  limit: 28,
  watchPercent: 10,
  planPercent: 18,
  probabilityWithinLeadTime: null,
  spread: null,
  settings,
};
const compression: MeasureEvidence = {
  ...leakage,
  measure: "compression-dry",
  level: 1010,
  limit: 950,
  watchPercent: null,
  planPercent: null,
};
const leak = (changes: Partial<MeasureEvidence>) => bandOfMeasure({ ...leakage, ...changes });
const kpa = (changes: Partial<MeasureEvidence>) => bandOfMeasure({ ...compression, ...changes });

test("a limit met only since the last test is told as probable, with what was measured", () => {
  const crossedAfter = { date: "2026-05-03", level: 17 };
  expect(leak({ level: 18.3, limit: 18, crossedAfter })).toEqual({
    band: "past-limit",
    reason: "leakage 18.3 %, limit 18; probably past it by now: 17 % when last tested, on 3 May 2026",
  });
  expect(kpa({ level: 940, crossedAfter: { ...crossedAfter, level: 962 } }).reason).toBe(
    "940 kPa, minimum 950 kPa; probably past it by now: 962 kPa when last tested, on 3 May 2026",
  );
});

describe("bandOfMeasure by level", () => {
  test.each([
    [6, "sound", "leakage 6 %, watch from 10"],
    [9.96, "sound", "leakage 9.96 %, watch from 10"],
    [10, "watch", "leakage 10 %, watch from 10, limit 28"],
    [17.8, "watch", "leakage 18 %, watch from 10, limit 28"],
    [18, "plan", "leakage 18 %, plan from 18, limit 28"],
    [22.3, "plan", "leakage 22 %, plan from 18, limit 28"],
    [27.7, "plan", "leakage 27.7 %, plan from 18, limit 28"],
    [28, "past-limit", "leakage 28 %, limit 28"],
    [41.2, "past-limit", "leakage 41 %, limit 28"],
  ])("leakage %d: %s", (level, band, reason) => {
    expect(leak({ level })).toEqual({ band, reason });
  });

  test.each([
    [1010, "sound", "1,010 kPa, minimum 950 kPa"],
    [950.2, "sound", "950.2 kPa, minimum 950 kPa"],
    [950, "past-limit", "950 kPa, minimum 950 kPa"],
    [940, "past-limit", "940 kPa, minimum 950 kPa"],
  ])("compression %d: %s", (level, band, reason) => {
    expect(kpa({ level })).toEqual({ band, reason });
  });
});

describe("bandOfMeasure by chance and warning", () => {
  test("at 30 % within the lead time it is one to plan, at 10 % one to watch", () => {
    expect(leak({ probabilityWithinLeadTime: 0.34 })).toEqual({
      band: "plan",
      reason: "leakage 6 %, limit 28; chance to cross within 12 months 34 %",
    });
    expect(leak({ probabilityWithinLeadTime: 0.3 }).band).toBe("plan");
    expect(leak({ probabilityWithinLeadTime: 0.299 }).band).toBe("watch");
    expect(kpa({ probabilityWithinLeadTime: 0.1 })).toEqual({
      band: "watch",
      reason: "1,010 kPa, minimum 950 kPa; chance to cross within 12 months 10 %",
    });
    expect(kpa({ probabilityWithinLeadTime: 0.099 }).band).toBe("sound");
  });
  test("lead time and probabilities are settings", () => {
    const own = { leadTimeMonths: 6, planProbability: 0.5, watchProbability: 0.4 };
    expect(leak({ probabilityWithinLeadTime: 0.45, settings: own })).toEqual({
      band: "watch",
      reason: "leakage 6 %, limit 28; chance to cross within 6 months 45 %",
    });
  });
  test("a lead time of one month is one", () => {
    const month = { leadTimeMonths: 1, planProbability: 0.5, watchProbability: 0.4 };
    expect(leak({ probabilityWithinLeadTime: 0.45, settings: month }).reason).toContain("within 1 month 45 %");
  });
  test("an early warning makes a sound one worth watching, and nothing worse", () => {
    const earlyWarning = "early warning: cylinder 3 has drawn away";
    expect(leak({ earlyWarning })).toEqual({ band: "watch", reason: earlyWarning });
    expect(leak({ earlyWarning, level: 20 }).band).toBe("plan");
  });
  test("a broken spread rule is past the limit, an unbroken one is nothing", () => {
    expect(kpa({ spread: { breached: true, words: "too far below" } })).toEqual({
      band: "past-limit",
      reason: "too far below",
    });
    expect(kpa({ spread: { breached: false, words: "a little below" } }).band).toBe("sound");
  });
});

test("a worse level or a higher chance never gives a better band", () => {
  const percent = fc.double({ min: 0, max: 100, noNaN: true });
  const chance = fc.option(fc.double({ min: 0, max: 1, noNaN: true }));
  fc.assert(
    fc.property(percent, percent, chance, fc.double({ min: 0, max: 1, noNaN: true }), (a, b, p, more) => {
      const rank = (level: number, probabilityWithinLeadTime: number | null) =>
        bands.indexOf(leak({ level, probabilityWithinLeadTime }).band);
      expect(rank(Math.max(a, b), p)).toBeGreaterThanOrEqual(rank(Math.min(a, b), p));
      expect(rank(a, Math.min(1, (p ?? 0) + more))).toBeGreaterThanOrEqual(rank(a, p));
    }),
  );
});

test("worstBand", () => {
  expect(worstBand(["watch", null, "past-limit", "sound"])).toBe("past-limit");
  expect(worstBand([null, "sound"])).toBe("sound");
  expect(worstBand([null])).toBeNull();
  expect(worstBand([])).toBeNull();
});

describe("leakDownLimitsInForce", () => {
  const valves = { watchPercent: 8, planPercent: 12, limitPercent: 18 };
  const { leakDown } = engineModelSchema.parse({
    id: "m",
    cylinders: 4,
    leakDown: { watchPercent: 10, planPercent: 20, limitPercent: 30, valves },
  });
  const limit = (topEnd: number, heardAt: ("crankcase" | "inlet" | "exhaust" | "coolant" | "neighbour")[]) =>
    leakDown === undefined ? null : leakDownLimitsInForce(leakDown, { topEnd, heardAt }).limitPercent;
  test("the tighter ones need both a top-end fault and air heard there", () => {
    for (const place of ["inlet", "exhaust", "coolant"] as const) expect(limit(0.51, ["crankcase", place])).toBe(18);
    expect(limit(0.5, ["exhaust"])).toBe(30);
    expect(limit(0.9, ["crankcase", "neighbour"])).toBe(30);
    expect(limit(0.9, [])).toBe(30);
  });
  test("a model without them keeps the usual ones", () => {
    if (leakDown === undefined) throw new Error("the model has no limits");
    const { valves: _, ...usual } = leakDown;
    expect(leakDownLimitsInForce(usual, { topEnd: 0.9, heardAt: ["exhaust"] })).toBe(usual);
  });
});

describe("spreadBreaches", () => {
  const levels = new Map([
    [1, 1200],
    [2, 1190],
    [3, 1210],
    [4, 900],
  ]);
  const base = { newKpa: 1250, minimumKpa: 850 };
  test("of the highest: further below than the share is past, the share itself is not", () => {
    const rule = { ...base, spreadRule: "of-highest" as const, spreadPercent: 25 };
    const spreads = spreadBreaches(levels, rule);
    expect([...spreads.values()].map((s) => s.breached)).toEqual([false, false, false, true]);
    expect(spreads.get(4)?.words).toBe("900 kPa, 26 % below the highest cylinder (1,210 kPa), 25 % allowed");
    expect(
      spreadBreaches(
        new Map([
          [1, 1200],
          [2, 900],
        ]),
        rule,
      ).get(2)?.breached,
    ).toBe(false);
  });
  test("of the mean of all", () => {
    const spreads = spreadBreaches(levels, { ...base, spreadRule: "of-mean", spreadPercent: 20 });
    expect(spreads.get(4)?.words).toBe("900 kPa, 20 % below the mean of all cylinders (1,125 kPa), 20 % allowed");
    expect(spreads.get(4)?.breached).toBe(false);
    expect(spreadBreaches(levels, { ...base, spreadRule: "of-mean", spreadPercent: 19 }).get(4)?.breached).toBe(true);
  });
  test("absolute, in kPa below the highest", () => {
    const spreads = spreadBreaches(levels, { ...base, spreadRule: "absolute", spreadKpa: 300 });
    expect(spreads.get(4)).toEqual({
      breached: true,
      words: "900 kPa, 310 kPa below the highest cylinder (1,210 kPa), 300 kPa allowed",
    });
    expect(spreads.get(1)?.breached).toBe(false);
  });
  test("nothing to say with one cylinder, or without a figure in the model", () => {
    expect(spreadBreaches(new Map([[1, 1200]]), { ...base, spreadRule: "of-highest", spreadPercent: 25 }).size).toBe(0);
    expect(spreadBreaches(levels, { ...base, spreadRule: "of-highest" }).size).toBe(0);
  });
});
