import { describe, expect, test } from "vitest";
import { diagnoseEngine } from "@/lib/cause/diagnose.ts";
import { evidence, priors } from "@/lib/cause/evidence.ts";
import { questions } from "@/lib/cause/evidence-row.ts";
import type { Doubt } from "@/lib/condition/types.ts";
import { type EvidenceId, evidenceIds } from "@/lib/schema/evidence-ids.ts";
import { type Cause, causes } from "@/lib/schema/words.ts";
import { asOf, compressions, type EngineGiven, engine, leakDowns, petrol4, type TestGiven } from "./engines.ts";

/** One sight of a row: what is given, and which cause it must speak for (or, for a clear check, against). */
interface Sight {
  readonly given: EngineGiven;
  readonly cylinder?: number;
  readonly for?: Cause;
  readonly against?: Cause;
  readonly words: string;
}

const soundLeaks = leakDowns([[7, 7, 7, 7]]);
const soundPressures = compressions([[1230, 1230, 1230, 1230]]);
const wet = (readings: TestGiven["readings"]): TestGiven => ({
  measure: "compression-wet",
  date: "2026-03-16",
  x: 175_000,
  readings,
});
const heard = (value: number, place: "crankcase" | "inlet" | "exhaust" | "coolant" | "neighbour" | "none") =>
  leakDowns([[7, { value, heardAt: [place] }, 7, 7]]);
const check = (
  kind:
    | "borescope"
    | "combustion-gas-in-coolant"
    | "cooling-pressure"
    | "valve-clearance"
    | "valve-lift"
    | "blow-by"
    | "oil-use",
  result: "clear" | "suspect" | "fault",
  remarks: string | null = null,
): EngineGiven => ({
  tests: soundLeaks,
  checks: [{ date: "2026-05-04", check: kind, result, cylinder: 2, remarks }],
});
const names = (cause: Cause): Sight => ({
  given: check("borescope", "fault", `seen well, cause: ${cause}`),
  for: cause,
  words: "borescope of 4 May 2026 names it",
});
const doubted = (doubt: Doubt): EngineGiven => ({
  tests: [
    ...soundLeaks,
    { measure: "leak-down", date: "2026-06-01", x: 178_000, readings: [8, 97, 8, 8], weight: 0, doubts: [doubt] },
  ],
});

const improved = (cylinders: readonly number[]) => ({
  measure: "leak-down" as const,
  cylinders,
  beforeX: 145_000,
  afterX: 160_000,
  date: "2025-09-15",
  from: 26,
  to: 8,
  testsSince: 1,
  words: "was it repaired?",
});

