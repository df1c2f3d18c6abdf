import type { EvidenceRow } from "./evidence-row.ts";

/** The test itself, and what was renewed. Likelihoods in the order of `causes`: rings, piston, inlet, exhaust, gasket, crack, timing, set-up. */
export const houseRows = {
  "reading-doubted": {
    words: "its last {measure} reading is doubtful: {doubt}",
    likelihoods: [0.02, 0.02, 0.02, 0.02, 0.02, 0.02, 0.02, 0.9],
    question: null,
    kind: "sight",
    mark: "J",
    reason: "the reading of this cylinder alone looks like a fault of the set-up, and no re-test has settled it",
    cautions: ["repeat after a run, at top dead centre, before anything is opened"],
  },
  "test-doubted": {
    words: "the last {measure} test is doubtful: {doubt}",
    likelihoods: [0.25, 0.25, 0.25, 0.25, 0.25, 0.25, 0.25, 0.5],
    question: null,
    kind: "absence",
    mark: "J",
    reason: "the whole test was off and no re-test has settled it; its readings are not used",
    cautions: [],
  },
  "not-tested": {
    words: "not tested yet",
    likelihoods: [1, 1, 1, 1, 1, 1, 1, 0.01],
    question: null,
    kind: "absence",
    mark: "J",
    reason: "a test that was never made cannot have been made wrongly",
    cautions: [],
  },
  "top-end-renewed": {
    words: "top end renewed on {date}",
    likelihoods: [0.6, 0.6, 0.3, 0.3, 0.35, 0.3, 0.4, 0.6],
    question: null,
    kind: "absence",
    mark: "P",
    reason: "valves and gasket are younger than the rings, which carry on with their wear",
    cautions: ["tight valves raise the pressure on worn rings"],
  },
  "bottom-end-renewed": {
    words: "rings, pistons and bores renewed on {date}",
    likelihoods: [0.25, 0.3, 0.6, 0.6, 0.4, 0.5, 0.6, 0.6],
    question: null,
    kind: "absence",
    mark: "P",
    reason: "rings and bores are younger than the valves",
    cautions: ["readings improve while new rings run in"],
  },
} as const satisfies Record<string, EvidenceRow>;
