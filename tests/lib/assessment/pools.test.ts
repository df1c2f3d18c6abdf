import { describe, expect, test } from "vitest";
import { fitKind, fitKindSteps, fitPools, poolKinds, wearInputOf, wearPoolFor } from "@/lib/assessment/pools.ts";
import { usePoolFor } from "@/lib/assessment/use-pools.ts";
import { addMonths } from "@/lib/calendar.ts";
import { engineSample, fitWearPool } from "@/lib/projection/pool.ts";

import type { FleetFacts } from "@/lib/schema/facts.ts";
import { indexFleet } from "@/lib/sealing/seal.ts";
import { fleet, meterFact, unitFact } from "../sealing/facts.ts";
import { halfYearly, leakDown, petrol4, worn } from "./made-up-fleet.ts";

const asOf = "2026-06-30";
const names = ["V-1", "V-2", "V-3", "V-4"];
const units = names.map((unit) => unitFact({ unit }));
const tests = names.flatMap((unit, i) => halfYearly(worn(5, 5 + i, 1), { unit }));

const indexOf = (facts: Partial<FleetFacts>, on = asOf) =>
  indexFleet(fleet({ models: [petrol4], ...facts }), { asOf: on });
const fitted = (facts: Partial<FleetFacts>, on = asOf) => fitPools(indexOf(facts, on), on);
const leakPool = (facts: Partial<FleetFacts>, on = asOf) => wearPoolFor(fitted(facts, on), petrol4, "leak-down", "km");
const base = leakPool({ units, tests });

describe("the fingerprint of a pool", () => {
  test("is the same for the same data in any order", () =>
    expect(fitted({ units: units.toReversed(), tests: tests.toReversed() })).toEqual(fitted({ units, tests })));

  test("changes with one reading", () => {
    const [first, ...others] = tests;
    if (first === undefined) throw new Error("no test");
    const readings = first.readings.map((r, i) => (i === 0 ? { ...r, value: r.value + 0.5 } : r));
    expect(leakPool({ units, tests: [{ ...first, readings }, ...others] }).fingerprint).not.toBe(base.fingerprint);
  });

  test("changes with an engine more or a test more", () => {
    const prints = [base, leakPool({ units, tests: tests.slice(5) }), leakPool({ units, tests: tests.slice(1) })].map(
      (pool) => pool.fingerprint,
    );
    expect(new Set(prints).size).toBe(3);
  });

  test("does not change with what comes after the as-of date, nor with a unit never tested", () => {
    const later = leakDown("2026-07-01", 103_000, [29, 29, 29, 29], { unit: "V-1" });
    expect(leakPool({ units, tests: [...tests, later] })).toEqual(base);
    expect(leakPool({ units, tests: [...tests, later] }, "2026-07-01").fingerprint).not.toBe(base.fingerprint);
    expect(leakPool({ units: [...units, unitFact({ unit: "V-9" })], tests })).toEqual(base);
  });

  test("differs between measures and meter units that have no data at all", () => {
    const { wear } = fitted({ units: [...units, unitFact({ unit: "H-1", meterUnit: "h" })] });
    expect(wear.map((p) => `${p.measure} ${p.meterUnit}`)).toHaveLength(4);
    expect(new Set(wear.map((p) => p.fingerprint)).size).toBe(4);
  });
});

describe("what a pool learns", () => {
  test("counts the engines and tests that it was fitted on", () => expect([base.engines, base.tests]).toEqual([4, 20]));

  test("nothing without a test: the starting values", () =>
    expect(leakPool({ units })).toEqual(fitWearPool(petrol4, "leak-down", "km", [])));

  test("no rate from engines tested once: that of the starting values", () => {
    const once = leakPool({ units, tests: tests.filter((t) => t.date === "2026-06-01") });
    const [learnt, prior] = [once, fitWearPool(petrol4, "leak-down", "km", [])].map((pool) =>
      pool.shapes.find((shape) => shape.power === 1),
    );
    expect(once.engines).toBe(4);
    // One test of a worn engine says that level or rate is high, not which: the rate stays within what was held of it.
    expect(Math.abs((learnt?.rateMean ?? 0) / (prior?.rateMean ?? 1) - 1)).toBeLessThan(1);
    expect(learnt?.levelMean).not.toBe(prior?.levelMean);
  });

  test("the more engines, the nearer to what they say", () => {
    // A point each 9,000 km, three times what the starting values expect.
    const truth = 1 / 9000;
    const [none, one, all] = [0, 5, 20].map((count) =>
      Math.abs(leakPool({ units, tests: tests.slice(0, count) }).rateMean - truth),
    );
    expect(one).toBeLessThan(none ?? 0);
    expect(all).toBeLessThan(one ?? 0);
  });

  test("an improvement that nobody explained breaks the course of all cylinders", () => {
    const stepped = halfYearly([...worn(3, 24, 1), ...worn(3, 6, 0).map(() => [6, 27, 27, 27])], { unit: "V-1" });
    const index = indexOf({ units, tests: stepped });
    const history = index.seal("V-1 #1");
    expect(wearInputOf(history)["leak-down"].observations.segments.map((s) => s.cylinder)).toEqual([
      1, 1, 2, 2, 3, 3, 4, 4,
    ]);
  });
});