const sights: Readonly<Record<EvidenceId, Sight>> = {
  "heard-crankcase": {
    given: { tests: heard(16, "crankcase") },
    for: "rings-or-bore",
    words: "air heard at the crankcase in the last test",
  },
  "heard-inlet": { given: { tests: heard(12, "inlet") }, for: "inlet-valve", words: "air heard at the inlet" },
  "heard-exhaust": { given: { tests: heard(12, "exhaust") }, for: "exhaust-valve", words: "air heard at the exhaust" },
  "heard-coolant": { given: { tests: heard(12, "coolant") }, for: "head-gasket", words: "bubbles in the coolant" },
  "heard-neighbour": {
    given: { tests: heard(15, "neighbour") },
    for: "head-gasket",
    words: "air heard at the next cylinder",
  },
  "heard-neighbour-far": {
    given: { model: { ...petrol4, neighbours: [] }, tests: heard(15, "neighbour") },
    for: "inlet-valve",
    words: "though none shares a gasket bridge",
  },
  "heard-from-next": {
    given: { tests: leakDowns([[7, 20, { value: 21, heardAt: ["neighbour"] }, 7]]) },
    for: "head-gasket",
    words: "air of cylinder 3 was heard at the next cylinder",
  },
  "heard-nowhere": { given: { tests: heard(16, "none") }, for: "test-set-up", words: "no air heard anywhere" },
  "leakage-sound": {
    given: { tests: leakDowns([[5, 5, 5, 5]]) },
    against: "head-gasket",
    words: "leakage 5 %, below the watch level",
  },
  "held-over-tests": {
    given: {
      tests: leakDowns([
        [7, 14, 7, 7],
        [7, 15, 7, 7],
      ]),
    },
    against: "test-set-up",
    words: "raised in 2 tests running",
  },
  "all-raised-alike": {
    given: { tests: leakDowns([[16, 15, 16, 17]]) },
    for: "rings-or-bore",
    words: "all four cylinders leak alike (15 to 17 %)",
  },
  "rose-together": {
    given: {
      tests: leakDowns([
        [9, 9, 10, 9],
        [13, 13, 13, 14],
        [16, 16, 17, 17],
      ]),
    },
    for: "rings-or-bore",
    words: "leakage rose from 9 to 16 % in all four cylinders alike",
  },
  "stands-out": {
    given: { tests: leakDowns([[7, 20, 7, 8]]) },
    for: "exhaust-valve",
    words: "leakage 20 %, the other cylinders 7 %",
  },
  "sudden-step": {
    given: {
      tests: leakDowns([
        [7, 7, 7, 7],
        [7, 8, 7, 7],
        [7, 22, 7, 7],
      ]),
    },
    for: "head-gasket",
    words: "leakage came to 22 % in one step between two tests; at its place beside the others it would be 7 %",
  },
  "fast-own-rise": {
    given: {
      tests: leakDowns([
        [7, 7, 7, 7],
        [7, 9, 7, 7],
        [7, 17, 7, 7],
        [7, 30, 7, 7],
      ]),
    },
    for: "exhaust-valve",
    words: "leakage rose fast, by 18 points more than in the other cylinders, within 4 tests",
  },
  "slow-own-rise": {
    given: {
      tests: leakDowns([
        [6, 6, 6, 6],
        [7, 8, 7, 7],
        [7, 11, 7, 7],
        [7, 13, 7, 7],
        [7, 16, 7, 7],
      ]).map((one, i) => ({ ...one, x: 60_000 * (i + 1) })),
    },
    for: "rings-or-bore",
    words: "leakage rose slowly",
  },
  "always-apart": {
    given: {
      tests: leakDowns([
        [8, 14, 9, 8],
        [9, 15, 9, 9],
        [9, 15, 10, 9],
        [10, 16, 9, 10],
      ]),
    },
    for: "rings-or-bore",
    words: "more than the other cylinders in all of 4 tests",
  },
  "neighbours-leak-together": {
    given: { tests: leakDowns([[7, 20, 21, 7]]) },
    for: "head-gasket",
    words: "cylinders 2 and 3 leak together",
  },
  "neighbours-low-together": {
    given: { tests: compressions([[1200, 1000, 1010, 1210]]) },
    for: "head-gasket",
    words: "compression low in cylinders 2 and 3 together",
  },
  "wet-rise": {
    given: { tests: [...compressions([[1200, 1000, 1200, 1200]]), wet([null, 1150, null, null])] },
    for: "rings-or-bore",
    words: "wet test rose 15 %",
  },
  "wet-no-rise": {
    given: { tests: [...compressions([[1200, 1000, 1200, 1200]]), wet([null, 1010, null, null])] },
    for: "exhaust-valve",
    words: "wet test did not help (1 %)",
  },
  "low-compression-one": {
    given: { tests: compressions([[1200, 1020, 1200, 1200]]) },
    for: "exhaust-valve",
    words: "compression 15 % below the other cylinders",
  },
  "compression-sudden-fall": {
    given: {
      tests: compressions([
        [1230, 1225, 1230, 1230],
        [1220, 1220, 1225, 1220],
        [1215, 1050, 1220, 1215],
      ]),
    },
    for: "head-gasket",
    words: "compression fell by 13 % more than in the other cylinders in one step between two tests",
  },
  "compression-fast-fall": {
    given: {
      tests: compressions([
        [1230, 1225, 1230, 1230],
        [1220, 1190, 1225, 1220],
        [1220, 1120, 1225, 1220],
        [1215, 1010, 1220, 1215],
      ]),
    },
    for: "exhaust-valve",
    words: "compression fell fast, by",
  },
  "compression-slow-fall": {
    given: {
      tests: compressions([
        [1230, 1225, 1230, 1230],
        [1220, 1190, 1225, 1220],
        [1220, 1150, 1225, 1220],
        [1220, 1120, 1225, 1220],
        [1215, 1080, 1220, 1215],
      ]).map((one, i) => ({ ...one, x: 200_000 * (i + 1) })),
    },
    for: "rings-or-bore",
    words: "compression fell slowly, by",
  },
  "low-compression-normal-leakage": {
    given: { tests: [...soundLeaks, ...compressions([[1200, 1020, 1200, 1200]])] },
    for: "valve-timing",
    words: "compression 15 % below the other cylinders, leakage normal (7 %)",
  },
  "compression-fall-unexplained": {
    given: {
      tests: [
        ...soundLeaks,
        ...compressions([
          [1200, 1195, 1200, 1200],
          [1200, 1120, 1200, 1200],
          [1200, 1040, 1200, 1200],
          [1200, 960, 1200, 1200],
        ]),
      ],
    },
    for: "valve-timing",
    words: "compression fell by 20 % more than in the other cylinders over 4 tests, which leakage does not explain",
  },
  "compression-odd-reading": {
    given: {
      tests: [
        ...soundLeaks,
        ...compressions([
          [1200, 1195, 1200, 1200],
          [1200, 1200, 1200, 1200],
          [1200, 845, 1200, 1200],
        ]),
      ],
    },
    for: "test-set-up",
    words: "one compression reading alone lies 29 % below its place beside the others, which leakage does not explain",
  },
  "all-low": {
    given: { tests: compressions([[960, 950, 960, 955]]) },
    for: "rings-or-bore",
    words: "compression low in all cylinders alike",
  },
  "all-low-normal-leakage": {
    given: { tests: [...soundLeaks, ...compressions([[960, 950, 960, 955]])] },
    for: "valve-timing",
    words: "compression low in all cylinders alike, leakage normal",
  },
  "high-leakage-good-compression": {
    given: { tests: [...leakDowns([[7, 50, 7, 7]]), ...soundPressures] },
    for: "test-set-up",
    words: "leakage 50 %, which would cost about 24 % of compression; only 0 % is missing",
  },
  "near-total-leak": {
    given: { tests: leakDowns([[7, 96, 7, 7]]) },
    for: "test-set-up",
    words: "nearly all the air went through",
  },
  "first-stroke-builds-up": {
    given: {
      tests: compressions([
        [
          { value: 1200, firstStrokeShare: 0.7 },
          { value: 1080, firstStrokeShare: 0.52 },
          { value: 1200, firstStrokeShare: 0.71 },
          1200,
        ],
      ]),
    },
    for: "rings-or-bore",
    words: "first stroke low (52 % of the final reading), then it built up",
  },
  "first-stroke-stays-low": {
    given: {
      tests: compressions([
        [
          { value: 1200, firstStrokeShare: 0.7 },
          { value: 1000, firstStrokeShare: 0.75 },
          { value: 1200, firstStrokeShare: 0.71 },
          1200,
        ],
      ]),
    },
    for: "inlet-valve",
    words: "low on the first stroke and did not build up (75 % of the final reading)",
  },
  "reading-doubted": {
    given: doubted({ code: "not-at-tdc", cylinder: 2, weight: 0, words: "97 % beside normal compression" }),
    for: "test-set-up",
    words: "its last leak-down reading is doubtful: 97 % beside normal compression",
  },
  "test-doubted": {
    given: doubted({ code: "set-up-not-met", cylinder: null, weight: 0, words: "engine cold" }),
    for: "test-set-up",
    words: "the last leak-down test is doubtful: engine cold",
  },
  "not-tested": { given: {}, against: "test-set-up", words: "not tested yet" },
  "top-end-renewed": {
    given: { tests: soundLeaks, repairs: [{ date: "2025-01-07", x: 140_000, scope: "top-end", cylinders: [2] }] },
    against: "exhaust-valve",
    words: "top end renewed on 7 Jan 2025",
  },
  "bottom-end-renewed": {
    given: { tests: soundLeaks, repairs: [{ date: "2025-01-07", x: 140_000, scope: "bottom-end", cylinders: [2] }] },
    against: "rings-or-bore",
    words: "rings, pistons and bores renewed on 7 Jan 2025",
  },
  "unmoved-by-top-end": {
    given: {
      tests: leakDowns([
        [7, 20, 7, 7],
        [7, 21, 7, 7],
      ]),
      repairs: [{ date: "2026-01-10", x: 165_000, scope: "top-end", cylinders: [2] }],
    },
    for: "rings-or-bore",
    words: "leakage 20 % before the top-end repair of 10 Jan 2026 and 21 % after it",
  },
  "unmoved-by-bottom-end": {
    given: {
      tests: leakDowns([
        [7, 20, 7, 7],
        [7, 21, 7, 7],
      ]),
      repairs: [{ date: "2026-01-10", x: 165_000, scope: "bottom-end", cylinders: [2] }],
    },
    for: "exhaust-valve",
    words: "leakage 20 % before the bottom-end repair of 10 Jan 2026 and 21 % after it",
  },
  "improved-alone": {
    given: { tests: soundLeaks, improvements: [improved([2])] },
    for: "test-set-up",
    words: "leakage fell from 26 to 8 % on 15 Sep 2025 with no repair on file",
  },
  "improved-all": {
    given: { tests: soundLeaks, improvements: [improved([1, 2, 3, 4])] },
    for: "test-set-up",
    words: "leakage of all cylinders fell on 15 Sep 2025",
  },
  "check-borescope-fault": {
    given: check("borescope", "fault"),
    for: "piston",
    words: "borescope of 4 May 2026: fault",
  },
  "check-borescope-clear": {
    given: check("borescope", "clear"),
    against: "piston",
    words: "borescope of 4 May 2026: clear",
  },
  "check-combustion-gas-in-coolant-fault": {
    given: check("combustion-gas-in-coolant", "fault"),
    for: "head-gasket",
    words: "combustion gas in the coolant on 4 May 2026: fault",
  },
  "check-combustion-gas-in-coolant-clear": {
    given: check("combustion-gas-in-coolant", "clear"),
    against: "head-gasket",
    words: "combustion gas in the coolant on 4 May 2026: clear",
  },
  "check-cooling-pressure-fault": {
    given: check("cooling-pressure", "fault"),
    for: "cracked-head-or-block",
    words: "cooling system under pressure on 4 May 2026: fault",
  },
  "check-cooling-pressure-clear": {
    given: check("cooling-pressure", "clear"),
    against: "cracked-head-or-block",
    words: "cooling system under pressure on 4 May 2026: clear",
  },
  "check-valve-clearance-fault": {
    given: check("valve-clearance", "fault"),
    for: "valve-timing",
    words: "valve clearance on 4 May 2026: fault",
  },
  "check-valve-clearance-clear": {
    given: check("valve-clearance", "clear"),
    against: "valve-timing",
    words: "valve clearance on 4 May 2026: clear",
  },
  "check-valve-lift-fault": {
    given: check("valve-lift", "fault"),
    for: "valve-timing",
    words: "valve lift on 4 May 2026: fault",
  },
  "check-valve-lift-clear": {
    given: check("valve-lift", "clear"),
    against: "valve-timing",
    words: "valve lift on 4 May 2026: clear",
  },
  "check-blow-by-fault": {
    given: check("blow-by", "fault"),
    for: "rings-or-bore",
    words: "blow-by on 4 May 2026: fault",
  },
  "check-blow-by-clear": {
    given: check("blow-by", "clear"),
    against: "rings-or-bore",
    words: "blow-by on 4 May 2026: clear",
  },
  "check-oil-use-fault": {
    given: check("oil-use", "fault"),
    for: "rings-or-bore",
    words: "oil use on 4 May 2026: fault",
  },
  "check-oil-use-clear": {
    given: check("oil-use", "clear"),
    against: "rings-or-bore",
    words: "oil use on 4 May 2026: clear",
  },
  "check-names-rings-or-bore": names("rings-or-bore"),
  "check-names-piston": names("piston"),
  "check-names-inlet-valve": names("inlet-valve"),
  "check-names-exhaust-valve": names("exhaust-valve"),
  "check-names-head-gasket": names("head-gasket"),
  "check-names-cracked-head-or-block": names("cracked-head-or-block"),
  "check-names-valve-timing": names("valve-timing"),
  "check-names-test-set-up": names("test-set-up"),
};

