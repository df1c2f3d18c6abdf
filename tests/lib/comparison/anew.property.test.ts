import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { compareSisters, type ModelCompared, sisterOf } from "@/lib/comparison/model-comparison.ts";
import { type TestersCompared, testedUnitOf } from "@/lib/comparison/tester-comparison.ts";
import type { TesterCourse, WearCourse } from "@/lib/schema/comparison.ts";
import { course, life, rate } from "./made-up-courses.ts";
import { compareTested } from "./whole.ts";

/**
 * One unit's news after another, each taken into the comparison that stands: it must be the comparison that is made of all
 * courses at once, to the last digit. What is not of the comparison's document (what it was made from) need not be.
 */

const unitName = (place: number) => `U-${String(place).padStart(2, "0")}`;

/** What comes of a unit: other courses, or none any more. */
const news = <T>(units: number, made: fc.Arbitrary<T>) =>
  fc.array(fc.tuple(fc.nat(units - 1), fc.option(made, { freq: 6 })), { minLength: 6, maxLength: 14 });

describe("sisters", () => {
  const readings = fc
    .array(fc.integer({ min: 0, max: 40 }), { minLength: 1, maxLength: 5 })
    .map((levels) => levels.map((level, i): readonly [number, number] => [400 * i + 10 * (level % 3), level]));
  const wear = fc.record({
    first: readings,
    second: readings,
    repairedAt: fc.option(fc.integer({ min: 200, max: 1200 }), { freq: 3 }),
    speed: fc.option(fc.double({ min: -1, max: 9, noNaN: true }), { freq: 5 }),
    depot: fc.constantFrom("Lowmarsh", "Highcol", null),
  });
  type Wear = typeof wear extends fc.Arbitrary<infer T> ? T : never;
  const courseOf = (unit: string, { first, second, repairedAt, speed, depot }: Wear): WearCourse => {
    const lives = [life(1, first), life(2, second, { current: repairedAt === null })];
    const since = second.map(([x, level]): readonly [number, number] => [x + (repairedAt ?? 0) + 2000, level]);
    if (repairedAt !== null) lives.push(life(2, since, { begunBy: "top-end", fromX: repairedAt + 2000 }));
    return course(unit, lives, { depot, rates: speed === null ? [] : [rate(speed), rate(speed / 2, 0.2, 2)] });
  };

  /** Of few units each is held against the others alone, of many against all: both are gone through. */
  test.each([12, 60])("%i units: the comparison does not tell how it came about", (units) => {
    fc.assert(
      fc.property(fc.array(wear, { minLength: units, maxLength: units }), news(units, wear), (begin, steps) => {
        const courses = new Map(begin.map((of, i) => [unitName(i), courseOf(unitName(i), of)]));
        const parts = new Map([...courses].map(([unit, of]) => [unit, sisterOf(of)]));
        let made: ModelCompared | null = compareSisters([...parts.values()]);
        for (const [place, of] of steps) {
          const unit = unitName(place);
          for (const map of [courses, parts]) map.delete(unit);
          if (of !== null) {
            courses.set(unit, courseOf(unit, of));
            parts.set(unit, sisterOf(courses.get(unit) as WearCourse));
          }
          const ascending = [...parts].toSorted(([a], [b]) => (a < b ? -1 : 1)).map(([, part]) => part);
          made = compareSisters(ascending, made);
          const all = [...courses.values()].toSorted((a, b) => (a.unit < b.unit ? -1 : 1));
          expect(told(made)).toBe(told(compareSisters(all.map(sisterOf))));
        }
      }),
      { numRuns: units > 40 ? 15 : 40 },
    );
  });

  const told = (made: ModelCompared | null) => JSON.stringify([made?.comparison, made?.rates]);
});

describe("instruments", () => {
  const tests = fc.array(
    fc.record({
      instrument: fc.constantFrom("A", "B", "C", null),
      above: fc.double({ min: -9, max: 9, noNaN: true }),
      days: fc.integer({ min: 1, max: 27 }),
    }),
    { minLength: 1, maxLength: 6 },
  );
  const tested = fc.record({ yard: fc.constantFrom("Lowmarsh", "Highcol"), steps: fc.boolean(), tests });
  type Tested = typeof tested extends fc.Arbitrary<infer T> ? T : never;
  /** Each depot has instruments of its own, so that some are joined and others are not. */
  const coursesOf = (unit: string, { yard, steps, tests: all }: Tested): TesterCourse[] => {
    const half = steps ? Math.floor(all.length / 2) : 0;
    return [all.slice(0, half), all.slice(half)].flatMap((some, part): TesterCourse[] =>
      some.length === 0
        ? []
        : [
            {
              ...{ unit, engine: `${unit} #1`, measure: "leak-down", rate: 1.5, rateSd: 0.9, usual: 10 },
              begunBy: part === 0 || half === 0 ? null : "step",
              tests: some.map(({ instrument, above, days }, t) => ({
                x: part * 3 + t / 2,
                date: `202${part * 3 + (t >> 1)}-${t % 2 === 0 ? "03" : "09"}-${String(days).padStart(2, "0")}`,
                instrument: instrument === null ? null : `${yard} ${instrument}`,
                orificeMm: null,
                depot: yard,
                testedBy: null,
                above: above + (part === 0 ? 0 : -9),
                sd: 1.6,
              })),
            },
          ],
    );
  };

  test("the comparison does not tell how it came about", () => {
    const units = 14;
    fc.assert(
      fc.property(fc.array(tested, { minLength: units, maxLength: units }), news(units, tested), (begin, steps) => {
        const courses = new Map(begin.map((of, i) => [unitName(i), coursesOf(unitName(i), of)]));
        const partOf = (of: readonly TesterCourse[]) => testedUnitOf("leak-down", of);
        const parts = new Map([...courses].map(([unit, of]) => [unit, partOf(of)]));
        let made: TestersCompared = compareTested("leak-down", [...parts.values()]);
        for (const [place, of] of steps) {
          const unit = unitName(place);
          for (const map of [courses, parts]) map.delete(unit);
          if (of !== null) {
            courses.set(unit, coursesOf(unit, of));
            parts.set(unit, partOf(courses.get(unit) as TesterCourse[]));
          }
          const byUnit = <T>(map: ReadonlyMap<string, T>) =>
            [...map].toSorted(([a], [b]) => (a < b ? -1 : 1)).map(([, one]) => one);
          made = compareTested("leak-down", byUnit(parts), made);
          const whole = compareTested("leak-down", byUnit(courses).map(partOf));
          expect(JSON.stringify(made.comparison)).toBe(JSON.stringify(whole.comparison));
        }
      }),
      { numRuns: 25 },
    );
  });
});