describe("a pool where none was fitted", () => {
  const none = { wear: [], use: [], causes: [] };

  test("is the starting values", () =>
    expect(wearPoolFor(none, petrol4, "compression-dry", "h")).toEqual(
      fitWearPool(petrol4, "compression-dry", "h", []),
    ));

  test("is not borrowed from another model, measure or meter unit", () => {
    const pools = fitted({ units, tests });
    expect(wearPoolFor(pools, petrol4, "leak-down", "km")).toBe(pools.wear[0]);
    expect(wearPoolFor(pools, petrol4, "leak-down", "mi").engines).toBe(0);
    expect(wearPoolFor(pools, { ...petrol4, id: "other" }, "leak-down", "km").engines).toBe(0);
    expect(usePoolFor(pools, petrol4, "km").units).toBe(4);
    expect(usePoolFor(pools, petrol4, "mi").units).toBe(0);
    expect(usePoolFor(none, petrol4, "km").units).toBe(0);
  });
});

describe("use of a class", () => {
  const working = (unit: string, unitClass: string | null, perDay: number) => ({
    unit: unitFact({ unit, class: unitClass }),
    tests: halfYearly(worn(3, 8, 0), { unit }).map((t, i) => ({ ...t, meter: 1000 + 182 * perDay * i })),
  });
  const made = [
    ...["A", "B", "C"].map((unit, i) => working(unit, "post", 150 + i)),
    ...["D", "E", "F", "G"].map((unit, i) => working(unit, "yard", 20 + i)),
    working("H", "pool", 60),
  ];
  const pools = fitted({ units: made.map((m) => m.unit), tests: made.flatMap((m) => m.tests) });
  const perDay = (unitClass: string | null) =>
    Math.exp(usePoolFor(pools, petrol4, "km", { class: unitClass, depot: null }).logMean);

  test("is its own where three of it or more have worked, else the model's", () => {
    expect(perDay("post")).toBeGreaterThan(140);
    expect(perDay("yard")).toBeLessThan(30);
    expect(usePoolFor(pools, petrol4, "km", { class: "yard", depot: null }).units).toBe(4);
    expect(usePoolFor(pools, petrol4, "km", { class: "pool", depot: null }).units).toBe(8);
    expect(usePoolFor(pools, petrol4, "km", { class: "unheard-of", depot: null }).units).toBe(8);
    expect(usePoolFor(pools, petrol4, "km").units).toBe(8);
  });

  test("of pools that were kept before there were classes is the model's", () => {
    const kept = { ...pools, use: pools.use.map(({ classes, ...pool }) => pool) };
    expect(usePoolFor(kept, petrol4, "km", { class: "post", depot: null }).units).toBe(8);
  });
});