const secondCylinder = (given: EngineGiven) => {
  const diagnosis = diagnoseEngine(engine(given), { asOf })[1];
  if (diagnosis === undefined) throw new Error("no cylinder 2");
  return diagnosis;
};
const cause = (given: EngineGiven, which: Cause) => {
  const share = secondCylinder(given).causes.find((one) => one.cause === which);
  if (share === undefined) throw new Error(`no share of ${which}`);
  return share;
};

describe("the evidence table", () => {
  test("holds proper probabilities, and the priors add up to 1", () => {
    expect(priors.reduce((sum, prior) => sum + prior, 0)).toBeCloseTo(1, 12);
    for (const id of evidenceIds) {
      for (const likelihood of evidence[id].likelihoods) {
        expect(likelihood).toBeGreaterThan(0);
        expect(likelihood).toBeLessThanOrEqual(1);
      }
    }
  });

  test("how compression fell is not told beside a course of the leakage, which shows the same sharper", () => {
    const { tests = [] } = sights["compression-sudden-fall"].given;
    const leaks = leakDowns([
      [7, 7, 7, 7],
      [7, 7, 7, 7],
    ]);
    const told = (given: EngineGiven) => cause(given, "head-gasket").because.join("; ");
    expect(told({ tests })).toContain("compression fell by");
    // A leak-down test that does not explain it tells it otherwise.
    expect(told({ tests: [...tests, ...leaks.slice(0, 1)] })).not.toContain("compression fell by");
    expect(told({ tests: [...tests, ...leaks] })).not.toContain("compression fell by");
  });

  test.each([2, 3, 4, 6])(
    "a cylinder that stood as far below from the first of %i tests on is told to be low, never to have fallen",
    (n) => {
      const tests = compressions(Array.from({ length: n }, () => [1200, 1195, 1040, 1205]));
      const told = diagnoseEngine(engine({ tests }), { asOf }).flatMap((one) => one.causes.flatMap((of) => of.because));
      expect(told.join("; ")).toContain("below the other cylinders");
      expect(told.join("; ")).not.toContain("compression fell");
    },
  );

  test.each(evidenceIds)("%s is seen, and told where it belongs", (id) => {
    const sight = sights[id];
    if (sight.for !== undefined) expect(cause(sight.given, sight.for).because.join("; ")).toContain(sight.words);
    if (sight.against !== undefined)
      expect(cause(sight.given, sight.against).against.join("; ")).toContain(sight.words);
    expect(sight.for ?? sight.against).toBeDefined();
  });

  test.each(evidenceIds.filter((id) => id.startsWith("check-")))("%s moves its cause from where it stood", (id) => {
    const sight = sights[id];
    const stood = (which: Cause) => cause({ tests: soundLeaks }, which).probability;
    if (sight.for !== undefined)
      expect(cause(sight.given, sight.for).probability).toBeGreaterThan(1.3 * stood(sight.for));
    if (sight.against !== undefined) {
      expect(cause(sight.given, sight.against).probability).toBeLessThan(0.9 * stood(sight.against));
    }
  });
});

