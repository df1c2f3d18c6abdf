import type { SealedTest } from "../sealing/types.ts";
import { numberWords } from "../wording.ts";
import { type DoubtSheet, noteDoubt } from "./doubt-sheet.ts";

const slowShare = 0.7;

/** What the set-up columns say was not done, what is then left of the readings' weight, and what that does to them. */
const conditions = [
  { key: "warm", of: "both", weight: 0.25, words: "engine cold: reads worse than it is, hardly used" },
  { key: "throttleOpen", of: "compression", weight: 0, words: "throttle shut: all cylinders read low; kept, not used" },
  {
    key: "allPlugsOut",
    of: "compression",
    weight: 0.25,
    words: "plugs left in: cranks slowly and reads low, hardly used",
  },
  { key: "tdcConfirmed", of: "leak-down", weight: 0.5, words: "top dead centre not confirmed: counts half" },
  {
    key: "gaugeZeroed",
    of: "leak-down",
    weight: 0.25,
    words: "tester not zeroed: all cylinders may be shifted, hardly used",
  },
] as const;

/**
 * Doubts about tests whose set-up columns say that they were not done right; a column that was not filled in is no
 * doubt. A compression test cranked below 0.7 times the model's reference speed is not used at all: leaky cylinders lose
 * most, so that not even the cylinders can be compared.
 */
export function noteSetUpDoubts(sheet: DoubtSheet): void {
  const referenceRpm = sheet.history.model.compression?.referenceRpm;
  for (const [t, test] of sheet.history.tests.entries()) {
    const { setUp } = test;
    const rpm = setUp.crankingRpm;
    if (isCompression(test) && referenceRpm !== undefined && rpm !== null && rpm < slowShare * referenceRpm) {
      noteDoubt(sheet, t, {
        code: "slow-cranking",
        cylinder: null,
        weight: 0,
        words: `cranked at ${numberWords(rpm)}/min, reference ${numberWords(referenceRpm)}/min: kept, not used`,
      });
    }
    for (const { key, of, weight, words } of conditions) {
      if (setUp[key] !== false || (of !== "both" && (of === "compression") !== isCompression(test))) continue;
      noteDoubt(sheet, t, { code: "set-up-not-met", cylinder: null, weight, words });
    }
  }
}

const isCompression = (test: SealedTest): boolean => test.measure !== "leak-down";
