import type { JudgedMeasure } from "../schema/words.ts";
import type { EngineHistory, SealedTest } from "../sealing/types.ts";

/** Why a test, or one reading of it, is trusted less. */
export interface Doubt {
  readonly code:
    | "slow-cranking"
    | "set-up-not-met"
    | "all-cylinders-off"
    /** All its cylinders read far worse than at the one or two tests before it. */
    | "last-of-few"
    /** Its cylinders were counted from the other end. */
    | "row-reversed"
    /** The instrument reads off on engines of the whole fleet. */
    | "instrument-off"
    | "not-at-tdc"
    | "repeated-the-same-day"
    | "too-good"
    | "few-strokes"
    /** One compression reading far below its place, which leakage does not explain. */
    | "low-alone"
    | "decompressor"
    | "lifters"
    | "above-siblings"
    | "break-in"
    /** A person said that it does not count. */
    | "set-aside"
    /** No doubt: a person said that it counts, whatever speaks against it. */
    | "accepted"
    /** What the program doubts and a person accepted: it takes no weight. */
    | "overruled";
  /** null: the whole test. */
  readonly cylinder: number | null;
  /** What is left of its weight, 0 (kept, not used) to 1. */
  readonly weight: number;
  /** In words, for a person: "cranked at 110/min, reference 200: kept, not used". */
  readonly words: string;
}

/** A test with what its readings may weigh in a trend. Nothing is ever deleted: a weight of 0 means "kept, not used". */
export interface ConditionedTest {
  readonly test: SealedTest;
  readonly doubts: readonly Doubt[];
  /** One for each reading of `test.readings`, 0 to 1: the product of the test's and the reading's doubts. */
  readonly weights: readonly number[];
}

/** An improvement that no repair explains: a repair nobody recorded, a swap or another tester; for a person to settle. */
export interface UnexplainedImprovement {
  readonly measure: JudgedMeasure;
  readonly cylinders: readonly number[];
  /** Wear meter of the last test before and the first test after the step. */
  readonly beforeX: number;
  readonly afterX: number;
  readonly date: string;
  readonly from: number;
  readonly to: number;
  /** Usable tests since the step; the more agree with it, the surer it is. */
  readonly testsSince: number;
  /**
   * The tester that all leak-down tests since the step were made with, another than before, none of them with its restrictor
   * recorded: they cannot bear the step out. null or absent: not so.
   */
  readonly blankBoreOf?: string | null;
  /** The question, in words. */
  readonly words: string;
}

/** A last test that takes back what the test before it alone had found, with no repair on file; for a person to repeat. */
export interface Contradiction {
  readonly measure: JudgedMeasure;
  /** Ascending. */
  readonly cylinders: readonly number[];
  /** What was read, without the test's name: "cylinder 2 read 10 % after 28 % on 27 Jul 2026 with no repair …". */
  readonly words: string;
}

export interface ConditionedEngine {
  readonly history: EngineHistory;
  /** As `history.tests`, same order. */
  readonly tests: readonly ConditionedTest[];
  readonly improvements: readonly UnexplainedImprovement[];
  readonly contradictions: readonly Contradiction[];
}
