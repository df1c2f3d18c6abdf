import type { EvidenceRow } from "./evidence-row.ts";

const withSiblings = "compare with the siblings of the same test first: most error is shared by the whole test";

/** How much leaks, whether the siblings leak too, and how it came there. Likelihoods in the order of `causes`: rings, piston, inlet, exhaust, gasket, crack, timing, set-up. */
export const leakageRows = {
  "leakage-sound": {
    words: "leakage {leakage} %, below the watch level",
    likelihoods: [0.6, 0.5, 0.5, 0.5, 0.45, 0.42, 0.6, 0.55],
    question: null,
    kind: "absence",
    mark: "J",
    reason: "little evidence at all: each cause starts small",
    cautions: [],
  },
  "held-over-tests": {
    words: "raised in {tests} tests running",
    likelihoods: [0.6, 0.6, 0.6, 0.6, 0.6, 0.6, 0.6, 0.12],
    question: null,
    kind: "sight",
    mark: "J",
    reason: "a fault of the set-up seldom comes back the same in the next test",
    cautions: [],
  },
  "all-raised-alike": {
    words: "all {cylinders} cylinders leak alike ({range} %)",
    likelihoods: [0.7, 0.1, 0.06, 0.06, 0.06, 0.06, 0.15, 0.25],
    question: "siblings",
    kind: "absence",
    mark: "P",
    reason: "rings and bores wear together; valves, gasket and pistons fail one by one",
    cautions: ["a leak at the tester's hose raises all alike too"],
  },
  "rose-together": {
    words: "leakage rose from {from} to {to} % in all {cylinders} cylinders alike",
    likelihoods: [0.6, 0.15, 0.12, 0.12, 0.1, 0.1, 0.15, 0.2],
    question: "course",
    kind: "absence",
    mark: "P",
    reason: "slow common ageing is the mark of rings and bores",
    cautions: ["another tester shifts all cylinders as well"],
  },
  "stands-out": {
    words: "leakage {leakage} %, the other cylinders {others} %",
    likelihoods: [0.16, 0.5, 0.5, 0.55, 0.3, 0.4, 0.15, 0.4],
    question: "siblings",
    kind: "sight",
    mark: "J",
    reason: "one cylinder alone is an event (valve, gasket, piston), seldom wear",
    cautions: [withSiblings],
  },
  "sudden-step": {
    words: "leakage stepped from {from} to {to} % between two tests while the others stayed",
    likelihoods: [0.08, 0.4, 0.35, 0.4, 0.5, 0.4, 0.08, 0.35],
    question: "course",
    kind: "sight",
    mark: "P",
    reason: "a step of one cylinder is an event, not wear",
    cautions: ["test again before any trend is drawn"],
  },
  "slow-own-rise": {
    words: "leakage rose by {rise} points more than in the other cylinders, over {tests} tests",
    likelihoods: [0.35, 0.2, 0.4, 0.5, 0.15, 0.15, 0.15, 0.08],
    question: "course",
    kind: "sight",
    mark: "P",
    reason: "a valve seat burns away over several tests; a gasket goes within weeks",
    cautions: [withSiblings],
  },
  "neighbours-leak-together": {
    words: "cylinders {pair} leak together, the others do not",
    likelihoods: [0.05, 0.04, 0.06, 0.06, 0.62, 0.3, 0.05, 0.08],
    question: "siblings",
    kind: "sight",
    mark: "S",
    reason: "two neighbours alone are joined by the gasket between them",
    cautions: ["medium on pressure alone, strong with air at the next plug hole"],
  },
} as const satisfies Record<string, EvidenceRow>;
