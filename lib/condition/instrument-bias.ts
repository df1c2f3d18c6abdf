import type { InstrumentBias } from "../schema/comparison.ts";
import type { SealedTest } from "../sealing/types.ts";
import { dateWords, numberWords, percentWords, probabilityWords } from "../wording.ts";
import { type DoubtSheet, noteDoubt } from "./doubt-sheet.ts";
import { weightOf } from "./fault-probability.ts";

/**
 * What is left of the weight of a test whose instrument surely reads off: where the engine has tests enough by others, and
 * where it has not, so that its trend is still told though its level may be off.
 */
const besideOthers = 0.1;
const byItself = 0.35;
const enoughOthers = 3;
/** Below this a test is told as hardly used. */
const hardlyUsed = 0.3;

/**
 * Doubts tests made with an instrument, or at a depot, that the tests of the whole fleet show to read off
 * (lib/comparison/instrument-biases.ts): one unit's tests alone can't tell a gauge that has drifted from an engine that has
 * worn. What they weigh follows the probability that it is off at all. A test is doubted once, by what is surest; and only
 * tests that nothing is said of are others to go by.
 */
export function noteInstrumentBiases(sheet: DoubtSheet, biases: readonly InstrumentBias[]): void {
  const { tests } = sheet.history;
  const surest = tests.map((test) =>
    biases
      .filter((bias) => isConcerned({ ...test, ...test.setUp }, bias))
      .reduce<InstrumentBias | null>((best, bias) => (best === null || isSurer(bias, best) ? bias : best), null),
  );
  for (const [t, bias] of surest.entries()) {
    if (bias === null) continue;
    const others = new Set(tests.flatMap((o, i) => (o.measure === bias.measure && surest[i] === null ? [o.date] : [])));
    const weight = weightOf(bias.probability, others.size >= enoughOthers ? besideOthers : byItself);
    const words = `${biasWords(bias)}: ${weight < hardlyUsed ? "hardly used" : "counts less"}; check it, and test again with another`;
    noteDoubt(sheet, t, { code: "instrument-off", cylinder: null, weight, words });
  }
}

/** Of two as sure as each other the larger one; else the first. */
const isSurer = (a: InstrumentBias, b: InstrumentBias): boolean =>
  a.probability > b.probability || (a.probability === b.probability && Math.abs(a.mean) > Math.abs(b.mean));

/** Whether a test was made with it, while it read off. */
export function isConcerned(
  test: Pick<SealedTest, "measure" | "depot" | "instrument" | "date"> & { readonly orificeMm: number | null },
  { measure, of, name, instruments, orificeMm, from, until }: InstrumentBias,
): boolean {
  if (test.measure !== measure || (of === "depot" ? test.depot : test.instrument) !== name) return false;
  if (instruments !== null && (test.instrument === null || !instruments.includes(test.instrument))) return false;
  if (measure === "leak-down" && orificeMm !== "any" && test.orificeMm !== orificeMm) return false;
  return (from === null || test.date >= from) && (until === null || test.date < until);
}

/** "gauge G-7 has read about 9 % low since 3 May 2026, on 6 engines alike (97 % likely a fault of the instrument)" */
function biasWords({ measure, of, name, instruments, from, mean, engines, probability }: InstrumentBias): string {
  const size = Math.abs(mean);
  const amount = measure === "leak-down" ? `${numberWords(size, size < 10 ? 1 : 0)} points` : percentWords(size);
  const off = `about ${amount} ${mean > 0 ? "high" : "low"}`;
  const alike = `on ${numberWords(engines)} engines alike`;
  const likely = probabilityWords(probability);
  if (from === null)
    return `${name} reads ${off} beside the others, ${alike} (${likely} likely a fault of the instrument)`;
  const since = `since ${dateWords(from)}`;
  if (of === "instrument")
    return `${name} has read ${off} ${since}, ${alike} (${likely} likely a fault of the instrument)`;
  const by = instruments === null ? "" : ` with ${instruments.join(", ")}`;
  return `tests at ${name}${by} have read ${off} ${since}, ${alike} (${likely} likely a fault of the tester)`;
}
