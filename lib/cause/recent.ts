import type { ConditionedEngine, ConditionedTest, Doubt } from "../condition/types.ts";
import type { IsoDate } from "../schema/facts.ts";
import { type Measure, measures, type Place } from "../schema/words.ts";
import { type Renewal, renewalsByCylinder, renewedSinceTest } from "./renewals.ts";

/** A reading that may still be used, with what is left of its say. */
export interface RecentReading {
  readonly date: IsoDate;
  readonly x: number;
  readonly value: number;
  readonly heardAt: readonly Place[];
  readonly firstStrokeShare: number | null;
  /** 0 to 1: its weight in condition, less where an improvement since then is unexplained. */
  readonly trust: number;
  /** Causes renewed since: the reading says nothing of them any more. */
  readonly renewed: number;
  /** Identity of the test, to find the siblings' readings of the same occasion. */
  readonly test: ConditionedTest;
}

export interface RecentDoubt {
  readonly doubt: Doubt;
  readonly measure: Measure;
  /** 0 to 1: what the doubt took from the reading's weight. */
  readonly strength: number;
}

/** The last tests of an engine, sorted by cylinder; index 0 is cylinder 1, each list latest first. */
export interface RecentTests {
  readonly byMeasure: Readonly<Record<Measure, readonly (readonly RecentReading[])[]>>;
  /** A doubt about the latest reading of a measure that no usable re-test has settled yet, for each cylinder. */
  readonly unsettled: readonly (readonly RecentDoubt[])[];
  readonly renewals: readonly (readonly Renewal[])[];
}

/** Usable tests of a measure that are looked at: enough for a slow rise, few enough to stay about the present. */
const testsLookedAt = 6;
/** Tests looked through in all to find them, so that a long history costs no more than a short one. */
const testsSearched = 48;
/** Below this weight a reading is kept, not used. */
const leastWeight = 0.2;

const setUpDoubts: ReadonlySet<Doubt["code"]> = new Set([
  "slow-cranking",
  "set-up-not-met",
  "all-cylinders-off",
  "last-of-few",
  "instrument-off",
  "row-reversed",
  "not-at-tdc",
  "too-good",
]);

/** What no engine reads tells nothing of this one, whatever weight is left to it in the trend. */
const saysNothing: ReadonlySet<Doubt["code"]> = new Set(["not-at-tdc", "too-good"]);

/**
 * Picks the last usable readings of each cylinder and measure, and the doubts that nobody has settled, by going back
 * from the end of the history. Work is bounded whatever the length of the history.
 */
export function recentTests(engine: ConditionedEngine, asOf: IsoDate): RecentTests {
  const cylinders = engine.history.model.cylinders;
  const renewals = renewalsByCylinder(engine.history, asOf);
  const byMeasure = Object.fromEntries(
    measures.map((measure) => [measure, Array.from({ length: cylinders }, (): RecentReading[] => [])]),
  ) as Record<Measure, RecentReading[][]>;
  const unsettled: RecentDoubt[][] = Array.from({ length: cylinders }, () => []);

  let searched = 0;
  for (let index = engine.tests.length - 1; index >= 0 && searched < testsSearched; index--) {
    const conditioned = engine.tests[index];
    if (conditioned === undefined || conditioned.test.date > asOf) continue;
    searched++;
    const { test, weights } = conditioned;
    const lists = byMeasure[test.measure];
    for (let position = 0; position < test.readings.length; position++) {
      const reading = test.readings[position];
      if (reading === undefined) continue;
      const list = lists[reading.cylinder - 1];
      if (list === undefined || list.length >= testsLookedAt) continue;
      const cylinderRenewals = renewals[reading.cylinder - 1] ?? [];
      const doubt = conditioned.doubts.length === 0 ? undefined : setUpDoubt(conditioned, reading.cylinder);
      const weight = sayOf(conditioned, reading.cylinder) ?? weights[position] ?? 0;
      if (doubt !== undefined && list.length === 0 && weight < 1) {
        const doubts = unsettled[reading.cylinder - 1] ?? [];
        const isLatest = doubts.every(({ measure }) => measure !== test.measure);
        if (isLatest && renewedSinceTest(cylinderRenewals, test) === 0) {
          doubts.push({ doubt, measure: test.measure, strength: 1 - weight });
        }
      }
      if (weight < leastWeight || (doubt !== undefined && saysNothing.has(doubt.code))) continue;
      const trust = weight * trustAfterImprovement(engine, reading.cylinder, test.x);
      if (trust === 0) continue;
      list.push({
        date: test.date,
        x: test.x,
        value: reading.value,
        heardAt: reading.heardAt,
        firstStrokeShare: reading.firstStrokeShare,
        trust,
        renewed: cylinderRenewals.length === 0 ? 0 : renewedSinceTest(cylinderRenewals, test),
        test: conditioned,
      });
    }
  }
  return { byMeasure, unsettled, renewals };
}

/**
 * A reading that condition sets aside for standing alone is evidence all the same: of the test or of the valve gear, which is
 * the question here. It has the weight that its other doubts leave it; null: no such reading.
 */
function sayOf({ doubts }: ConditionedTest, cylinder: number): number | null {
  const its = doubts.filter((doubt) => doubt.cylinder === null || doubt.cylinder === cylinder);
  if (!its.some(({ code }) => code === "low-alone")) return null;
  return its.reduce((weight, doubt) => (doubt.code === "low-alone" ? weight : weight * doubt.weight), 1);
}

/** The doubt about a set-up fault of this reading: its own before one about the whole test; none where a person set it aside. */
function setUpDoubt(test: ConditionedTest, cylinder: number): Doubt | undefined {
  const isOf = (doubt: Doubt) => doubt.cylinder === null || doubt.cylinder === cylinder;
  if (test.doubts.some((doubt) => doubt.code === "set-aside" && isOf(doubt))) return undefined;
  return (
    test.doubts.find((doubt) => doubt.cylinder === cylinder && setUpDoubts.has(doubt.code)) ??
    test.doubts.find((doubt) => doubt.cylinder === null && setUpDoubts.has(doubt.code))
  );
}

/**
 * What leaked before an improvement that no repair explains may have been cured by one that nobody wrote down: such
 * readings count half while one test shows the improvement, and no more once a second agrees.
 */
function trustAfterImprovement(engine: ConditionedEngine, cylinder: number, x: number): number {
  let trust = 1;
  for (const improvement of engine.improvements) {
    if (x >= improvement.afterX || !improvement.cylinders.includes(cylinder)) continue;
    trust = Math.min(trust, improvement.testsSince >= 2 ? 0 : 0.5);
  }
  return trust;
}

/**
 * The readings of the present life of a cylinder; where nothing was measured since its last repair, those before it
 * (they carry the causes renewed since, and so speak only for the parts that stayed).
 */
export function presentReadings(list: readonly RecentReading[]): readonly RecentReading[] {
  const latest = list[0];
  if (latest === undefined) return list;
  const end = list.findIndex((reading) => reading.renewed !== latest.renewed);
  return end === -1 ? list : list.slice(0, end);
}
