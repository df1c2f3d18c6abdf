import { isAccepted, judgementOf } from "../condition/judgement-of.ts";
import { bottomEndRenewal, renewsBottomEnd, wearLives } from "../condition/lives.ts";
import { madeAfter, worseSign } from "../condition/series.ts";
import { spoiltShare } from "../condition/shared-error.ts";
import type { ConditionedEngine, ConditionedTest, Doubt } from "../condition/types.ts";
import type { IsoDate } from "../schema/facts.ts";
import { isOfCylinder, type JudgedMeasure, type Place } from "../schema/words.ts";
import type { SealedTest } from "../sealing/types.ts";

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
  /** Variance of what rounding added to each reading by itself. */
  readonly roundingVariance: readonly number[];
  readonly weights: readonly number[];
  /** How much likelier what was heard at each reading is with a fault of the head than without one, as a logarithm. */
  readonly heard: readonly number[];
  /** What a person said of each: a fault had begun in the cylinder by then, or none had. */
  readonly ruled: readonly FaultRuling[];
  /** How likely each was spoilt by the way the test was made, before it is looked at; 0: a person takes it as it is. */
  readonly spoilt: readonly number[];
}

/** Whether a person says that a fault had begun in a cylinder by a test; null: nobody said. */
export type FaultRuling = "fault" | "no-fault" | null;

/**
 * Doubts that are told from the set-up columns or from other engines that the instrument was used on. Cranking that the column
 * says was too slow is none of them here: such a test has no weight, and is not seen at all.
 */
const toldBeforehand: ReadonlySet<Doubt["code"]> = new Set(["set-up-not-met", "instrument-off"]);

/** A last test of few keeps its weight: whether it was spoilt the wear model weighs by itself (common-accounts.ts). */
function weightInWear(
  { test, doubts }: ConditionedTest,
  { weight, cylinder }: { readonly weight: number; readonly cylinder: number },
): number {
  const taken = doubts.find(({ code }) => code === "last-of-few")?.weight ?? 1;
  return isAccepted(test, cylinder) ? weight : Math.min(1, weight / taken);
}

/**
 * What the set-up columns and the instrument say of a reading beforehand. That all cylinders lie off together, fall in the order
 * of testing or seal too well is no such word: it is told from the readings themselves, which the wear model looks at anew.
 */
function spoiltBeforehand({ test, doubts }: ConditionedTest, cylinder: number): number {
  if (isAccepted(test, cylinder)) return 0;
  const its = doubts.filter((d) => toldBeforehand.has(d.code) && (d.cylinder === null || d.cylinder === cylinder));
  return Math.max(
    spoiltShare,
    its.reduce((share, { weight }) => Math.max(share, 1 - weight), 0),
  );
}

function rulingOf(test: SealedTest, cylinder: number): FaultRuling {
  const verdict = judgementOf(test, cylinder)?.verdict;
  return verdict !== undefined && isOfCylinder(verdict) ? verdict : null;
}

/** A cylinder between two repairs that gave it a new baseline. */
export interface Segment {
  readonly cylinder: number;
  /** Still running: this is the one that a projection goes on from. */
  readonly current: boolean;
  /** Days of usable tests since rings and bores of the cylinder were last renewed (not only since this baseline). */
  readonly usableTests: number;
  /** Days of usable tests in this segment itself. */
  readonly ownTests: number;
  /**
   * What gave it its baseline: a repair or adjustment on file, or a step that no repair explains; null: the history's
   * beginning, or the renewal of rings and bores. The level after each of the former may lie anywhere, not only near the
   * siblings'.
   */
  readonly begunBy: "top-end" | "bottom-end" | "adjustment" | "better" | null;
}

export interface WearObservations {
  readonly measure: JudgedMeasure;
  readonly cylinders: number;
  readonly segments: readonly Segment[];
  /** Ascending by x. */
  readonly tests: readonly TestObservation[];
  /** Cylinders that share a gasket bridge. */
  readonly neighbours: readonly (readonly [number, number])[];
  /** Wear meter at which rings and bores were last renewed in all cylinders; where no renewal is on file, 0. */
  readonly origin: number;
  /** Whether a renewal on file says so. Else the engine may have been renewed before it was first tested, unrecorded. */
  readonly originKnown: boolean;
  /**
   * Variance of an error of the level that all tests have in common: compression at an altitude that nobody recorded is
   * wrong by the same share each time, which says nothing against its trend.
   */
  readonly sharedLevelVariance: number;
}

