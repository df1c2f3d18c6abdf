import { describe, expect, test } from "vitest";
import { countStripDowns } from "@/lib/cause/counts.ts";
import { conditionEngine } from "@/lib/condition/condition.ts";
import { engineModelSchema } from "@/lib/schema/engine-model.ts";
import type { FleetFacts, TestFact } from "@/lib/schema/facts.ts";
import type { StripDown } from "@/lib/schema/strip-down.ts";
import { indexFleet } from "@/lib/sealing/seal.ts";
import { casesOfCut } from "@/lib/track/forecast-cases.ts";
import { asOf, backTestFacts, factsOf, madeUpTests, repairOf, settings, testOf } from "./made-up-fleet.ts";

/** A fleet that wears as foreseen, and one unit of which something goes otherwise. */
const sisters = madeUpTests({ engines: 12, seed: 41 });
const dates = ["2023-01-15", "2023-07-15", "2024-01-15", "2024-07-15", "2025-01-15", "2025-07-15", "2026-01-15"];
const steady = [
  [7, 8, 7.5, 8.2],
  [8, 8.5, 8, 9],
  [8.8, 9.5, 9, 9.7],
  [9.6, 10.2, 9.8, 10.5],
];
const odd = (later: readonly (readonly number[])[], meters?: readonly number[]): TestFact[] =>
  [...steady, ...later].map((values, i) => testOf("X-1", dates[i] as string, meters?.[i] ?? 1000 + 700 * i, values));

function reasonsOf(tests: readonly TestFact[], more: Partial<FleetFacts> = {}) {
  const { levels } = backTestFacts(factsOf([...sisters, ...tests], more));
  return levels.flatMap(({ unit, cylinder, made, came, reason }) =>
    unit === "X-1" && reason !== null ? [{ cylinder, made, came, code: reason.code, words: reason.words }] : [],
  );
}

const codes = (some: ReturnType<typeof reasonsOf>) => [...new Set(some.map(({ code }) => code))];

