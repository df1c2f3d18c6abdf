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
    likelihoods: [0.4, 0.1, 0.08, 0.08, 0.07, 0.07, 0.1, 0.13],
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
    words: "leakage came to {to} % in one step between two tests; at its place beside the others it would be {from} %",
    likelihoods: [0.06, 0.4, 0.35, 0.38, 0.5, 0.4, 0.08, 0.35],
    question: "course",
    kind: "sight",
    mark: "P",
    reason: "a step of one cylinder is an event, not wear",
    cautions: ["test again before any trend is drawn"],
  },
  "fast-own-rise": {
    words: "leakage rose fast, by {rise} points more than in the other cylinders, within {tests} tests",
    likelihoods: [0.06, 0.2, 0.35, 0.42, 0.25, 0.2, 0.1, 0.08],
    question: "course",
    kind: "sight",
    mark: "P",
    reason:
      "a valve goes from its first hiss to the limit within 50 to 400 h or 3,000 to 25,000 km; rings take thousands",
    cautions: [withSiblings],
  },
  "slow-own-rise": {
    words: "leakage rose slowly, by {rise} points more than in the other cylinders, over {tests} tests",
    likelihoods: [0.22, 0.09, 0.09, 0.075, 0.06, 0.06, 0.075, 0.03],
    question: "course",
    kind: "sight",
    mark: "P",
    reason:
      "so slow a rise of one cylinder is rather uneven wear; a burning seat is faster, a gasket goes within weeks",
    cautions: [withSiblings, "a scored bore or a broken ring is ring wear of one cylinder"],
  },
  "always-apart": {
    words: "leaks {times} % more than the other cylinders in all of {tests} tests, and did not part from them further",
    likelihoods: [0.2, 0.07, 0.05, 0.04, 0.05, 0.05, 0.1, 0.07],
    question: "course",
    kind: "sight",
    mark: "J",
    reason:
      "bores wear unevenly from the start and keep their proportion; a valve or a gasket that leaks does not stand still",
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