describe("the questions of the table", () => {
  test("rows that answer one question exclude each other: under no cause do they add up to more than 1", () => {
    for (const question of questions.filter((one) => one !== "heard")) {
      const rows = evidenceIds.filter((id) => evidence[id].question === question);
      expect(rows.length, question).toBeGreaterThan(1);
      causes.forEach((_, i) => {
        const total = rows.reduce((sum, id) => sum + (evidence[id].likelihoods[i] ?? 0), 0);
        expect(total, `${question} under ${causes[i]}`).toBeLessThanOrEqual(1.0001);
      });
    }
  });

  test("every row has a reason, and no row tells two causes apart by a likelihood of 0 or 1", () => {
    for (const id of evidenceIds) {
      expect(evidence[id].reason.length, id).toBeGreaterThan(10);
      expect(Math.min(...evidence[id].likelihoods), id).toBeGreaterThanOrEqual(0.01);
    }
  });
});

describe("how far a finding is believed", () => {
  const share = (given: EngineGiven, which: Cause) => cause(given, which).probability;

  test("crankcase air is normal while little leaks, and speaks for the rings as the leakage grows", () => {
    const rings = (value: number) =>
      share({ tests: heard(value, "crankcase") }, "rings-or-bore") -
      share({ tests: heard(value, "none") }, "rings-or-bore");
    expect(Math.abs(rings(5))).toBeLessThan(1e-9);
    expect(rings(15)).toBeGreaterThan(0.1);
  });

  test("a valve that is heard is never normal, however little leaks", () => {
    expect(share({ tests: heard(5, "exhaust") }, "exhaust-valve")).toBeGreaterThan(0.4);
  });

  test("air at a neighbour counts for the gasket only between physical neighbours, most where both leak", () => {
    const both = leakDowns([[7, { value: 20, heardAt: ["neighbour"] }, 21, 7]]);
    const one = leakDowns([[7, { value: 20, heardAt: ["neighbour"] }, 7, 7]]);
    const far = { model: { ...petrol4, neighbours: [] }, tests: one };
    expect(share({ tests: both }, "head-gasket")).toBeGreaterThan(share({ tests: one }, "head-gasket"));
    expect(share({ tests: one }, "head-gasket")).toBeGreaterThan(2 * share(far, "head-gasket"));
  });

  test("air at a neighbour is surer where it was heard from both sides", () => {
    const from = (places: ["neighbour"] | []) =>
      share(
        { tests: leakDowns([[7, { value: 15, heardAt: ["neighbour"] }, { value: 7, heardAt: places }, 7]]) },
        "head-gasket",
      );
    expect(from(["neighbour"])).toBeGreaterThan(from([]));
  });

  test("two low neighbours make no pair where a third leaks as much, or where their leakage is sound", () => {
    const three = { tests: leakDowns([[7, 20, 21, 7, 20, 7]]), model: { ...petrol4, cylinders: 6 } };
    expect(cause(three, "head-gasket").because.join()).not.toContain("together");
    const low = compressions([[1200, 1000, 1010, 1210]]);
    expect(cause({ tests: [...soundLeaks, ...low] }, "head-gasket").because.join()).not.toContain("together");
  });

  test("a model that is not judged on compression draws no conclusion from a low one", () => {
    const { compression: _, ...model } = petrol4;
    const low = compressions([[1200, 900, 1200, 1210]]);
    expect(secondCylinder({ model, tests: [...soundLeaks, ...low] })).toEqual(
      secondCylinder({ model, tests: soundLeaks }),
    );
  });

  test("banks of a V do not share a gasket: two that are not neighbours make no pair", () => {
    const tests = leakDowns([[7, 20, 21, 7]]);
    const banks = {
      ...petrol4,
      neighbours: [
        [1, 2],
        [3, 4],
      ] as [number, number][],
    };
    expect(share({ tests, model: banks }, "head-gasket")).toBeLessThan(0.5 * share({ tests }, "head-gasket"));
  });

  test("a wet test says less on an opposed engine, and nothing of a sound cylinder that does not rise", () => {
    const tests = [...compressions([[1200, 1000, 1200, 1200]]), wet([null, 1150, null, null])];
    const opposed = { ...petrol4, layout: "opposed" as const };
    expect(share({ tests, model: opposed }, "rings-or-bore")).toBeLessThan(share({ tests }, "rings-or-bore"));
    const sound = [...soundLeaks, ...soundPressures];
    const flat = [...sound, wet([1235, 1235, 1235, 1235])];
    expect(secondCylinder({ tests: flat }).causes).toEqual(secondCylinder({ tests: sound }).causes);
  });

  test("a wet test is compared with the dry one of the same day, and with none more than 30 days away", () => {
    const dry: TestGiven = {
      measure: "compression-dry",
      date: "2026-03-16",
      x: 175_000,
      readings: [1200, 1000, 1200, 1200],
    };
    const without = secondCylinder({ tests: [dry] });
    const late = { ...wet([null, 1150, null, null]), date: "2026-04-20", x: 176_000 };
    expect(secondCylinder({ tests: [dry, late] })).toEqual(without);
    const near = { ...late, date: "2026-04-10" };
    expect(secondCylinder({ tests: [dry, near] }).bottomEnd).toBeGreaterThan(without.bottomEnd);
    const other: TestGiven = { ...dry, date: "2026-03-01", x: 174_000, readings: [1200, 1140, 1200, 1200] };
    expect(cause({ tests: [other, dry, wet([null, 1150, null, null])] }, "rings-or-bore").because.join()).toContain(
      "rose 15 %",
    );
  });

  test("compression that falls as the leak demands is no fault of the test", () => {
    const lag = (second: number) => ({
      tests: [...leakDowns([[7, 32, 7, 7]]), ...compressions([[1200, second, 1200, 1200]])],
    });
    expect(share(lag(1050), "test-set-up")).toBeLessThan(share(lag(1200), "test-set-up"));
    expect(cause(lag(1050), "test-set-up").because.join()).not.toContain("would cost");
  });

  test("a reading that is only half doubted still counts, and raises the set-up by half", () => {
    const doubt: Doubt = { code: "set-up-not-met", cylinder: null, weight: 0.5, words: "engine cold" };
    const half = (weight: number, doubts: Doubt[]) => ({
      tests: soundLeaks.map((one) => ({ ...one, weight, doubts })),
    });
    const sure = share(half(1, []), "test-set-up");
    expect(share(half(0.5, [doubt]), "test-set-up")).toBeGreaterThan(sure);
    expect(share(half(0.5, [doubt]), "test-set-up")).toBeLessThan(
      share(half(0, [{ ...doubt, weight: 0 }]), "test-set-up"),
    );
  });

  test("a suspect result says less than a fault, and a check of the whole engine less than one of the cylinder", () => {
    const gas = (result: "suspect" | "fault", cylinder: number | null) =>
      share(
        { tests: soundLeaks, checks: [{ date: "2026-05-04", check: "combustion-gas-in-coolant", result, cylinder }] },
        "head-gasket",
      );
    expect(gas("fault", 2)).toBeGreaterThan(gas("fault", null));
    expect(gas("fault", null)).toBeGreaterThan(gas("suspect", null));
    expect(gas("fault", 3)).toBe(share({ tests: soundLeaks }, "head-gasket"));
  });

  test("the last check of a kind counts; one older than a repair or, for clearance, an adjustment does not", () => {
    const lift = { check: "valve-clearance" as const, cylinder: 2 };
    const fault = { ...lift, date: "2026-03-20", result: "fault" as const };
    const clear = { ...lift, date: "2026-04-20", result: "clear" as const };
    const timing = (given: Omit<EngineGiven, "tests">) => share({ ...given, tests: soundLeaks }, "valve-timing");
    expect(timing({ checks: [fault, clear] })).toBe(timing({ checks: [clear] }));
    expect(timing({ checks: [clear, fault] })).toBe(timing({ checks: [clear] }));
    const adjusted = [{ date: "2026-03-25", x: 176_000, scope: "adjustment" as const, cylinders: [2] }];
    expect(timing({ checks: [fault], repairs: adjusted })).toBe(timing({}));
    const repaired = [{ date: "2026-03-25", x: 176_000, scope: "top-end" as const, cylinders: [2] }];
    expect(timing({ checks: [fault], repairs: repaired })).toBe(timing({ repairs: repaired }));
  });
});

