import type { EngineModel } from "../schema/engine-model.ts";
import type { Settings } from "../schema/settings.ts";
import type { JudgedMeasure } from "../schema/words.ts";

export type TestTime = Pick<Settings, "testReadyHours" | "testCylinderMinutes">;

/** The kinds of test that an engine of a model is judged by, and so is tested with on a round. */
export const testsOf = ({ leakDown, compression }: Pick<EngineModel, "leakDown" | "compression">): JudgedMeasure[] => [
  ...(leakDown === undefined ? [] : (["leak-down"] as const)),
  ...(compression === undefined ? [] : (["compression-dry"] as const)),
];

/**
 * A technician's hours for the tests of one engine: to get it ready once, and for every cylinder as often as there are
 * kinds of test.
 */
export const testHours = (
  model: Pick<EngineModel, "leakDown" | "compression" | "cylinders">,
  { testReadyHours, testCylinderMinutes }: TestTime,
): number => testReadyHours + (testsOf(model).length * model.cylinders * testCylinderMinutes) / 60;

/**
 * Working days that hours take at a depot; null: it has not told both figures, or nobody works there.
 *
 * @param technicians who share the work
 * @param productiveHoursPerDay of each of them
 */
export function workingDays(
  hours: number,
  { technicians, productiveHoursPerDay }: { technicians: number | null; productiveHoursPerDay: number | null },
): number | null {
  if (technicians === null || productiveHoursPerDay === null || technicians === 0) return null;
  return hours / (technicians * productiveHoursPerDay);
}
