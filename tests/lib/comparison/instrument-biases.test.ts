import { describe, expect, test } from "vitest";
import { seededRandom } from "@/demo-data/random.ts";
import { assessUnit } from "@/lib/assess.ts";
import { fitPools } from "@/lib/assessment/pools.ts";
import { addDays } from "@/lib/calendar.ts";
import { fitFleet, instrumentBiases, settledBiases } from "@/lib/comparison/instrument-biases.ts";
import type { InstrumentBias, SharedStep, TesterComparison, TesterOffset } from "@/lib/schema/comparison.ts";
import type { JudgementFact, TestFact } from "@/lib/schema/facts.ts";
import { indexFleet } from "@/lib/sealing/seal.ts";
import { dry, leakDown, petrol4, settings } from "../assessment/made-up-fleet.ts";
import { fleet, judgementFact, unitFact } from "../sealing/facts.ts";

const asOf = "2026-06-30";
const since = "2025-01-01";

/** Units tested by one gauge each half year, the last time on 2026-04; compression is `share` lower since the date. */
function gaugeFleet({ share = 0.91, units = 8 }: { readonly share?: number; readonly units?: number } = {}) {
  const random = seededRandom(7);
  return Array.from({ length: units }, (_, u): TestFact[] =>
    Array.from({ length: 8 }, (_, t) => {
      const date = addDays("2022-10-05", 182 * t + random.whole(0, 20));
      const shared = random.normal(0, 8);
      const off = date >= since ? share : 1;
      const values = [1, 2, 3, 4].map(() => Math.round(off * (1180 - 3 * t + shared + random.normal(0, 8))));
      const at = { unit: `V-${101 + u}`, instrument: "gauge G-7", depot: "Lowmarsh" };
      return [
        dry(date, 20_000 + 9000 * t, values, at),
        leakDown(date, 20_000 + 9000 * t, [6, 6, 7, 6], { ...at, instrument: "tester L-1" }),
      ];
    }).flat(),
  ).flat();
}

function assessed(tests: readonly TestFact[], judgements: readonly JudgementFact[] = []) {
  const units = [...new Set(tests.map(({ unit }) => unit))].map((unit) => unitFact({ unit, engineModel: petrol4.id }));
  const index = indexFleet(fleet({ models: [petrol4], units, tests, judgements }), { asOf });
  const plain = fitPools(index, asOf);
  const pools = fitFleet(index, asOf);
  const unit = index.units.find((one) => one.unit === "V-103");
  if (unit === undefined) throw new Error("no V-103");
  const told = assessUnit(index, unit, { asOf, settings, pools });
  return { pools, plain, index, unit, told };
}

const doubtsOf = ({ told }: ReturnType<typeof assessed>) =>
  told.state.conditioned.tests.filter(({ doubts }) => doubts.some(({ code }) => code === "instrument-off"));
const compressionOf = ({ told }: Pick<ReturnType<typeof assessed>, "told">) =>
  told.assessment.cylinders[0]?.measures.find(({ measure }) => measure === "compression-dry");

describe("a gauge that reads low on every unit since a date", () => {
  const fleetOf = assessed(gaugeFleet());

  test("is found once, with its date and its size", () => {
    expect(fleetOf.pools.biases).toMatchObject([
      { measure: "compression-dry", of: "instrument", name: "gauge G-7", until: null, engines: 8 },
    ]);
    const [bias] = fleetOf.pools.biases ?? [];
    expect(bias?.mean).toBeCloseTo(-9, -0.5);
    expect(bias?.from?.slice(0, 4)).toBe("2025");
    expect(bias?.probability).toBeGreaterThan(0.95);
  });

  test("is a doubt of each of the unit's own tests made with it since, by name and with its probability", () => {
    const doubted = doubtsOf(fleetOf);
    expect(doubted).toHaveLength(3);
    for (const { test: made, weights, doubts } of doubted) {
      expect(made.measure).toBe("compression-dry");
      expect(made.date >= since).toBe(true);
      expect(doubts).toHaveLength(1);
      expect(doubts[0]?.words).toMatch(
        /^gauge G-7 has read about \d+ % low since \d+ \w+ 2025, on 8 engines alike \(.* likely a fault of the instrument\): hardly used/,
      );
      for (const weight of weights) expect(weight).toBeLessThan(0.2);
    }
  });

  test("the level of its cylinders is that of the sound tests, and the last test asks to be made again", () => {
    const without = assessUnit(fleetOf.index, fleetOf.unit, { asOf, settings, pools: fleetOf.plain });
    expect(compressionOf({ told: without })?.level).toBeLessThan(1110);
    expect(compressionOf(fleetOf)?.level).toBeGreaterThan(1125);
    expect(fleetOf.told.assessment.inDoubt).toMatchObject([
      { measure: "compression-dry", words: expect.stringContaining("gauge G-7") },
    ]);
  });

  test("with the doubtful tests in full the unit is as without the finding, and without them it rests on the others", () => {
    const { index, unit, pools } = fleetOf;
    const level = (doubtful: "in-full" | "left-out") =>
      compressionOf({ told: assessUnit(index, unit, { asOf, settings, pools, doubtful }) })?.level ?? 0;
    expect(level("in-full")).toBeLessThan(1110);
    expect(level("left-out")).toBeGreaterThan(1140);
  });

  test("a person who accepts such a test overrules the doubt of it", () => {
    const tests = gaugeFleet();
    const [last] = tests.filter((t) => t.unit === "V-103" && t.test === "compression-dry").toReversed();
    if (last === undefined) throw new Error("no test");
    const { unit, date, test: measure, instrument } = last;
    const accepted = judgementFact({ unit, date, test: measure, instrument, verdict: "accepted" });
    const of = assessed(tests, [accepted]);
    const made = of.told.state.conditioned.tests.find(
      ({ test: one }) => one.date === last.date && one.measure === last.test,
    );
    expect(made?.weights).toEqual([1, 1, 1, 1]);
    expect(made?.doubts.some(({ code, words }) => code === "overruled" && words.includes("gauge G-7"))).toBe(true);
  });
});