describe("what a repair makes of the evidence before it", () => {
  const repair = (scope: "top-end" | "bottom-end" | "complete", found: Cause[] = []) => ({
    repairs: [{ date: "2026-01-10", x: 165_000, scope, cylinders: [2], found }],
  });
  const leaks = (place: "crankcase" | "exhaust") =>
    leakDowns([
      [7, { value: 20, heardAt: [place] }, 7, 7],
      [7, { value: 9, heardAt: [] }, 7, 7],
    ]);
  const because = (given: EngineGiven, which: Cause) => cause(given, which).because.join("; ");

  test("a top-end repair ends the say of an exhaust hiss, not that of crankcase air", () => {
    expect(because({ tests: leaks("exhaust"), ...repair("top-end") }, "exhaust-valve")).not.toContain("exhaust");
    expect(because({ tests: leaks("crankcase"), ...repair("top-end") }, "rings-or-bore")).toContain(
      "before the last repair",
    );
  });

  test("a bottom-end repair ends the say of crankcase air, not that of an exhaust hiss, unless the valve was found", () => {
    expect(because({ tests: leaks("crankcase"), ...repair("bottom-end") }, "rings-or-bore")).not.toContain("crankcase");
    expect(because({ tests: leaks("exhaust"), ...repair("bottom-end") }, "exhaust-valve")).toContain(
      "before the last repair",
    );
    const found = repair("bottom-end", ["exhaust-valve"]);
    expect(because({ tests: leaks("exhaust"), ...found }, "exhaust-valve")).not.toContain("exhaust");
  });

  test("the hiss that a valve job mended does not speak against the rings afterwards", () => {
    const quiet = leakDowns([
      [7, 20, 7, 7],
      [7, 9, 7, 7],
    ]);
    const after = cause({ tests: leaks("exhaust"), ...repair("top-end") }, "rings-or-bore");
    expect(after.probability).toBeCloseTo(
      cause({ tests: quiet, ...repair("top-end") }, "rings-or-bore").probability,
      12,
    );
  });

  test("places heard are those of the present life; a repair of another cylinder changes nothing", () => {
    expect(secondCylinder({ tests: leaks("exhaust") }).heardAt).toEqual(["exhaust"]);
    expect(secondCylinder({ tests: leaks("exhaust"), ...repair("top-end") }).heardAt).toEqual([]);
    expect(secondCylinder({ tests: leaks("crankcase"), ...repair("complete") }).heardAt).toEqual([]);
    const other = { repairs: [{ date: "2026-01-10", x: 165_000, scope: "top-end" as const, cylinders: [1] }] };
    expect(secondCylinder({ tests: leaks("exhaust"), ...other })).toEqual(secondCylinder({ tests: leaks("exhaust") }));
  });
});
