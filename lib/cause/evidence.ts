import type { Cause, CheckKind } from "../schema/words.ts";

/**
 * The evidence table: what may be seen in an engine's tests, and how likely each finding is under each cause. Bayes'
 * rule does the rest (lib/cause/bayes.ts). Only the ratios within a row matter; how far a row is to be believed in one
 * case (how high the leakage, how large the rise, how often heard) is its strength, which the observer gives.
 *
 * Of a row, `words` reach the pages. `mark`, `reason` and `cautions` are read by no program: they are for whoever judges
 * or sharpens a row, what its numbers rest on and when they mislead, kept in the table so that they stay with the row. What
 * a mechanic must heed is said by lib/cause/next-steps.ts.
 *
 * To sharpen a row, change its eight numbers. To add a finding, add a row here and an observer that reports its id.
 * All likelihoods are judgement (J) on the pattern named in `reason`, whose own standing `mark` tells: S a published
 * manual, P common practice without a source, J engineering judgement, C computed from the flow physics.
 */
export interface EvidenceRow {
  /** For a person; words in braces are filled in by the observer. */
  readonly words: string;
  /** P(finding | cause), in the order of `causes`. */
  readonly likelihoods: Likelihoods;
  readonly mark: "S" | "P" | "J" | "C";
  readonly reason: string;
  readonly cautions: readonly string[];
}

export type Likelihoods = readonly [number, number, number, number, number, number, number, number];

/**
 * Shares before anything is seen, in the order of `causes`. Rings and bores lead because every engine wears them;
 * exhaust valves come next because they run hottest; a fault of the test itself is kept small, as condition has already
 * set aside the tests that look wrong. (J)
 */
export const priors: Likelihoods = [0.46, 0.06, 0.07, 0.16, 0.08, 0.02, 0.07, 0.08];

/**
 * Share of the answer that stays with the priors whatever is seen: the table does not know everything, causes coexist,
 * and the head is still on. (J)
 */
export const keptForTheUnknown = 0.03;

const standsAlone = ["compare with the siblings of the same test first: most error is shared by the whole test"];
const portOnly = [
  "listen at the port or manifold: any leak before the tail pipe lets the air out early, so silence there proves nothing",
];
const gasOnly = ["tells that it leaks, hardly what leaks: gasket or crack stays open until the head is off"];

