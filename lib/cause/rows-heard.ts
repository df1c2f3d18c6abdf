import type { EvidenceRow } from "./evidence-row.ts";

/** Where air was heard. Likelihoods in the order of `causes`: rings, piston, inlet, exhaust, gasket, crack, timing, set-up. */
export const heardRows = {
  "heard-crankcase": {
    words: "air heard at the crankcase {when}",
    likelihoods: [0.85, 0.75, 0.22, 0.22, 0.18, 0.18, 0.3, 0.25],
    question: "heard",
    kind: "sight",
    mark: "S",
    reason: "air past rings, piston or bore comes out at dipstick, filler or vent",
    cautions: ["air always passes rings: below the watch level some crankcase sound is normal"],
  },
  "heard-inlet": {
    words: "air heard at the inlet {when}",
    likelihoods: [0.03, 0.03, 0.85, 0.04, 0.05, 0.06, 0.15, 0.12],
    question: "heard",
    kind: "sight",
    mark: "S",
    reason: "an inlet valve or seat that leaks; too tight a clearance or carbon do the same",
    cautions: ["adjust a tight clearance and test again before booking a valve job"],
  },
  "heard-exhaust": {
    words: "air heard at the exhaust {when}",
    likelihoods: [0.03, 0.03, 0.04, 0.85, 0.05, 0.06, 0.15, 0.12],
    question: "heard",
    kind: "sight",
    mark: "S",
    reason: "an exhaust valve or seat that leaks; too tight a clearance or carbon do the same",
    cautions: [
      "listen at the port or manifold: any leak before the tail pipe lets the air out early, so silence there proves nothing",
      "adjust a tight clearance and test again before booking a valve job",
    ],
  },
  "heard-coolant": {
    words: "bubbles in the coolant {when}",
    likelihoods: [0.01, 0.01, 0.01, 0.01, 0.7, 0.75, 0.01, 0.02],
    question: "heard",
    kind: "sight",
    mark: "S",
    reason: "only the gasket or a crack lets cylinder air into the coolant",
    cautions: ["tells that it leaks, hardly what leaks: gasket or crack stays open until the head is off"],
  },
  "heard-neighbour": {
    words: "air heard at the next cylinder {when}",
    likelihoods: [0.03, 0.03, 0.06, 0.06, 0.8, 0.15, 0.05, 0.06],
    question: "heard",
    kind: "sight",
    mark: "S",
    reason: "the gasket bridge between two cylinders that share it",
    cautions: ["with all plugs out, air past a valve can run through the manifold and out of another plug hole"],
  },
  "heard-neighbour-far": {
    words: "air heard at another cylinder {when}, though none shares a gasket bridge with it",
    likelihoods: [0.12, 0.12, 0.3, 0.25, 0.1, 0.1, 0.22, 0.2],
    question: "heard",
    kind: "sight",
    mark: "P",
    reason: "without a shared bridge the air came through the manifold, past a valve",
    cautions: ["weak: check which plug hole it was"],
  },
  "heard-nowhere": {
    words: "leakage raised, yet no air heard anywhere {when}",
    likelihoods: [0.16, 0.1, 0.1, 0.2, 0.15, 0.2, 0.2, 0.5],
    question: "heard",
    kind: "absence",
    mark: "J",
    reason:
      "a leak at the hose or the adaptor is heard nowhere in the engine; of the valves the exhaust is missed most, for silence at the tail pipe proves nothing",
    cautions: ["a noisy shop hides a small leak"],
  },
} as const satisfies Record<string, EvidenceRow>;