/** An improvement of some cylinders from one test to the next that no repair on file explains. */
export interface UnexplainedStep {
  readonly cylinders: readonly number[];
  /** Wear meter and date of the first test after it. */
  readonly afterX: number;
  readonly date: IsoDate;
}

/** Where something begins: on the wear meter, and on what day, for a test and a repair may share the meter reading. */
interface Start {
  readonly x: number;
  readonly date: IsoDate;
}

interface SegmentStart extends Start {
  readonly begunBy: Segment["begunBy"];
}

/** Baselines of one cylinder that are kept at most; what was read before them says hardly anything of today's. */
const baselinesKept = 6;

interface OpenSegment {
  readonly cylinder: number;
  readonly start: SegmentStart;
  readonly current: boolean;
  /** Days of the usable tests within it, and since the cylinder's rings and bores were renewed. */
  readonly ownDates: Set<IsoDate>;
  readonly usableDates: Set<IsoDate>;
}

const fromTheBeginning: Start = { x: -Infinity, date: "" };

/** Whether a test belongs to what begins there. A step begins with the test that shows it, whatever repair shares its day. */
function isReached(test: SealedTest, start: SegmentStart): boolean {
  if (start.begunBy !== "better") return madeAfter(test, start);
  return test.x > start.x || (test.x === start.x && test.date >= start.date);
}

const byStart = (a: Start, b: Start): number =>
  a.x !== b.x ? (a.x < b.x ? -1 : 1) : a.date < b.date ? -1 : a.date > b.date ? 1 : 0;

/**
 * Air that is heard anywhere but at the crankcase is a leak that no sound head has; at the crankcase some is always heard.
 * The odds are judgement; the evidence of causes (lib/cause) weighs the places apart.
 */
const heardElsewhere = Math.log(12);
const heardCrankcaseOnly = Math.log(0.3);

function heardOdds(places: readonly Place[]): number {
  if (places.some((place) => place !== "crankcase" && place !== "none")) return heardElsewhere;
  return places.includes("crankcase") ? heardCrankcaseOnly : 0;
}

/** A reading of less than this weight shapes the trend a little but does not count as a test to rest a range on. */
const usableWeight = 0.3;

