import { bottomEndRenewal, wearLives } from "../condition/lives.ts";
import { madeAfter, worseSign } from "../condition/series.ts";
import type { ConditionedEngine } from "../condition/types.ts";
import type { IsoDate } from "../schema/facts.ts";
import type { JudgedMeasure } from "../schema/words.ts";

/** One test as the wear model sees it: only readings with a weight above 0, as badness. */
export interface TestObservation {
  readonly x: number;
  readonly date: IsoDate;
  /** Weight of the test as a whole: that of its best reading. */
  readonly weight: number;
  /** Index into `segments` of each reading. */
  readonly segment: readonly number[];
  readonly badness: readonly number[];
  /** Variance that referring the reading added to its own error. */
  readonly referralVariance: readonly number[];
  readonly weights: readonly number[];
}

/** A cylinder between two repairs that gave it a new baseline. */
export interface Segment {
  readonly cylinder: number;
  /** Still running: this is the one that a projection goes on from. */
  readonly current: boolean;
  /** Usable tests since rings and bores of the cylinder were last renewed (not only since this baseline). */
  readonly usableTests: number;
  /** Usable tests in this segment itself. */
  readonly ownTests: number;
  /** It begins with a step that no repair explains: its level may lie anywhere, not only near its siblings'. */
  readonly stepped?: "better" | "worse" | null;
}

export interface WearObservations {
  readonly measure: JudgedMeasure;
  readonly cylinders: number;
  readonly segments: readonly Segment[];
  /** Ascending by x. */
  readonly tests: readonly TestObservation[];
  /**
   * Variance of an error of the level that all tests have in common: compression at an altitude that nobody recorded is
   * wrong by the same share each time, which says nothing against its trend.
   */
  readonly sharedLevelVariance: number;
}

/** A change of some cylinders from one test to the next that no repair on file explains, for the better or the worse. */
export interface UnexplainedStep {
  readonly cylinders: readonly number[];
  /** Wear meter and date of the first test after it. */
  readonly afterX: number;
  readonly date: IsoDate;
  readonly to: "better" | "worse";
}

/** Where something begins: on the wear meter, and on what day, for a test and a repair may share the meter reading. */
interface Start {
  readonly x: number;
  readonly date: IsoDate;
}

interface SegmentStart extends Start {
  readonly stepped: "better" | "worse" | null;
}

const fromTheBeginning: Start = { x: -Infinity, date: "" };

const byStart = (a: Start, b: Start): number =>
  a.x !== b.x ? (a.x < b.x ? -1 : 1) : a.date < b.date ? -1 : a.date > b.date ? 1 : 0;

/** A reading of less than this weight shapes the trend a little but does not count as a test to rest a range on. */
const usableWeight = 0.3;

/**
 * The observations of one engine and measure since its rings and bores were last renewed in all cylinders.
 *
 * A repair that renews valves or gasket of a cylinder (or rings of some cylinders only) starts a new segment for the
 * cylinders that it names: a new baseline and a new rate of their own. What the engine's cylinders have in common,
 * the wear of rings and bores, runs on through it.
 *
 * @param unexplained steps without a repair, and how to read them: `held` leaves out what the cylinders read after
 *   them, `renewed` takes each for a new baseline.
 */
