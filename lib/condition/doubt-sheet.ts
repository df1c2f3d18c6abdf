import type { EngineHistory } from "../sealing/types.ts";
import type { Doubt } from "./types.ts";

/** Doubts and weights while they are being gathered; both by index into `history.tests`. */
export interface DoubtSheet {
  readonly history: EngineHistory;
  readonly doubts: readonly Doubt[][];
  /** One for each reading of the test. */
  readonly weights: readonly number[][];
}

export function blankDoubtSheet(history: EngineHistory): DoubtSheet {
  return {
    history,
    doubts: history.tests.map(() => []),
    weights: history.tests.map((test) => test.readings.map(() => 1)),
  };
}

/** Notes a doubt and takes its weight from the test's readings, or from the one of its cylinder. */
export function noteDoubt(sheet: DoubtSheet, test: number, doubt: Doubt): void {
  const weights = sheet.weights[test];
  const readings = sheet.history.tests[test]?.readings;
  if (weights === undefined || readings === undefined) throw new RangeError(`no test ${test}`);
  sheet.doubts[test]?.push(doubt);
  for (const [r, { cylinder }] of readings.entries()) {
    if (doubt.cylinder === null || doubt.cylinder === cylinder) weights[r] = (weights[r] as number) * doubt.weight;
  }
}

/** Notes a doubt that concerns some cylinders: as one of the whole test where it concerns all that were measured. */
export function noteDoubtOfCylinders(
  sheet: DoubtSheet,
  test: number,
  cylinders: readonly number[],
  doubt: Omit<Doubt, "cylinder">,
): void {
  if (cylinders.length === sheet.history.tests[test]?.readings.length)
    noteDoubt(sheet, test, { ...doubt, cylinder: null });
  else for (const cylinder of cylinders) noteDoubt(sheet, test, { ...doubt, cylinder });
}
