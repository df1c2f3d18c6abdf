import { type Run, runsOf } from "../../../lib/comparison/runs.ts";
import type { CoursePoint, WearCourse } from "../../../lib/schema/comparison.ts";
import type { CompareView } from "./address.ts";

/** One line of the chart: a unit, or a cylinder of it. */
export interface CompareLine {
  readonly key: string;
  readonly unit: string;
  /** null: of no single one. */
  readonly cylinder: number | null;
  readonly label: string;
  readonly colour: string;
  readonly square: boolean;
  readonly runs: readonly Run[];
}

/** Lines of the chosen units, in the order chosen. Of one unit every cylinder has its colour, else every unit has. */
export function compareLines(courses: readonly WearCourse[], view: CompareView): CompareLine[] {
  const isOneUnit = courses.length === 1;
  return courses.flatMap((course, place) => {
    const runs = runsOf(course, view.since, view.of);
    const cylinders = [...new Set(runs.map((run) => run.cylinder))].filter(
      (c) => c === null || view.cylinders.length === 0 || view.cylinders.includes(c),
    );
    return cylinders.map((cylinder): CompareLine => {
      const number = cylinder === null || !isOneUnit ? place + 1 : cylinder;
      return {
        key: `${course.unit} ${cylinder ?? ""}`,
        unit: course.unit,
        cylinder,
        label: cylinder === null ? course.unit : `${course.unit} cyl ${cylinder}`,
        colour: `var(--c${((number - 1) % 8) + 1})`,
        square: number > 8 || number % 2 === 0,
        runs: runs.filter((run) => run.cylinder === cylinder && run.points.length > 0),
      };
    });
  });
}

/** Lines of the sisters, for the ground of the chart: only what is compared. */
export function sisterLines(courses: readonly WearCourse[], view: CompareView): (readonly CoursePoint[])[] {
  const chosen = new Set(view.units);
  return courses
    .filter((course) => !chosen.has(course.unit))
    .flatMap((course) => runsOf(course, view.since, view.of))
    .filter((run) => run.compared)
    .map((run) => used(run.points))
    .filter((points) => points.length > 1);
}

/** Readings that count. */
export const used = (points: readonly CoursePoint[]): CoursePoint[] => points.filter(([, , weight]) => weight > 0);

/** The last reading of a line that counts, or where none does the last. */
export function endOf(line: CompareLine): CoursePoint | null {
  const all = line.runs.flatMap((run) => run.points).toSorted((a, b) => a[0] - b[0]);
  return used(all).at(-1) ?? all.at(-1) ?? null;
}
