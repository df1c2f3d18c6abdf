import type { MeterUnit } from "../schema/words.ts";
import type { EngineHistory, SealedTest } from "../sealing/types.ts";
import { meterWords } from "../wording.ts";
import { type DoubtSheet, noteDoubtOfCylinders } from "./doubt-sheet.ts";
import { renewsBottomEnd } from "./lives.ts";
import { isSound, type MeasureSeries, madeAfter } from "./series.ts";

/** Use within which new or renewed rings bed in and readings improve: 100 h (an army manual's), 5,000 km. */
const breakInUse: Readonly<Record<MeterUnit, number>> = { h: 100, km: 5000, mi: 3107 };

/** Without so many tests to follow, even early ones are worth more than none. */
const fewestLater = 3;

/** Where a cylinder's rings were new: at the engine's start, if it began near 0 on the meter, and at each bottom-end repair. */
function newRingsAt(history: EngineHistory, cylinder: number): { readonly x: number; readonly date: string }[] {
  const begin = history.fittings[0]?.fromX;
  const starts = history.repairs.filter((r) => renewsBottomEnd(r) && r.cylinders.includes(cylinder));
  return begin !== undefined && begin < breakInUse[history.meterUnit] ? [{ x: 0, date: "" }, ...starts] : starts;
}

/** Whether a cylinder's rings were still bedding in at `x`. */
export function isBreakingIn(history: EngineHistory, cylinder: number, x: number): boolean {
  const start = newRingsAt(history, cylinder).findLast((from) => from.x <= x);
  return start !== undefined && x - start.x < breakInUse[history.meterUnit];
}

/** Readings while rings bed in improve by themselves: not used, once three sound ones have followed in the same life. */
export function noteBreakIn(sheet: DoubtSheet, { cylinders: all, measure }: MeasureSeries): void {
  const { history } = sheet;
  const span = breakInUse[history.meterUnit];
  const concerned = new Map<number, number[]>();
  for (const series of all) {
    for (const rings of newRingsAt(history, series.cylinder)) {
      const start = rings.x;
      const first = series.test.findIndex((t) => madeAfter(history.tests[t] as SealedTest, rings));
      if (first < 0 || (series.x[first] as number) >= start + span) continue;
      const life = series.life[first];
      let later = 0;
      for (let p = first; p < series.x.length && series.life[p] === life && later < fewestLater; p++) {
        if ((series.x[p] as number) >= start + span && isSound(sheet, series, p)) later++;
      }
      if (later < fewestLater) continue;
      for (let p = first; (series.x[p] as number) < start + span && series.life[p] === life; p++) {
        const test = series.test[p] as number;
        const cylinders = concerned.get(test);
        if (cylinders === undefined) concerned.set(test, [series.cylinder]);
        else if (!cylinders.includes(series.cylinder)) cylinders.push(series.cylinder);
      }
    }
  }
  const rises = measure === "leak-down" ? "leakage still falls" : "compression still rises";
  for (const [test, cylinders] of concerned) {
    noteDoubtOfCylinders(sheet, test, cylinders, {
      code: "break-in",
      weight: 0,
      words: `within the first ${meterWords(span, history.meterUnit)} with new rings, while ${rises}: kept, not used`,
    });
  }
}