export function wearObservations(
  conditioned: ConditionedEngine,
  measure: JudgedMeasure,
  unexplained?: { readonly steps: readonly UnexplainedStep[]; readonly reading: "held" | "renewed" },
): WearObservations {
  const { history } = conditioned;
  const cylinders = history.model.cylinders;
  const starts = Array.from({ length: cylinders }, (_, i): Start => {
    const renewal = bottomEndRenewal(history, i + 1);
    return renewal === null ? fromTheBeginning : { x: renewal.x, date: renewal.date };
  });
  const commonStart = starts.toSorted(byStart)[0] ?? fromTheBeginning;
  const heldFrom = new Map<number, Start>();
  if (unexplained?.reading === "held") {
    for (const { cylinders: changed, afterX, date } of unexplained.steps) {
      const step = { x: afterX, date };
      for (const c of changed) {
        const known = heldFrom.get(c);
        if (known === undefined || byStart(step, known) < 0) heldFrom.set(c, step);
      }
    }
  }

  const begun = Array.from({ length: cylinders }, (): SegmentStart[] => [{ ...commonStart, stepped: null }]);
  const begin = (c: number, start: Start, stepped: SegmentStart["stepped"] = null) => {
    if (byStart(start, commonStart) > 0) begun[c - 1]?.push({ x: start.x, date: start.date, stepped });
  };
  for (const { cylinder, startedBy } of wearLives(history)) if (startedBy !== null) begin(cylinder, startedBy);
  // An adjustment (clearance, carbon, adaptor) renews nothing, but once a test has followed it, what the cylinder read
  // before says nothing of its level now.
  const last = conditioned.tests.findLast((t) => t.test.measure === measure)?.test;
  for (const repair of history.repairs) {
    if (repair.scope !== "adjustment" || last === undefined || !madeAfter(last, repair)) continue;
    for (const c of repair.cylinders) begin(c, repair);
  }
  if (unexplained?.reading === "renewed") {
    for (const { cylinders: changed, afterX, date, to } of unexplained.steps) {
      for (const c of changed) begin(c, { x: afterX, date }, to);
    }
  }

  const segments: { cylinder: number; start: SegmentStart; current: boolean; own: number; usable: number }[] = [];
  const segmentsOf = begun.map((some, i) => {
    const sorted = some.toSorted(byStart);
    // Of two beginnings at one test the later told counts: a step is told after the repairs.
    const distinct = sorted.filter((start, k) => k + 1 === sorted.length || byStart(start, sorted[k + 1] as Start) < 0);
    return distinct.map((start, k) => {
      segments.push({ cylinder: i + 1, start, current: k + 1 === distinct.length, own: 0, usable: 0 });
      return segments.length - 1;
    });
  });

  const tests: TestObservation[] = [];
  let sharedVariance = 0;
  let readings = 0;
  const sign = worseSign[measure];
  for (const { test, weights } of conditioned.tests) {
    if (test.measure !== measure || !madeAfter(test, commonStart)) continue;
    const segment: number[] = [];
    const badness: number[] = [];
    const referralVariance: number[] = [];
    const kept: number[] = [];
    for (const [i, reading] of test.readings.entries()) {
      const weight = weights[i] ?? 0;
      if (weight <= 0) continue;
      const held = heldFrom.get(reading.cylinder);
      if (held !== undefined && madeAfter(test, held)) continue;
      const index = segmentsOf[reading.cylinder - 1]?.findLast((s) => {
        const start = segments[s]?.start;
        return start !== undefined && madeAfter(test, start);
      });
      const at = index === undefined ? undefined : segments[index];
      if (index === undefined || at === undefined) continue;
      segment.push(index);
      badness.push(sign * reading.value);
      const variance = reading.referralSd ** 2;
      referralVariance.push(measure === "leak-down" ? variance : 0);
      if (measure === "compression-dry") sharedVariance += variance;
      readings++;
      kept.push(weight);
      if (weight >= usableWeight) {
        at.own++;
        if (madeAfter(test, starts[reading.cylinder - 1] ?? fromTheBeginning)) {
          for (const s of segmentsOf[reading.cylinder - 1] ?? [])
            if (s >= index) (segments[s] as { usable: number }).usable++;
        }
      }
    }
    if (kept.length > 0) {
      tests.push({
        x: test.x,
        date: test.date,
        weight: Math.max(...kept),
        segment,
        badness,
        referralVariance,
        weights: kept,
      });
    }
  }
  return {
    measure,
    cylinders,
    tests,
    sharedLevelVariance: readings === 0 ? 0 : sharedVariance / readings,
    segments: segments.map(({ cylinder, start, current, own, usable }) => ({
      cylinder,
      current,
      usableTests: usable,
      ownTests: own,
      stepped: start.stepped,
    })),
  };
}
