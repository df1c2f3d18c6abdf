import type { CourseLife, CoursePoint, WearCourse } from "@/lib/schema/comparison.ts";

/** A cylinder's life with these readings, all of which count. */
export const life = (
  cylinder: number,
  readings: readonly (readonly [x: number, level: number])[],
  more: Partial<CourseLife> = {},
): CourseLife => ({
  cylinder,
  begunBy: "new",
  fromX: 0,
  current: true,
  points: readings.map(([x, level]): CoursePoint => [x, level, 1]),
  ...more,
});

/** A small leak-down course of a model with two cylinders. */
export const course = (unit: string, lives: readonly CourseLife[], more: Partial<WearCourse> = {}): WearCourse => ({
  unit,
  engine: `${unit} #1`,
  engineModel: "petrol-2",
  modelName: "Petrol two",
  measure: "leak-down",
  meterUnit: "h",
  depot: "Lowmarsh",
  cylinders: 2,
  limit: 30,
  plan: 20,
  watch: 10,
  xNow: 2000,
  lives,
  rates: [],
  ...more,
});

/** The rate of one cylinder, with its range. */
export const rate = (perThousand: number, half = 0.5, cylinder = 1) => ({
  cylinder,
  level: 10,
  perThousand,
  p10: perThousand - half,
  p90: perThousand + half,
});
