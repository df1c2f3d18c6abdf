import { expect, test } from "vitest";
import { assessUnit } from "@/lib/assess.ts";
import { fitPools } from "@/lib/assessment/pools.ts";
import type { FleetFacts, TestFact } from "@/lib/schema/facts.ts";
import { indexFleet } from "@/lib/sealing/seal.ts";
import { type IssuedForecast, issuedRecord } from "@/lib/track/issued.ts";
import { asOf, factsOf, madeUpTests, settings } from "./made-up-fleet.ts";

const tests = madeUpTests({ engines: 24, seed: 31, start: 20, tests: 10 });
const day = "2024-09-30";

/** What was told on the day, by what was known then. */
function issuedOn(facts: FleetFacts): IssuedForecast[] {
  const index = indexFleet(facts, { asOf: day });
  const pools = fitPools(index, day);
  return index.units.map((unit) => {
    const { assessment } = assessUnit(index, unit, { asOf: day, settings, pools });
    const { meter, cylinders, lastTestDate } = assessment;
    return { unit: unit.unit, asOf: day, meter, cylinders, lastTestDate: lastTestDate ?? "" };
  });
}

const span = { assessments: 24, from: day, to: day };
const record = (known: readonly TestFact[], issued: readonly IssuedForecast[]) => {
  const steps = issuedRecord(factsOf(known), issued, { asOf, span });
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
  }
};

const issued = issuedOn(factsOf(tests));

test("what was issued is held against the tests that came after it", () => {
  const of = record(tests, issued);
  expect(of).toMatchObject(span);
  expect(of.outcomes).toBe(24);
  expect(of.levels[0]).toMatchObject({ measure: "leak-down", outcomes: 24, readings: 96 });
  expect(of.levels[0]?.medianError).toBeLessThan(4);
  expect(of.window.held + of.window.missed + of.window.open).toBe(of.forecasts);
  expect(of.window.met).toBeGreaterThan(5);
  expect(of.within.brier).toBeLessThan(0.25);
  expect(of.within.forecasts).toBeGreaterThan(of.within.met);
});

test("where nobody was followed for a year, only those that met their limit are known: no score is told of them", () => {
  const { within } = record(
    tests.filter(({ date }) => date < "2025-09-20"),
    issued,
  );
  expect(within.forecasts).toBe(within.met);
  expect(within).toMatchObject({ brier: null });
});

test("with nothing after it there is nothing to tell, and under 20 outcomes only counts", () => {
  const before = tests.filter(({ date }) => date <= day);
  expect(record(before, issued)).toMatchObject({ forecasts: 0, outcomes: 0, levels: [] });
  const few = record(tests, issued.slice(0, 3));
  expect(few.outcomes).toBe(3);
  expect(few.levels[0]?.medianError).toBeNull();
  expect(few.within.brier).toBeNull();
});

test("it is judged as it was told: another figure in what was issued gives another score", () => {
  const higher = issued.map((one) => ({
    ...one,
    cylinders: one.cylinders.map((c) => ({
      ...c,
      measures: c.measures.map((m) => ({ ...m, level: m.level === null ? null : m.level + 10 })),
    })),
  }));
  const [told, other] = [record(tests, issued), record(tests, higher)];
  expect(other.levels[0]?.medianError).toBeGreaterThan((told.levels[0]?.medianError ?? 0) + 5);
});
