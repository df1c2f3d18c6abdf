import { type DoubtSheet, noteDoubtOfCylinders } from "./doubt-sheet.ts";
import { madeAfter } from "./series.ts";

/**
 * Where a test was repeated the same day, the later attempt counts and the earlier is kept, not used: for the cylinders
 * that were measured again, and unless the repeat itself was done worse by its set-up columns.
 */
export function noteRepeats(sheet: DoubtSheet): void {
  const { tests, repairs } = sheet.history;
  if (!tests.some((test) => test.attempt > 1)) return;
  const sameDay = new Map<string, number[]>();
  for (const [t, { unit, measure, date }] of tests.entries()) {
    const key = `${date} ${measure} ${unit}`;
    const others = sameDay.get(key);
    if (others === undefined) sameDay.set(key, [t]);
    else others.push(t);
  }
  const outdone: { test: number; cylinders: number[] }[] = [];
  for (const group of sameDay.values()) {
    if (group.length === 1) continue;
    for (const t of group) {
      const test = tests[t] as (typeof tests)[number];
      const cylinders = test.readings.flatMap(({ cylinder }, r) => {
        const weight = sheet.weights[t]?.[r] as number;
        const again = group.some((later) => {
          const repeat = tests[later] as (typeof tests)[number];
          if (repairs.some((r) => r.cylinders.includes(cylinder) && madeAfter(repeat, r) && !madeAfter(test, r))) {
            return false;
          }
          const at = repeat.readings.findIndex((reading) => reading.cylinder === cylinder);
          return repeat.attempt > test.attempt && at >= 0 && (sheet.weights[later]?.[at] as number) >= weight;
        });
        return again ? [cylinder] : [];
      });
      if (cylinders.length > 0) outdone.push({ test: t, cylinders });
    }
  }
  // Noted only now, so that a third attempt is not weighed against a second one that it has already put aside.
  for (const { test, cylinders } of outdone) {
    noteDoubtOfCylinders(sheet, test, cylinders, {
      code: "repeated-the-same-day",
      weight: 0,
      words: "repeated the same day: the repeat counts",
    });
  }
}