test("several findings about one test are one doubt of it, and leave the tests that none concerns to go by", () => {
  const { index, unit, pools, plain } = assessed(gaugeFleet());
  const [bias] = pools.biases as [InstrumentBias];
  const both = [{ ...bias, probability: 0.9, from: "2024-09-01" }, bias, { ...bias, probability: 0.95, mean: -6 }];
  const doubts = (biases: readonly InstrumentBias[]) =>
    assessUnit(index, unit, { asOf, settings, pools: { ...plain, biases } }).state.conditioned.tests.flatMap((test) =>
      test.doubts
        .filter(({ code }) => code === "instrument-off")
        .map(({ weight, words }) => [test.test.date, weight, words]),
    );
  const one = doubts([bias]);
  expect(one).toHaveLength(3);
  const told = doubts(both);
  for (const doubt of one) expect(told).toContainEqual(doubt);
  expect(new Set(told.map(([date]) => date)).size).toBe(told.length);
  // Where the findings leave two days of tests alone, none weighs next to nothing.
  const all = [{ ...bias, from: null, until: bias.from, probability: 0.9 }, bias];
  for (const [, weight] of doubts(all)) expect(weight).toBeGreaterThan(0.3);
});

test("a gauge that reads as ever raises no doubt", () => {
  const of = assessed(gaugeFleet({ share: 1 }));
  expect(of.pools).toEqual(of.plain);
  expect(doubtsOf(of)).toEqual([]);
});

const step = (changes: Partial<SharedStep> = {}): SharedStep => ({
  measure: "leak-down",
  of: "depot",
  name: "Midfell",
  date: "2025-03-01",
  mean: -9,
  low: -10.5,
  high: -7.5,
  middle: -9,
  standardError: 0.6,
  jump: { mean: -9, middle: -9, raw: -9, standardError: 0.8, fitted: true },
  alike: 1,
  from: 15,
  to: 6,
  engines: 6,
  units: [],
  boreNotNoted: true,
  newInstruments: ["MF-6"],
  ...changes,
});
const stepBy = (by: number, changes: Partial<SharedStep>): SharedStep =>
  step({
    mean: by,
    low: by - 1.5,
    high: by + 1.5,
    middle: by,
    jump: { mean: by, middle: by, raw: by, standardError: 0.8, fitted: true },
    ...changes,
  });
const offset = (changes: Partial<TesterOffset> = {}): TesterOffset => ({
  instrument: "CG-1",
  orificeMm: null,
  tests: 40,
  engines: 12,
  shared: 12,
  firstUsed: "2023-01-01",
  lastUsed: "2026-01-01",
  depots: [],
  units: [],
  against: ["CG-2", "CG-3"],
  offset: { mean: 7, standardError: 0.8, low: 5.2, high: 8.8, probability: 0.0001 },
  soFar: null,
  verdict: "high",
  ...changes,
});
const comparison = (changes: Partial<TesterComparison>): TesterComparison => ({
  measure: "leak-down",
  testers: [],
  unnamed: 0,
  matters: 1.5,
  steps: [],
  ...changes,
});