const listed = {
  // ---------------------------------------------------------------- where air was heard
  // likelihoods:                       rings piston inlet exhaust gasket crack timing set-up
  "heard-crankcase": {
    words: "air heard at the crankcase {when}",
    likelihoods: [0.85, 0.75, 0.22, 0.22, 0.18, 0.18, 0.3, 0.25],
    mark: "S",
    reason: "air past rings, piston or bore comes out at dipstick, filler or vent",
    cautions: ["air always passes rings: below the watch level some crankcase sound is normal"],
  },
  "heard-inlet": {
    words: "air heard at the inlet {when}",
    likelihoods: [0.03, 0.03, 0.85, 0.04, 0.05, 0.06, 0.15, 0.12],
    mark: "S",
    reason: "an inlet valve or seat that leaks; too tight a clearance or carbon do the same",
    cautions: ["adjust a tight clearance and test again before booking a valve job"],
  },
  "heard-exhaust": {
    words: "air heard at the exhaust {when}",
    likelihoods: [0.03, 0.03, 0.04, 0.85, 0.05, 0.06, 0.15, 0.12],
    mark: "S",
    reason: "an exhaust valve or seat that leaks; too tight a clearance or carbon do the same",
    cautions: [...portOnly, "adjust a tight clearance and test again before booking a valve job"],
  },
  "heard-coolant": {
    words: "bubbles in the coolant {when}",
    likelihoods: [0.01, 0.01, 0.01, 0.01, 0.7, 0.75, 0.01, 0.02],
    mark: "S",
    reason: "only the gasket or a crack lets cylinder air into the coolant",
    cautions: gasOnly,
  },
  "heard-neighbour": {
    words: "air heard at the next cylinder {when}",
    likelihoods: [0.03, 0.03, 0.06, 0.06, 0.8, 0.15, 0.05, 0.06],
    mark: "S",
    reason: "the gasket bridge between two cylinders that share it",
    cautions: ["with all plugs out, air past a valve can run through the manifold and out of another plug hole"],
  },
  "heard-neighbour-far": {
    words: "air heard at another cylinder {when}, though none shares a gasket bridge with it",
    likelihoods: [0.12, 0.12, 0.3, 0.25, 0.1, 0.1, 0.22, 0.2],
    mark: "P",
    reason: "without a shared bridge the air came through the manifold, past a valve",
    cautions: ["weak: check which plug hole it was"],
  },
  "heard-nowhere": {
    words: "leakage raised, yet no air heard anywhere {when}",
    likelihoods: [0.16, 0.1, 0.08, 0.1, 0.15, 0.2, 0.2, 0.5],
    mark: "J",
    reason: "a leak at the hose or the adaptor is heard nowhere in the engine",
    cautions: ["a noisy shop hides a small leak"],
  },
  // ---------------------------------------------------------------- how much leaks, and whether the siblings leak too
  "leakage-sound": {
    words: "leakage {leakage} %, below the watch level",
    likelihoods: [0.6, 0.5, 0.5, 0.5, 0.45, 0.42, 0.6, 0.55],
    mark: "J",
    reason: "little evidence at all: each cause starts small",
    cautions: [],
  },
  "held-over-tests": {
    words: "raised in {tests} tests running",
    likelihoods: [0.6, 0.6, 0.6, 0.6, 0.6, 0.6, 0.6, 0.12],
    mark: "J",
    reason: "a fault of the set-up seldom comes back the same in the next test",
    cautions: [],
  },
  "all-raised-alike": {
    words: "all {cylinders} cylinders leak alike ({range} %)",
    likelihoods: [0.7, 0.1, 0.06, 0.06, 0.06, 0.06, 0.15, 0.25],
    mark: "P",
    reason: "rings and bores wear together; valves, gasket and pistons fail one by one",
    cautions: ["a leak at the tester's hose raises all alike too"],
  },
  "rose-together": {
    words: "leakage rose from {from} to {to} % in all {cylinders} cylinders alike",
    likelihoods: [0.6, 0.15, 0.12, 0.12, 0.1, 0.1, 0.15, 0.2],
    mark: "P",
    reason: "slow common ageing is the mark of rings and bores",
    cautions: ["another tester shifts all cylinders as well"],
  },
  "stands-out": {
    words: "leakage {leakage} %, the other cylinders {others} %",
    likelihoods: [0.16, 0.5, 0.5, 0.55, 0.45, 0.4, 0.15, 0.4],
    mark: "J",
    reason: "one cylinder alone is an event (valve, gasket, piston), seldom wear",
    cautions: standsAlone,
  },
  "sudden-step": {
    words: "leakage stepped from {from} to {to} % between two tests while the others stayed",
    likelihoods: [0.08, 0.4, 0.35, 0.4, 0.5, 0.4, 0.08, 0.35],
    mark: "P",
    reason: "a step of one cylinder is an event, not wear",
    cautions: ["test again before any trend is drawn"],
  },
  "slow-own-rise": {
    words: "leakage rose by {rise} points more than in the other cylinders, over {tests} tests",
    likelihoods: [0.35, 0.2, 0.4, 0.5, 0.15, 0.15, 0.15, 0.08],
    mark: "P",
    reason: "a valve seat burns away over several tests; a gasket goes within weeks",
    cautions: standsAlone,
  },
  "neighbours-leak-together": {
    words: "cylinders {pair} leak together, the others do not",
    likelihoods: [0.05, 0.04, 0.06, 0.06, 0.65, 0.3, 0.05, 0.08],
    mark: "S",
    reason: "two neighbours alone are joined by the gasket between them",
    cautions: ["medium on pressure alone, strong with air at the next plug hole"],
  },
  "neighbours-low-together": {
    words: "compression low in cylinders {pair} together, not in the others",
    likelihoods: [0.06, 0.05, 0.08, 0.08, 0.55, 0.28, 0.12, 0.08],
    mark: "S",
    reason: "two neighbours alone are joined by the gasket between them",
    cautions: ["medium on pressure alone: leak-down both"],
  },
  // ---------------------------------------------------------------- compression, dry and wet
  "wet-rise": {
    words: "wet test rose {rise} %",
    likelihoods: [0.75, 0.6, 0.1, 0.1, 0.12, 0.12, 0.08, 0.2],
    mark: "S",
    reason: "oil seals worn rings for a few strokes, and nothing else",
    cautions: ["misleads on opposed engines: oil runs to one side", "too much oil raises any cylinder"],
  },
  "wet-no-rise": {
    words: "wet test did not help ({rise} %)",
    likelihoods: [0.08, 0.2, 0.6, 0.6, 0.6, 0.55, 0.65, 0.35],
    mark: "S",
    reason: "oil on the rings leaves a leaking valve or gasket, or too little lift, as it was",
    cautions: ["misleads on opposed engines: oil runs to one side"],
  },
  "low-compression-one": {
    words: "compression {deficit} % below the other cylinders",
    likelihoods: [0.3, 0.45, 0.45, 0.5, 0.4, 0.35, 0.5, 0.3],
    mark: "J",
    reason: "one low cylinder tells that it leaks or breathes badly, not where",
    cautions: ["one carboned cylinder makes sound ones look low"],
  },
  "low-compression-normal-leakage": {
    words: "compression {deficit} % below the other cylinders, leakage normal ({leakage} %)",
    likelihoods: [0.04, 0.03, 0.06, 0.06, 0.05, 0.03, 0.6, 0.18],
    mark: "P",
    reason: "it holds air but does not fill: cam lobe, rocker, spring, clearance or a blocked inlet",
    cautions: ["one carboned cylinder makes sound ones look low"],
  },
  "all-low": {
    words: "compression low in all cylinders alike",
    likelihoods: [0.5, 0.1, 0.08, 0.08, 0.06, 0.06, 0.3, 0.4],
    mark: "P",
    reason: "common wear, cam timing, or how the test was made; a leak-down test tells them apart",
    cautions: ["exclude throttle, cranking speed and gauge first"],
  },
  "all-low-normal-leakage": {
    words: "compression low in all cylinders alike, leakage normal",
    likelihoods: [0.07, 0.04, 0.04, 0.04, 0.04, 0.04, 0.55, 0.6],
    mark: "P",
    reason: "cam timing, else throttle, cranking speed or gauge",
    cautions: ["exclude throttle, cranking speed and gauge first"],
  },
  "high-leakage-good-compression": {
    words: "leakage {leakage} %, which would cost about {expected} % of compression; only {deficit} % is missing",
    likelihoods: [0.06, 0.04, 0.06, 0.06, 0.05, 0.06, 0.1, 0.75],
    mark: "C",
    reason: "such a leak must lower the pressure: not at top dead centre, a particle, ring gaps in line, the tester",
    cautions: ["compression is blunt: 20 % leakage costs about 8 %"],
  },
  "near-total-leak": {
    words: "leakage {leakage} %: nearly all the air went through",
    likelihoods: [0.03, 0.12, 0.12, 0.12, 0.05, 0.08, 0.2, 0.6],
    mark: "P",
    reason: "a valve stands open when the piston is not at top dead centre on compression",
    cautions: ["repeat it before anything is opened"],
  },
  "first-stroke-builds-up": {
    words: "first stroke low ({first} % of the final reading), then it built up",
    likelihoods: [0.6, 0.45, 0.2, 0.2, 0.25, 0.25, 0.2, 0.2],
    mark: "S",
    reason: "worn rings lose on the first stroke and catch up",
    cautions: ["medium: settle it by a wet test or leak-down"],
  },
  "first-stroke-stays-low": {
    words: "low on the first stroke and did not build up ({first} % of the final reading)",
    likelihoods: [0.15, 0.25, 0.5, 0.5, 0.35, 0.35, 0.35, 0.3],
    mark: "S",
    reason: "a leaking valve loses the same on every stroke",
    cautions: ["too few strokes look the same"],
  },
  // ---------------------------------------------------------------- the test itself
  "reading-doubted": {
    words: "its last {measure} reading is doubtful: {doubt}",
    likelihoods: [0.02, 0.02, 0.02, 0.02, 0.02, 0.02, 0.02, 0.9],
    mark: "J",
    reason: "the reading of this cylinder alone looks like a fault of the set-up, and no re-test has settled it",
    cautions: ["repeat after a run, at top dead centre, before anything is opened"],
  },
  "test-doubted": {
    words: "the last {measure} test is doubtful: {doubt}",
    likelihoods: [0.25, 0.25, 0.25, 0.25, 0.25, 0.25, 0.25, 0.5],
    mark: "J",
    reason: "the whole test was off and no re-test has settled it; its readings are not used",
    cautions: [],
  },
  "not-tested": {
    words: "not tested yet",
    likelihoods: [1, 1, 1, 1, 1, 1, 1, 0.01],
    mark: "J",
    reason: "a test that was never made cannot have been made wrongly",
    cautions: [],
  },
  // ---------------------------------------------------------------- what was renewed
  "top-end-renewed": {
    words: "top end renewed on {date}",
    likelihoods: [0.6, 0.6, 0.3, 0.3, 0.35, 0.3, 0.4, 0.6],
    mark: "P",
    reason: "valves and gasket are younger than the rings, which carry on with their wear",
    cautions: ["tight valves raise the pressure on worn rings"],
  },
  "bottom-end-renewed": {
    words: "rings, pistons and bores renewed on {date}",
    likelihoods: [0.25, 0.3, 0.6, 0.6, 0.4, 0.5, 0.6, 0.6],
    mark: "P",
    reason: "rings and bores are younger than the valves",
    cautions: ["readings improve while new rings run in"],
  },
  // ---------------------------------------------------------------- checks
  "check-borescope-fault": {
    words: "borescope of {date}: {result}",
    likelihoods: [0.4, 0.5, 0.35, 0.45, 0.12, 0.2, 0.08, 0.04],
    mark: "J",
    reason: "something was seen in the cylinder, not said what",
    cautions: [],
  },
  "check-borescope-clear": {
    words: "borescope of {date}: {result}",
    likelihoods: [0.35, 0.2, 0.35, 0.3, 0.6, 0.5, 0.65, 0.65],
    mark: "J",
    reason: "scored walls, a damaged crown and a burnt valve can be seen",
    cautions: ["a seat that leaks may look well"],
  },
  "check-combustion-gas-in-coolant-fault": {
    words: "combustion gas in the coolant on {date}: {result}",
    likelihoods: [0.03, 0.03, 0.03, 0.03, 0.8, 0.8, 0.03, 0.05],
    mark: "S",
    reason: "only the gasket or a crack lets gas into the coolant",
    cautions: gasOnly,
  },
  "check-combustion-gas-in-coolant-clear": {
    words: "combustion gas in the coolant on {date}: {result}",
    likelihoods: [0.9, 0.9, 0.9, 0.9, 0.35, 0.3, 0.9, 0.9],
    mark: "J",
    reason: "a gasket may still leak to its neighbour or outside",
    cautions: [],
  },
  "check-cooling-pressure-fault": {
    words: "cooling system under pressure on {date}: {result}",
    likelihoods: [0.08, 0.08, 0.08, 0.08, 0.5, 0.55, 0.08, 0.1],
    mark: "S",
    reason: "coolant is lost somewhere: gasket, crack, but hoses and pump too",
    cautions: gasOnly,
  },
  "check-cooling-pressure-clear": {
    words: "cooling system under pressure on {date}: {result}",
    likelihoods: [0.9, 0.9, 0.9, 0.9, 0.5, 0.4, 0.9, 0.9],
    mark: "J",
    reason: "the system held its pressure, cold",
    cautions: [],
  },
  "check-valve-clearance-fault": {
    words: "valve clearance on {date}: {result}",
    likelihoods: [0.12, 0.12, 0.35, 0.35, 0.12, 0.12, 0.75, 0.2],
    mark: "P",
    reason: "too tight holds a valve off its seat, too wide costs lift; a seat that sinks closes the clearance",
    cautions: ["adjust, then test again"],
  },
  "check-valve-clearance-clear": {
    words: "valve clearance on {date}: {result}",
    likelihoods: [0.75, 0.75, 0.6, 0.6, 0.75, 0.75, 0.3, 0.7],
    mark: "J",
    reason: "the clearance is right; cam lobe and timing are still open",
    cautions: [],
  },
  "check-valve-lift-fault": {
    words: "valve lift on {date}: {result}",
    likelihoods: [0.05, 0.05, 0.15, 0.15, 0.05, 0.05, 0.85, 0.06],
    mark: "P",
    reason: "a worn lobe, rocker or lifter is measured directly",
    cautions: [],
  },
  "check-valve-lift-clear": {
    words: "valve lift on {date}: {result}",
    likelihoods: [0.75, 0.75, 0.7, 0.7, 0.75, 0.75, 0.2, 0.75],
    mark: "P",
    reason: "lobe, rocker and lifter are right",
    cautions: [],
  },
  "check-blow-by-fault": {
    words: "blow-by on {date}: {result}",
    likelihoods: [0.75, 0.6, 0.15, 0.15, 0.15, 0.2, 0.12, 0.12],
    mark: "S",
    reason: "blow-by flow is a good third witness of rings",
    cautions: ["a flow of the whole engine names no cylinder"],
  },
  "check-blow-by-clear": {
    words: "blow-by on {date}: {result}",
    likelihoods: [0.25, 0.35, 0.7, 0.7, 0.7, 0.7, 0.7, 0.65],
    mark: "S",
    reason: "worn rings would show in the blow-by",
    cautions: [],
  },
  "check-oil-use-fault": {
    words: "oil use on {date}: {result}",
    likelihoods: [0.6, 0.5, 0.28, 0.25, 0.2, 0.2, 0.18, 0.18],
    mark: "P",
    reason: "worn rings use oil; worn valve guides do too",
    cautions: ["an oil use of the whole engine names no cylinder"],
  },
  "check-oil-use-clear": {
    words: "oil use on {date}: {result}",
    likelihoods: [0.4, 0.45, 0.6, 0.6, 0.65, 0.65, 0.65, 0.65],
    mark: "P",
    reason: "worn rings use oil, though not at first",
    cautions: [],
  },
  "check-names-rings-or-bore": named([0.9, 0.1, 0.02, 0.02, 0.02, 0.02, 0.02, 0.02]),
  "check-names-piston": named([0.1, 0.9, 0.02, 0.02, 0.02, 0.03, 0.02, 0.02]),
  "check-names-inlet-valve": named([0.02, 0.02, 0.9, 0.05, 0.02, 0.02, 0.05, 0.02]),
  "check-names-exhaust-valve": named([0.02, 0.02, 0.05, 0.9, 0.02, 0.02, 0.05, 0.02]),
  "check-names-head-gasket": named([0.02, 0.02, 0.02, 0.02, 0.9, 0.12, 0.02, 0.02]),
  "check-names-cracked-head-or-block": named([0.02, 0.02, 0.02, 0.02, 0.12, 0.95, 0.02, 0.02]),
  "check-names-valve-timing": named([0.02, 0.02, 0.05, 0.05, 0.02, 0.02, 0.9, 0.02]),
  "check-names-test-set-up": named([0.05, 0.05, 0.05, 0.05, 0.05, 0.05, 0.05, 0.9]),
} as const satisfies Record<string, EvidenceRow> &
  Record<`check-${CheckKind}-${"fault" | "clear"}`, EvidenceRow> &
  Record<`check-names-${Cause}`, EvidenceRow>;

/** A person looked and named the cause: the strongest evidence short of a strip-down. */
function named(likelihoods: Likelihoods): EvidenceRow {
  return {
    words: "{check} of {date} names it",
    likelihoods,
    mark: "J",
    reason: "someone looked and named the cause",
    cautions: ["what is seen through a plug hole is not yet a strip-down finding"],
  };
}

export type EvidenceId = keyof typeof listed;
export const evidence: Readonly<Record<EvidenceId, EvidenceRow>> = listed;
export const evidenceIds = Object.keys(listed) as readonly EvidenceId[];