describe("why a forecast missed", () => {
  test("one cylinder got worse at once and stayed so: a fault began after the forecast", () => {
    const found = reasonsOf(
      odd([
        [10, 25, 10.5, 11],
        [11, 27, 11, 12],
      ]),
    );
    expect(codes(found)).toEqual(["fault-began"]);
    expect(found.every(({ cylinder }) => cylinder === 2)).toBe(true);
    expect(found[0]?.words).toBe(
      "A fault began after the forecast: cylinder 2 left its family at the test of 15 Jan 2025",
    );
  });

  test("a whole test off is the set-up where the tests around it make that likelier than not, else it scattered", () => {
    const course = [...steady, [10.5, 11, 10.5, 11.5], [11, 12, 11.5, 12.5], [12, 12.7, 12, 13.2]];
    const off = (points: number) =>
      reasonsOf(
        course.map((row, i) =>
          testOf("X-1", dates[i] as string, 1000 + 700 * i, i === 3 ? row.map((v) => v + points) : row),
        ),
      ).filter(({ came }) => came === dates[3]);
    expect(codes(off(7))).toEqual(["set-up"]);
    expect(off(7)[0]?.words).toMatch(
      /^All cylinders read worse on 15 Jul 2024 than their other tests let expect: .+ \(\d+ %\)$/,
    );
    expect(codes(off(5.5))).toEqual(["scatter"]);
    // The next test as far off on the other side was not back.
    const across = course.map((row, i) => row.map((v) => v + (i === 3 ? 5.5 : i === 4 ? -4.5 : 0)));
    const tests = across.map((row, i) => testOf("X-1", dates[i] as string, 1000 + 700 * i, row));
    const after = reasonsOf(tests).filter(({ came }) => came === dates[3]);
    expect(after.length).toBeGreaterThan(0);
    expect(after.filter(({ code }) => code === "scatter")).toEqual([]);
  });

  test("all cylinders read worse alike, and no more than tests do: not the set-up, unless the tests show it", () => {
    const stay = reasonsOf(
      odd([
        [18, 19, 18, 19.5],
        [22, 23, 22, 23.5],
        [25, 26, 25, 26.5],
      ]),
    ).filter(({ came }) => came === dates[4]);
    expect(codes(stay)).not.toContain("set-up");
    const rate = stay.filter(({ code }) => code === "rate-changed");
    expect(rate.length).toBeGreaterThan(0);
    expect(rate[0]?.words).toContain("All cylinders got worse faster");
  });

  test("no further beyond its range than a reading repeats to: within the scatter", () => {
    const stay = reasonsOf(
      odd([
        [17, 18, 17, 18.5],
        [18, 19, 18, 19.5],
      ]),
    ).filter(({ came }) => came === dates[4]);
    expect(codes(stay)).toEqual(["within-scatter"]);
    const [, beyond, sd] = /^Only (.+) points beyond its range, where a reading repeats to (.+) points$/.exec(
      stay[0]?.words ?? "",
    ) as RegExpExecArray;
    expect(Number(beyond)).toBeLessThanOrEqual(Number(sd));
  });

  test("all got better for good with no repair on file, by less than a person is asked about: a repair not recorded", () => {
    const worn = [
      [17, 17.5, 17.2, 17.6],
      [18, 18.2, 18, 18.4],
      [18.8, 19, 18.9, 19.2],
      [19.5, 19.8, 19.6, 20],
      [12.4, 12.6, 12.4, 12.7],
      [12.9, 13.2, 13, 13.3],
      [13.4, 13.8, 13.6, 14],
    ];
    const tests = worn.map((values, i) => testOf("X-1", dates[i] as string, 1000 + 700 * i, values));
    const across = reasonsOf(tests).filter(({ made, came }) => made < "2025-01-15" && came >= "2025-01-15");
    expect(across.length).toBeGreaterThan(0);
    expect(codes(across)).toEqual(["repair-not-recorded"]);
    expect(across[0]?.words).toMatch(/^Got better at once, from .+ to .+ %, by the test of 15 Jan 2025, and no repair/);
    // With the repair on file it begins another life, and no forecast is held against what came after it.
    const repairs = [repairOf("X-1", "2024-12-01", 3700)];
    expect(reasonsOf(tests, { repairs }).filter(({ made, came }) => made < "2024-12" && came > "2024-12")).toEqual([]);
  });

  test("a tester that read high on every engine for a while is named, and not each test alone", () => {
    const [from, until] = ["2023-09-01", "2024-12-01"];
    const isOff = ({ date }: { date: string }) => date >= from && date < until;
    const drifted = madeUpTests({ engines: 14, seed: 41, start: 10 }).map((t) => ({
      ...t,
      readings: t.readings.map((r) => ({ ...r, value: r.value + (isOff(t) ? 9 : 0) })),
    }));
    const { levels } = backTestFacts(factsOf(drifted));
    const missed = levels.filter(
      ({ reason, z, made, came }) => reason !== null && z > 0 && made < from && isOff({ date: came }),
    );
    const named = missed.filter(({ reason }) => reason?.code === "instrument-off");
    expect(missed.length).toBeGreaterThan(10);
    expect(named.length).toBeGreaterThan(0.8 * missed.length);
    expect(named[0]?.reason?.words).toMatch(
      /^The test of .+ was made with tester A, which read about \d+ points high then, on 14 engines alike$/,
    );
    // What was foretold by such a test and came lower is its fault as well.
    const after = levels.filter(({ made, came, z }) => isOff({ date: made }) && came >= until && z < 0);
    expect(
      after.map(({ reason }) => reason?.words ?? "").filter((w) => w.startsWith("The forecast rests on")),
    ).not.toEqual([]);
  });

  test("one reading was off, and the next was back where it was foretold: scatter", () => {
    const found = reasonsOf(
      odd([
        [10, 17, 10.5, 11],
        [11, 11.5, 11, 12],
      ]),
    ).filter(({ came }) => came === dates[4]);
    expect(codes(found)).toEqual(["scatter"]);
    expect(found[0]?.words).toContain("the test of 15 Jul 2025 was back");
  });

  test("a strip-down found the other class: the wrong cause", () => {
    const tests = odd([[10, 25, 10.5, 11]]).map((t) => ({
      ...t,
      readings: t.readings.map((r) => ({ ...r, heardAt: r.cylinder === 2 ? (["crankcase"] as const) : [] })),
    }));
    const repair = repairOf("X-1", "2025-02-01", 3900, {
      scope: "top-end",
      cylinders: [2],
      found: ["exhaust-valve"],
      findings: [{ cylinder: 2, causes: ["exhaust-valve"] }],
    });
    const found = reasonsOf(tests, { repairs: [repair] });
    expect(codes(found)).toEqual(["wrong-cause"]);
    expect(found[0]?.words).toContain("bottom-end");
  });

  test("repaired before its window began: what came is the last test before", () => {
    const repair = repairOf("X-1", "2025-02-01", 3900, { scope: "top-end", cylinders: [2] });
    const found = reasonsOf(odd([[10, 25, 10.5, 11]]), { repairs: [repair] });
    expect(codes(found)).toEqual(["repaired-early"]);
  });

  test("a unit that worked otherwise than foreseen", () => {
    const meters = [1000, 1700, 2400, 3100, 6800];
    const found = reasonsOf(odd([[13, 30, 13, 14]], meters));
    expect(found.map(({ code }) => code)).toContain("use-changed");
    expect(found.find(({ code }) => code === "use-changed")?.words).toMatch(/Worked \d+ % more than foreseen/);
  });
});

