import { dayNumber } from "../calendar.ts";
import { givesBaseline } from "../condition/lives.ts";
import { madeAfter, worseSign } from "../condition/series.ts";
import type { ConditionedEngine } from "../condition/types.ts";
import type { IsoDate } from "../schema/facts.ts";
import type { JudgedMeasure } from "../schema/words.ts";
import type { EngineRepair, SealedTest } from "../sealing/types.ts";

/** A reading of less than this weight says too little of the cylinder to judge a forecast by. */
const judgingWeight = 0.5;

/** What was read of one cylinder on one day, as it is known now. */
export interface LifeReading {
  readonly x: number;
  readonly date: IsoDate;
  readonly badness: number;
  readonly weight: number;
  /** Standard deviation that referring the reading added, as a share of it; of compression it is the same each time: 0. */
  readonly referralShare: number;
  /** Standard deviation of what rounding added, in the unit of the measure. */
  readonly roundingSd: number;
  readonly test: SealedTest;
}

/** One cylinder in one measure from a baseline to the next, seen from one test within it. */
export interface Life {
  /** One a day, ascending; those that are hardly to be believed are left out. */
  readonly readings: readonly LifeReading[];
  /** Of `readings`, the last one up to and including the test that it is seen from; -1: none before it. */
  readonly at: number;
  /** Days of readings after the test that are left out because they are doubted themselves. */
  readonly doubted: readonly IsoDate[];
  readonly endedBy: "last-test" | "repair" | "step";
  /** Where it ended by one. */
  readonly repair: EngineRepair | null;
}

/**
 * The life that `from` (a test of the engine) lies in: since the cylinder's last repair or adjustment, or a step for the
 * better that nobody explained, up to the next one.
 */
export function lifeAround(
  { history, tests, improvements }: ConditionedEngine,
  measure: JudgedMeasure,
  cylinder: number,
  from: SealedTest,
): Life {
  const breaks = history.repairs.filter(
    (r) => (givesBaseline(r) || r.scope === "adjustment") && r.cylinders.includes(cylinder),
  );
  const steps = improvements.filter((i) => i.measure === measure && i.cylinders.includes(cylinder));
  const isPast = (test: SealedTest, step: (typeof steps)[number]) => test.x >= step.afterX && test.date >= step.date;
  const placeOf = (test: SealedTest) =>
    breaks.filter((r) => madeAfter(test, r)).length + steps.filter((s) => isPast(test, s)).length;
  const place = placeOf(from);
  const byDate = new Map<IsoDate, LifeReading>();
  const doubted = new Set<IsoDate>();
  const isLater = (test: SealedTest) => test.date > from.date;
  for (const { test, weights } of tests) {
    if (test.measure !== measure || placeOf(test) !== place) continue;
    const k = test.readings.findIndex((r) => r.cylinder === cylinder);
    const reading = test.readings[k];
    if (reading === undefined) continue;
    const weight = weights[k] ?? 0;
    if (weight < judgingWeight) {
      if (isLater(test)) doubted.add(test.date);
      continue;
    }
    const before = byDate.get(test.date);
    if (before !== undefined && before.weight > weight) continue;
    byDate.set(test.date, {
      x: test.x,
      date: test.date,
      badness: worseSign[measure] * reading.value,
      weight,
      referralShare: measure === "leak-down" && reading.value > 0 ? reading.referralSd / reading.value : 0,
      roundingSd: reading.roundingSd,
      test,
    });
  }
  const readings = [...byDate.values()].toSorted((a, b) => a.x - b.x || (a.date < b.date ? -1 : 1));
  const repair = breaks.find((r) => !madeAfter(from, r)) ?? null;
  const step = steps.find((s) => !isPast(from, s));
  const endedBy =
    repair !== null && (step === undefined || repair.date <= step.date)
      ? "repair"
      : step !== undefined
        ? "step"
        : "last-test";
  return {
    readings,
    at: readings.findLastIndex((r) => !isLater(r.test)),
    doubted: [...doubted].filter((day) => !byDate.has(day)),
    endedBy,
    repair: endedBy === "repair" ? repair : null,
  };
}

/**
 * Running medians of three; at either end the median of the value, its neighbour and the line through the next two
 * smoothed ones (Tukey's end-point rule, Exploratory Data Analysis 1977). One odd value moves none of them.
 */
export function runningMedians(values: readonly number[]): number[] {
  const n = values.length;
  if (n < 3) return [...values];
  const of = (a: number, b: number, c: number) => Math.max(Math.min(a, b), Math.min(Math.max(a, b), c));
  const smooth = values.map((v, i) =>
    i === 0 || i === n - 1 ? v : of(values[i - 1] as number, v, values[i + 1] as number),
  );
  const end = (value: number, next: number, afterNext: number) => of(value, next, 3 * next - 2 * afterNext);
  return smooth.map((v, i) =>
    i === 0
      ? end(v, smooth[1] as number, smooth[2] as number)
      : i === n - 1
        ? end(v, smooth[n - 2] as number, smooth[n - 3] as number)
        : v,
  );
}

export interface Met {
  /** On the engine's wear meter; of one that was met before, the test's own. */
  readonly x: number;
  readonly days: number;
  readonly date: IsoDate;
}

/**
 * When the cylinder met the limit after reading `at`: straight between the last smoothed level below it and the first one
 * at or past it. A single reading past the limit counts only where a repair followed it. null: not met as far as it was read.
 *
 * @param limit as badness
 */
export function limitMet(life: Life, limit: number): Met | null {
  const { readings, at } = life;
  const raw = readings.map((r) => r.badness);
  const smooth = runningMedians(raw);
  const start = readings[at];
  if (start === undefined) return null;
  if ((smooth[at] as number) >= limit) return { x: start.x, days: 0, date: start.date };
  for (let i = at + 1; i < readings.length; i++) {
    const isLastBeforeRepair = life.endedBy === "repair" && i === readings.length - 1;
    const level = isLastBeforeRepair ? Math.max(smooth[i] as number, raw[i] as number) : (smooth[i] as number);
    if (level < limit) continue;
    const [before, after] = [readings[i - 1] as LifeReading, readings[i] as LifeReading];
    const below = smooth[i - 1] as number;
    const share = level > below ? Math.min(1, Math.max(0, (limit - below) / (level - below))) : 1;
    const firstDay = dayNumber(before.date);
    const day = firstDay + Math.round(share * (dayNumber(after.date) - firstDay));
    const date = new Date(day * 86_400_000).toISOString().slice(0, 10);
    return { x: before.x + share * (after.x - before.x), days: day - dayNumber(start.date), date };
  }
  return null;
}