/**
 * The observations of one engine and measure since its rings and bores were last renewed in all cylinders.
 *
 * A repair that renews valves or gasket of a cylinder (or rings of some cylinders only) starts a new segment for the
 * cylinders that it names: a new baseline and a new rate of their own. What the engine's cylinders have in common,
 * the wear of rings and bores, runs on through it.
 *
 * @param unexplained steps without a repair, and how to read them: `renewed` takes each for a new baseline; `held` does
 *   so too but for the last step of each cylinder, from which on it leaves out what the cylinder read.
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

  const begun = Array.from({ length: cylinders }, (): SegmentStart[] => [{ ...commonStart, begunBy: null }]);
  const begin = (c: number, { x, date }: Start, begunBy: Segment["begunBy"]) => {
    if (byStart({ x, date }, commonStart) > 0) begun[c - 1]?.push({ x, date, begunBy });
  };
  for (const { cylinder, startedBy } of wearLives(history)) {
    if (startedBy !== null) begin(cylinder, startedBy, renewsBottomEnd(startedBy) ? "bottom-end" : "top-end");
  }
  // An adjustment (clearance, carbon, adaptor) renews nothing, but once a test has followed it, what the cylinder read
  // before says nothing of its level now.
  const last = conditioned.tests.findLast((t) => t.test.measure === measure)?.test;
  for (const repair of history.repairs) {
    if (repair.scope !== "adjustment" || last === undefined || !madeAfter(last, repair)) continue;
    for (const c of repair.cylinders) begin(c, repair, "adjustment");
  }
  const heldFrom = new Map<number, SegmentStart>();
  for (let c = 1; c <= cylinders && unexplained !== undefined; c++) {
    const own = unexplained.steps
      .filter((step) => step.cylinders.includes(c))
      .map(({ afterX, date }): SegmentStart => ({ x: afterX, date, begunBy: "better" }))
      .toSorted(byStart);
    const lastStep = own.at(-1);
    if (unexplained.reading === "held" && lastStep !== undefined) {
      heldFrom.set(c, lastStep);
      own.pop();
    }
    for (const step of own) begin(c, step, step.begunBy);
  }

  const isRead = (c: number, test: SealedTest): boolean => {
    const held = heldFrom.get(c);
    return held === undefined || !isReached(test, held);
  };
  const segments: OpenSegment[] = [];
  const segmentsOf = begun.map((some, i) => {
    const sorted = some.toSorted(byStart);
    // Of two beginnings at one test the later told counts: a step is told after the repairs.
    const distinct = sorted.filter((start, k) => k + 1 === sorted.length || byStart(start, sorted[k + 1] as Start) < 0);
    // Most cylinders have one baseline, and nothing to look for.
    const tested = distinct.length === 1 ? [] : measured(i + 1).filter((test) => isRead(i + 1, test));
    // A baseline that no test was made on holds nothing, but for the current one.
    const held = distinct.filter((start, k) => {
      const next = distinct[k + 1];
      return next === undefined || tested.some((test) => isReached(test, start) && !isReached(test, next));
    });
    return held.slice(-baselinesKept).map((start, k, kept) => {
      const current = k + 1 === kept.length;
      return segments.push({ cylinder: i + 1, start, current, ownDates: new Set(), usableDates: new Set() }) - 1;
    });
  });

  function measured(cylinder: number): SealedTest[] {
    return conditioned.tests.flatMap(({ test, weights }) => {
      const k = test.measure === measure ? test.readings.findIndex((r) => r.cylinder === cylinder) : -1;
      return k >= 0 && (weights[k] ?? 0) > 0 ? [test] : [];
    });
  }

  const tests: TestObservation[] = [];
  let sharedVariance = 0;
  let readings = 0;
  const sign = worseSign[measure];
  for (const of of conditioned.tests) {
    const { test, weights } = of;
    if (test.measure !== measure || !madeAfter(test, commonStart)) continue;
    const segment: number[] = [];
    const badness: number[] = [];
    const referralVariance: number[] = [];
    const roundingVariance: number[] = [];
    const kept: number[] = [];
    const heard: number[] = [];
    const ruled: FaultRuling[] = [];
    const spoilt: number[] = [];
    for (const [i, reading] of test.readings.entries()) {
      const weight = weightInWear(of, { weight: weights[i] ?? 0, cylinder: reading.cylinder });
      if (weight <= 0) continue;
      if (!isRead(reading.cylinder, test)) continue;
      const index = segmentsOf[reading.cylinder - 1]?.findLast((s) => {
        const start = segments[s]?.start;
        return start !== undefined && isReached(test, start);
      });
      const at = index === undefined ? undefined : segments[index];
      if (index === undefined || at === undefined) continue;
      segment.push(index);
      badness.push(sign * reading.value);
      const variance = reading.referralSd ** 2;
      referralVariance.push(measure === "leak-down" ? variance : 0);
      roundingVariance.push(reading.roundingSd ** 2);
      if (measure === "compression-dry") sharedVariance += variance;
      readings++;
      heard.push(heardOdds(reading.heardAt));
      ruled.push(rulingOf(test, reading.cylinder));
      spoilt.push(spoiltBeforehand(of, reading.cylinder));
      kept.push(weight);
      if (weight >= usableWeight) {
        // Two instruments or attempts of one day are one occasion: they say nothing of a rate.
        at.ownDates.add(test.date);
        if (madeAfter(test, starts[reading.cylinder - 1] ?? fromTheBeginning)) {
          for (const s of segmentsOf[reading.cylinder - 1] ?? [])
            if (s >= index) segments[s]?.usableDates.add(test.date);
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
        roundingVariance,
        weights: kept,
        heard,
        ruled,
        spoilt,
      });
    }
  }
  return {
    measure,
    cylinders,
    tests,
    neighbours: history.model.neighbours ?? [],
    originKnown: Number.isFinite(commonStart.x),
    origin: Number.isFinite(commonStart.x) ? commonStart.x : Math.min(0, tests[0]?.x ?? 0),
    sharedLevelVariance: readings === 0 ? 0 : sharedVariance / readings,
    segments: segments.map(({ cylinder, start, current, ownDates, usableDates }) => ({
      cylinder,
      current,
      usableTests: usableDates.size,
      ownTests: ownDates.size,
      begunBy: start.begunBy,
    })),
  };
}
