import { describe, expect, test } from "vitest";
import { seededRandom } from "@/demo-data/random.ts";
import { addDays } from "@/lib/calendar.ts";
import type { TesterCourse, TesterTest } from "@/lib/schema/comparison.ts";
import { stepsOf } from "./whole.ts";

const change = "2025-09-01";

interface Given {
  readonly units: number;
  readonly measure?: TesterCourse["measure"];
  /** What is added to a test's level, points or %. */
  readonly added?: (unit: number, test: { readonly date: string }) => number;
  readonly instrument?: (date: string) => string | null;
  readonly orificeMm?: (date: string) => number | null;
  readonly begunBy?: TesterCourse["begunBy"];
  readonly seed?: number;
}

/** Units of one depot with eight tests each, half a year apart; split where the level steps, as condition splits them. */
function depot({ units, added, instrument, orificeMm, begunBy = "step", measure = "leak-down", seed = 3 }: Given) {
  const random = seededRandom(seed);
  return Array.from({ length: units }, (_, u): TesterCourse[] => {
    const tests = Array.from({ length: 8 }, (_, t): TesterTest => {
      const date = addDays("2023-01-10", 180 * t + random.whole(0, 60));
      return {
        x: 10_000 * t,
        date,
        instrument: instrument?.(date) ?? null,
        orificeMm: orificeMm?.(date) ?? null,
        depot: "Midfell",
        testedBy: null,
        above: random.normal(0, 1.2) + (added?.(u, { date }) ?? 0),
        sd: 1.7,
      };
    });
    const usual = measure === "leak-down" ? 15 : 1150;
    const common = { unit: `U-${u}`, engine: `E-${u}`, measure, rate: 1e-5, rateSd: 1e-5, usual };
    return [
      { ...common, begunBy: null, tests: tests.filter((t) => t.date < change) },
      { ...common, begunBy, tests: tests.filter((t) => t.date >= change) },
    ];
  }).flat();
}

describe("steps that many units take together", () => {
  test("a depot whose readings fall on one day, with no bore noted since: asked as another tester", () => {
    const courses = depot({
      units: 5,
      added: (_, { date }) => (date >= change ? -11 : 0),
      orificeMm: (date) => (date < change ? 1.016 : null),
    });
    const [step, ...others] = stepsOf("leak-down", courses);
    expect(others).toEqual([]);
    expect(step).toMatchObject({ of: "depot", name: "Midfell", engines: 5, boreNotNoted: true });
    expect(step?.units).toEqual(["U-0", "U-1", "U-2", "U-3", "U-4"]);
    expect(step?.mean).toBeGreaterThan(-13);
    expect(step?.mean).toBeLessThan(-9);
    expect((step?.date ?? "") >= change).toBe(true);
  });
  test("a gauge that reads low on every unit since a date is told by its name, once", () => {
    const courses = depot({
      units: 6,
      measure: "compression-dry",
      instrument: () => "CG-4",
      added: (_, { date }) => (date >= change ? -9 : 0),
    });
    const steps = stepsOf("compression-dry", courses);
    expect(steps).toMatchObject([{ of: "instrument", name: "CG-4", engines: 6 }]);
    expect(steps[0]?.mean).toBeCloseTo(-9, -1);
  });
  test("a depot's new instrument is named", () => {
    const courses = depot({
      units: 6,
      instrument: (date) => (date >= change ? "LT-9" : "LT-1"),
      added: (_, { date }) => (date >= change ? 7 : 0),
    });
    expect(stepsOf("leak-down", courses)).toMatchObject([{ of: "depot", newInstruments: ["LT-9"] }]);
  });
  test("not of three units, of half of them, of a little, or of repairs on file", () => {
    const fall = (_: number, { date }: { readonly date: string }) => (date >= change ? -11 : 0);
    expect(stepsOf("leak-down", depot({ units: 3, added: fall }))).toEqual([]);
    expect(stepsOf("leak-down", depot({ units: 6, added: fall, begunBy: "repair" }))).toEqual([]);
    expect(stepsOf("leak-down", depot({ units: 8, added: (u, t) => (u % 2 === 0 ? fall(u, t) : 0) }))).toEqual([]);
    expect(stepsOf("leak-down", depot({ units: 8, added: (u, t) => fall(u, t) / 11 }))).toEqual([]);
  });
  test("nothing of depots where nothing happened", () => {
    for (let seed = 1; seed <= 40; seed++) expect(stepsOf("leak-down", depot({ units: 8, seed }))).toEqual([]);
  });
});
