import { bottomEndLifeStart, wearLives } from "../condition/lives.ts";
import { worseSign } from "../condition/series.ts";
import type { ConditionedEngine } from "../condition/types.ts";
import type { JudgedMeasure } from "../schema/words.ts";

/** One test as the wear model sees it: only readings with a weight above 0, as badness. */
export interface TestObservation {
  readonly x: number;
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
  readonly fromX: number;
  readonly toX: number;
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
  /** Wear meter of the first test after it. */
  readonly afterX: number;
  readonly to: "better" | "worse";
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
  const starts = Array.from({ length: cylinders }, (_, i) => bottomEndLifeStart(history, i + 1) ?? -Infinity);
  const commonStart = Math.min(...starts);
  const heldFrom = new Map<number, number>();
  if (unexplained?.reading === "held") {
    for (const { cylinders: changed, afterX } of unexplained.steps) {
      for (const c of changed) heldFrom.set(c, Math.min(afterX, heldFrom.get(c) ?? Infinity));
    }
  }

  const bounds = Array.from({ length: cylinders }, () => [commonStart]);
  const stepped = Array.from({ length: cylinders }, () => new Map<number, "better" | "worse">());
  for (const life of wearLives(history)) {
    if (life.fromX > commonStart) bounds[life.cylinder - 1]?.push(life.fromX);
  }
  // An adjustment (clearance, carbon, adaptor) renews nothing, but once a test has followed it, what the cylinder read
  // before says nothing of its level now.
  const lastX = conditioned.tests.findLast((t) => t.test.measure === measure)?.test.x ?? -Infinity;
  for (const repair of history.repairs) {
    if (repair.scope !== "adjustment" || repair.x <= commonStart || repair.x > lastX) continue;
    for (const c of repair.cylinders) bounds[c - 1]?.push(repair.x);
  }
  if (unexplained?.reading === "renewed") {
    for (const { cylinders: changed, afterX, to } of unexplained.steps) {
      for (const c of changed) {
        bounds[c - 1]?.push(afterX);
        stepped[c - 1]?.set(afterX, to);
      }
    }
  }

  const segments: { cylinder: number; fromX: number; toX: number; own: number; usable: number }[] = [];
  const segmentsOf: number[][] = [];
  for (const [i, from] of bounds.entries()) {
    const sorted = [...new Set(from)].sort((a, b) => a - b);
    segmentsOf.push(
      sorted.map((fromX, k) => {
        segments.push({ cylinder: i + 1, fromX, toX: sorted[k + 1] ?? Infinity, own: 0, usable: 0 });
        return segments.length - 1;
      }),
    );
  }

  const tests: TestObservation[] = [];
  let sharedVariance = 0;
  let readings = 0;
  const sign = worseSign[measure];
  for (const { test, weights } of conditioned.tests) {
    if (test.measure !== measure || test.x < commonStart) continue;
    const segment: number[] = [];
    const badness: number[] = [];
    const referralVariance: number[] = [];
    const kept: number[] = [];
    for (const [i, reading] of test.readings.entries()) {
      const weight = weights[i] ?? 0;
      if (weight <= 0) continue;
      if (test.x >= (heldFrom.get(reading.cylinder) ?? Infinity)) continue;
      const index = segmentsOf[reading.cylinder - 1]?.findLast((s) => (segments[s]?.fromX ?? 0) <= test.x);
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
        if (test.x >= (starts[reading.cylinder - 1] ?? -Infinity)) {
          for (const s of segmentsOf[reading.cylinder - 1] ?? [])
            if (s >= index) (segments[s] as { usable: number }).usable++;
        }
      }
    }
    if (kept.length > 0) {
      tests.push({ x: test.x, weight: Math.max(...kept), segment, badness, referralVariance, weights: kept });
    }
  }
  return {
    measure,
    cylinders,
    tests,
    sharedLevelVariance: readings === 0 ? 0 : sharedVariance / readings,
    segments: segments.map((s) => ({
      cylinder: s.cylinder,
      fromX: s.fromX,
      toX: s.toX,
      current: s.toX === Infinity,
      usableTests: s.usable,
      ownTests: s.own,
      stepped: stepped[s.cylinder - 1]?.get(s.fromX) ?? null,
    })),
  };
}