describe("the season of a depot", () => {
  const months = Array.from({ length: 49 }, (_, month) => addMonths("2022-05-01", month));
  const shares = { summer: [0.5, 1.2, 1.5, 0.8], winter: [1.5, 0.8, 0.5, 1.2] } as const;
  const made = [
    ...["A", "B", "C", "D"].map((unit) => ({ unit, depot: "Highcol", class: "plough", works: "winter" as const })),
    ...["E", "F", "G", "H"].map((unit) => ({ unit, depot: "Lowmarsh", class: "mower", works: "summer" as const })),
    ...["I", "J", "K"].map((unit) => ({ unit, depot: "Midfell", class: "mower", works: "summer" as const })),
    { unit: "L", depot: "Farend", class: "mower", works: "winter" as const },
  ];
  const readings = made.flatMap(({ unit, works }, u) => {
    let meter = 1000;
    return months.map((date, i) => {
      const quarter = Math.floor((Number(months[i - 1]?.slice(5, 7) ?? 1) - 1) / 3);
      if (i > 0) meter += Math.round((900 + 40 * u) * (shares[works][quarter] ?? 1) * (1 + 0.02 * ((7 * i + u) % 5)));
      return meterFact({ unit, date, meter });
    });
  });
  const pools = fitted({
    units: made.map(({ unit, depot, class: unitClass }) => unitFact({ unit, depot, class: unitClass })),
    meterReadings: readings,
  });
  const firstQuarter = (depot: string | null, unitClass: string | null = null) =>
    usePoolFor(pools, petrol4, "km", { class: unitClass, depot }).season?.[0] ?? 1;

  test("is its own where its units part from the others', and the others go by what is left", () => {
    expect(firstQuarter("Highcol")).toBeGreaterThan(1.3);
    expect(firstQuarter("Lowmarsh")).toBeLessThan(0.6);
    expect(firstQuarter("Midfell")).toBeLessThan(0.7);
  });

  test("is not told from fewer than three units, nor for a unit without a depot", () => {
    const [kind] = pools.use;
    expect(kind?.depots?.map(({ name }) => name)).not.toContain("Farend");
    expect(firstQuarter("Farend")).toBe(firstQuarter(null));
  });

  test("goes with the class where this shows one of its own", () => {
    expect(firstQuarter("Highcol", "plough")).toBeGreaterThan(1.3);
    expect(firstQuarter("Lowmarsh", "mower")).toBeLessThan(0.7);
  });

  test("of pools that were kept before there were any is the kind's", () => {
    const kept = { ...pools, use: pools.use.map(({ depots, classes, ...pool }) => pool) };
    expect(usePoolFor(kept, petrol4, "km", { class: null, depot: "Highcol" }).season).toBe(pools.use[0]?.season);
  });
});

describe("kinds of engines", () => {
  test("one for each model and meter unit, in the order of their first unit", () => {
    const other = { ...petrol4, id: "petrol-4-b" };
    const mixed = [
      unitFact({ unit: "A", engineModel: "petrol-4-b" }),
      unitFact({ unit: "B" }),
      unitFact({ unit: "C", meterUnit: "h" }),
      unitFact({ unit: "D", engineModel: "petrol-4-b" }),
    ];
    const kinds = poolKinds(indexOf({ models: [petrol4, other], units: mixed }).units);
    expect(kinds.map((k) => [k.model.id, k.meterUnit, k.units.map((u) => u.unit)])).toEqual([
      ["petrol-4-b", "km", ["A", "D"]],
      ["petrol-4-a", "km", ["B"]],
      ["petrol-4-a", "h", ["C"]],
    ]);
  });

  test("its engines ascend, whichever units they are in", () => {
    const [kind] = poolKinds(
      indexOf({ units: [unitFact({ unit: "A", engineSerial: "Z-9" }), unitFact({ unit: "B", engineSerial: "C-1" })] })
        .units,
    );
    expect(kind?.engines).toEqual(["C-1", "Z-9"]);
  });

  test("of very many engines a fixed number is sampled, evenly, the same each time", () => {
    const many = Array.from({ length: 2 * engineSample + 1 }, (_, i) => unitFact({ unit: `V-${1000 + i}` }));
    const [kind] = poolKinds(indexOf({ units: many }).units);
    const [again] = poolKinds(indexOf({ units: many.toReversed() }).units);
    const engines = kind?.engines ?? [];
    expect(engines).toHaveLength(engineSample);
    expect(new Set(engines).size).toBe(engineSample);
    expect(engines).toEqual(engines.toSorted());
    expect(engines).toEqual(again?.engines);
    expect(engines.filter((key) => key < `V-${1000 + engineSample}`)).toHaveLength(engineSample / 2);
  });

  test("fitted one by one they give the pools of the fleet", () => {
    const index = indexOf({ units, tests });
    const [kind] = poolKinds(index.units);
    if (kind === undefined) throw new Error("no kind");
    const inputs = kind.engines.map((key) => wearInputOf(index.seal(key)));
    expect(fitKind(kind, inputs, [], asOf)).toEqual(fitPools(index, asOf));
    // By steps it comes to the same.
    const steps = fitKindSteps(kind, inputs, [], asOf);
    let count = 0;
    let step = steps.next();
    for (; !step.done; step = steps.next()) count += 1;
    expect(count).toBeGreaterThanOrEqual(10);
    expect(step.value).toEqual(fitPools(index, asOf));
  });
});
