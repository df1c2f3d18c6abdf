import { compareSisters, sisterOf } from "@/lib/comparison/model-comparison.ts";
import { namedChains, sharedSteps } from "@/lib/comparison/shared-steps.ts";
import { engineLines, makeBand } from "@/lib/comparison/sister-band.ts";
import { comparingTested, testedUnitOf } from "@/lib/comparison/tester-comparison.ts";
import type { Figure, Origin, TesterCourse, WearCourse } from "@/lib/schema/comparison.ts";
import type { JudgedMeasure } from "@/lib/schema/words.ts";
import { inOneGo } from "@/lib/steps.ts";

/** Comparisons made of courses at once, with nothing kept from before. */

export function compareModel(courses: readonly WearCourse[]) {
  const made = compareSisters(courses.map(sisterOf));
  return made === null ? null : { comparison: made.comparison, rates: made.rates };
}

export function sisterBand(courses: readonly WearCourse[], origin: Origin, figure: Figure) {
  const engines = courses.map((course) => engineLines(course, origin, figure)).filter((lines) => lines !== null);
  return makeBand(engines, { origin, figure }).band;
}

/** `courses`: those of a unit one after another. */
function unitsOf(courses: readonly TesterCourse[]): TesterCourse[][] {
  const byUnit = new Map<string, TesterCourse[]>();
  for (const course of courses) byUnit.set(course.unit, [...(byUnit.get(course.unit) ?? []), course]);
  return [...byUnit.values()];
}

export const compareTested = (...given: Parameters<typeof comparingTested>) => inOneGo(comparingTested(...given));

export const testedUnits = (measure: JudgedMeasure, courses: readonly TesterCourse[]) =>
  unitsOf(courses).map((of) => testedUnitOf(measure, of));

export const compareTesters = (measure: JudgedMeasure, courses: readonly TesterCourse[]) =>
  compareTested(measure, testedUnits(measure, courses)).comparison;

export const stepsOf = (measure: JudgedMeasure, courses: readonly TesterCourse[]) =>
  inOneGo(
    sharedSteps(
      measure,
      unitsOf(courses).flatMap((of) => namedChains(measure, of)),
    ),
  ).steps;