describe("what is taken for an instrument that reads off", () => {
  test("a depot's step with a new tester: the tests made with it, with no bore noted", () => {
    expect(instrumentBiases([comparison({ steps: [step()] })])).toMatchObject([
      { of: "depot", name: "Midfell", instruments: ["MF-6"], orificeMm: null, from: "2025-03-01", until: null },
    ]);
  });
  test("a step that a later one takes back ends there, and that one is no fault of its own", () => {
    const back = stepBy(8, { date: "2025-11-20", newInstruments: [] });
    expect(instrumentBiases([comparison({ steps: [step(), back] })])).toMatchObject([
      { from: "2025-03-01", until: "2025-11-20" },
    ]);
  });
  const datesAndMeans = (...by: readonly number[]) => {
    const steps = by.map((one, i) => stepBy(one, { date: `${2020 + i}-03-01` }));
    return instrumentBiases([comparison({ steps })]).map(({ from, until, mean }) => [
      from?.slice(0, 4),
      until?.slice(0, 4),
      mean,
    ]);
  };
  test("one that was put right and drifts again is found again", () => {
    expect(datesAndMeans(-9, 9, -9, 9)).toEqual([
      ["2020", "2021", -9],
      ["2022", "2023", -9],
    ]);
  });
  test("what goes far past nought, or only part of the way back, leaves another offset", () => {
    expect(datesAndMeans(6, -15)).toEqual([
      ["2020", "2021", 6],
      ["2021", undefined, -9],
    ]);
    expect(datesAndMeans(-15, 8)).toEqual([
      ["2020", "2021", -15],
      ["2021", undefined, -7],
    ]);
  });
  test("a step towards the worse only where it is taken back, or something shows that it is no wear", () => {
    expect(datesAndMeans(9)).toEqual([]);
    expect(datesAndMeans(9, -8.5)).toEqual([["2020", "2021", 9]]);
    const of = [comparison({ steps: [stepBy(9, {})] })];
    expect(instrumentBiases(of, () => true)).toMatchObject([{ mean: 9 }]);
    const again = [comparison({ steps: [stepBy(9, {}), stepBy(6, { date: "2025-11-20" })] })];
    expect(instrumentBiases(again, () => true)).toEqual([]);
  });
  test("not where readings do not jump at the date, beside lines on each side", () => {
    const jump = (mean: number, standardError: number) =>
      instrumentBiases([
        comparison({ steps: [step({ jump: { mean, middle: mean, raw: mean, standardError, fitted: true } })] }),
      ]);
    expect(jump(-8, 0.8)).toHaveLength(1);
    expect(jump(-4.5, 0.8)).toEqual([]);
    expect(jump(-8, 2.5)).toEqual([]);
  });
  test("not a step that some engines took and others hardly: they may have failed at about one time", () => {
    const found = (changes: Partial<SharedStep>) => instrumentBiases([comparison({ steps: [step(changes)] })]);
    expect(found({ jump: { mean: -4, middle: -2.6, raw: -4, standardError: 0.8, fitted: true } })).toEqual([]);
    expect(found({ alike: 0.87 })).toEqual([]);
    const { middle: _, ...before } = step();
    expect(instrumentBiases([comparison({ steps: [before] })])).toEqual([]);
  });
  test("an instrument that always reads high beside two others, but not one of two that only each other speaks of", () => {
    expect(
      instrumentBiases([comparison({ measure: "compression-dry", matters: 2.5, testers: [offset()] })]),
    ).toMatchObject([{ of: "instrument", name: "CG-1", from: null, orificeMm: "any", mean: 7 }]);
    expect(instrumentBiases([comparison({ testers: [offset({ against: ["CG-2"] })] })])).toEqual([]);
    expect(instrumentBiases([comparison({ testers: [offset({ verdict: "small" })] })])).toEqual([]);
  });
  test("one in force stays with engines a little less alike, or a little less likely; another one is not found by as much", () => {
    const [inForce] = instrumentBiases([comparison({ steps: [step()] })]) as [InstrumentBias];
    const found = (changes: Partial<SharedStep>, kept: readonly InstrumentBias[]) =>
      instrumentBiases([comparison({ steps: [step(changes)] })], undefined, kept);
    expect(found({ alike: 0.83 }, [inForce])).toMatchObject([{ name: "Midfell" }]);
    expect(found({ alike: 0.83 }, [{ ...inForce, name: "Highcol" }])).toEqual([]);
    expect(found({ alike: 0.83 }, [{ ...inForce, from: "2024-03-01" }])).toEqual([]);
    expect(found({ alike: 0.75 }, [inForce])).toEqual([]);
    const sizes = Array.from({ length: 60 }, (_, i) => -3 - 0.05 * i);
    const only = sizes.flatMap((by) => {
      const jump = { mean: by, middle: by, raw: by, standardError: 1.15, fitted: true };
      const changes = stepBy(by, { engines: 30, jump });
      const stays = found(changes, [inForce]);
      return found(changes, []).length === 0 ? stays : [];
    });
    expect(only).not.toEqual([]);
    for (const { probability } of only) {
      expect(probability).toBeGreaterThanOrEqual(0.4);
      expect(probability).toBeLessThan(0.5);
    }
  });
  test("what is kept stays until something that matters has changed", () => {
    const [kept] = instrumentBiases([comparison({ steps: [step()] })]) as [InstrumentBias];
    const like = (changes: Partial<InstrumentBias>) => settledBiases([{ ...kept, ...changes }], [kept])[0];
    expect(like({ mean: -9.8, engines: 7, from: "2025-02-20" })).toBe(kept);
    expect(like({ mean: -13 })?.mean).toBe(-13);
    expect(like({ until: "2026-01-01" })?.until).toBe("2026-01-01");
    expect(like({ name: "Highcol" })?.name).toBe("Highcol");
  });
});