test("no limit changed where what the fleet's strip-downs taught says the same of the cylinder before and after", () => {
  const limits = { watchPercent: 10, planPercent: 20, limitPercent: 30 };
  const valves = { watchPercent: 8, planPercent: 12, limitPercent: 25 };
  const model = engineModelSchema.parse({ id: "made-up-4", cylinders: 4, leakDown: { ...limits, valves } });
  // Heard at the exhaust: by the starting table a valve, by what three hundred strip-downs found still the rings.
  const tests = odd([
    [24, 25, 24.5, 25],
    [34, 36, 34, 35],
    [39, 41, 39, 40],
  ]).map((t) => ({
    ...t,
    readings: t.readings.map((r) => (r.cylinder === 2 ? { ...r, heardAt: ["exhaust" as const] } : r)),
  }));
  const facts = factsOf(tests, { models: [model] });
  const found = (count: number) => {
    const opened = Array.from(
      { length: count },
      (_, i): StripDown => ({
        engine: `E-${i}`,
        unit: `E-${i}`,
        engineModel: model.id,
        meterUnit: "h",
        date: "2022-01-01",
        cylinder: 1,
        scope: "complete",
        found: ["rings-or-bore"],
        tested: true,
        seen: [],
        asked: [],
      }),
    );
    const causes = [{ engineModel: model.id, meterUnit: "h" as const, counts: countStripDowns(opened) }];
    const index = indexFleet(facts, { asOf });
    const date = "2024-07-15";
    const then = indexFleet(facts, { asOf: date });
    const cases = casesOfCut({
      now: conditionEngine(index.seal(index.engineKeys[0] as string)),
      then,
      beforeOpening: false,
      unit: "X-1",
      date,
      pools: { wear: [], use: [], causes },
      settings,
      interval: null,
      biases: [],
    });
    return cases.limits.find(({ cylinder }) => cylinder === 2);
  };
  expect(found(0)).toMatchObject({ limit: 25 });
  const learned = found(300);
  expect(learned).toMatchObject({ limit: 30 });
  expect(learned?.reason).not.toBeNull();
  expect(learned?.reason?.code).not.toBe("limit-changed");
});
