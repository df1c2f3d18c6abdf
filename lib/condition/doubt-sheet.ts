import type { EngineHistory } from "../sealing/types.ts";
import { isAccepted } from "./judgement-of.ts";
import { type ReadingErrors, usualErrors } from "./reading-errors.ts";
import type { Doubt } from "./types.ts";

/** Doubts and weights while they are being gathered; both by index into `history.tests`. */
export interface DoubtSheet {
  readonly history: EngineHistory;
  readonly doubts: readonly Doubt[][];
  /** One for each reading of the test. */
  readonly weights: readonly number[][];
  /** What readings repeat to. */
  readonly errors: ReadingErrors;
}

export function blankDoubtSheet(history: EngineHistory, errors: ReadingErrors = usualErrors): DoubtSheet {
  return {
    history,
    doubts: history.tests.map(() => []),
    weights: history.tests.map((test) => test.readings.map(() => 1)),
    errors,
  };
}

/**
 * Notes a doubt and takes its weight from the test's readings, or from the one of its cylinder; not from those that a
 * person accepted, where it is told as overruled.
 */
export function noteDoubt(sheet: DoubtSheet, test: number, doubt: Doubt): void {
  const of = sheet.history.tests[test];
  const weights = sheet.weights[test];
  const doubts = sheet.doubts[test];
  if (of === undefined || weights === undefined || doubts === undefined) throw new RangeError(`no test ${test}`);
  const concerned = of.readings.map(({ cylinder }) => doubt.cylinder === null || doubt.cylinder === cylinder);
  const accepted = of.readings.map(({ cylinder }, r) => concerned[r] === true && isAccepted(of, cylinder));
  for (const [r, is] of concerned.entries()) {
    if (is && !accepted[r]) weights[r] = (weights[r] as number) * doubt.weight;
  }
  if (doubt.code === "accepted" || !accepted.includes(true)) {
    doubts.push(doubt);
  } else if (concerned.every((is, r) => !is || accepted[r])) {
    doubts.push(overruled(doubt));
  } else {
    for (const [r, { cylinder }] of of.readings.entries()) {
      if (!accepted[r]) doubts.push({ ...doubt, cylinder });
      // What a person said of the whole test is not the program's doubt.
      else if (doubt.code !== "set-aside") doubts.push(overruled({ ...doubt, cylinder }));
    }
  }
}

const overruled = (doubt: Doubt): Doubt => ({
  code: "overruled",
  cylinder: doubt.cylinder,
  weight: 1,
  words: `${doubt.words} (the program’s doubt, overruled: it counts in full)`,
});

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
