import { enoughEngines } from "../../../lib/comparison/few-engines.ts";
import type { InstrumentHint, TesterComparison, TesterOffset } from "../../../lib/schema/comparison.ts";
import type { JudgedMeasure } from "../../../lib/schema/words.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { listWords, probabilityWords } from "../../../lib/wording.ts";

/** "4.0 points", "4.0 %": how far, without its direction. */
export function amountWords(f: Formats, measure: JudgedMeasure, amount: number): string {
  const size = Math.abs(amount);
  return measure === "leak-down" ? `${f.number(size, 1)}\u00a0points` : f.percent(size, 1);
}

/** "MF-6, 1.5 mm", "MF-6, bore not noted": as it was typed, also where it begins a sentence. */
export function testerName(
  f: Formats,
  measure: JudgedMeasure,
  { instrument, orificeMm }: Pick<TesterOffset, "instrument" | "orificeMm">,
): string {
  if (measure !== "leak-down") return instrument;
  return `${instrument}, ${orificeMm === null ? "bore not noted" : `${f.number(orificeMm, 1)}\u00a0mm`}`;
}

const tests = (f: Formats, count: number) => (count === 1 ? "1 test" : `${f.number(count)} tests`);
const engines = (f: Formats, count: number) => (count === 1 ? "1 engine" : `${f.number(count)} engines`);

/** What is to be said of one instrument, as a sentence without its full stop. */
export function verdictWords(f: Formats, measure: JudgedMeasure, tester: TesterOffset): string {
  const { verdict, offset, shared, against, soFar } = tester;
  if (offset === null) {
    if (shared === 0) return "no engine was read with it and another, so nothing to compare";
    const few = `too few to tell: ${engines(f, shared)} in common with others`;
    if (soFar === null) return few;
    const by = soFar.engines === shared ? "" : ` (${engines(f, soFar.engines)})`;
    return `${few}; so far ${directionWords(f, measure, soFar.mean)} ${soFar.instrument}${by}`;
  }
  const [low, high] = [offset.low, offset.high].map((v) => Math.abs(v)).sort((a, b) => a - b) as [number, number];
  const figure = (v: number) => f.number(v, 1);
  const basis = `${tests(f, tester.tests)}, ${engines(f, shared)} in common`;
  if (verdict === "none") return `no difference that shows, ${basis}`;
  const range = `(${figure(low)} to ${figure(high)})`;
  if (verdict === "small") {
    return `${directionWords(f, measure, offset.mean)} the others ${range}: too little to matter, ${basis}`;
  }
  const isPair = against.length === 1;
  const beside = isPair ? ` beside ${against[0]}; which of the two is off, the tests do not say` : "";
  return `reads ${amountWords(f, measure, offset.mean)} ${verdict} ${range}${beside}, ${basis}`;
}

/**
 * What few engines leave open of an instrument that nothing else is told of: that they stepped together, or that a fault of
 * it could not be seen; a sentence without its full stop. null: nothing.
 */
export function fewEnginesWords(
  f: Formats,
  measure: JudgedMeasure,
  tester: Pick<TesterOffset, "engines" | "offset">,
  hint: InstrumentHint | undefined,
): string | null {
  if (hint !== undefined) return hintWords(f, measure, hint);
  if (tester.offset !== null || tester.engines >= enoughEngines) return null;
  return `used on ${engines(f, tester.engines)} only: if it reads off, that could not be told apart from wear; compare it with another on the same engine`;
}

function hintWords(f: Formats, measure: JudgedMeasure, { mean, from, engines: count, probability }: InstrumentHint) {
  const step = `${amountWords(f, measure, mean)} ${mean > 0 ? "higher" : "lower"} since ${f.date(from)}`;
  const chance = `${probabilityWords(probability)} likely more than chance`;
  return `a hint only: all ${engines(f, count)} that tell read ${step} (${chance}), too few to tell the instrument from their wear; nothing is corrected, so compare it with another on the same engine`;
}

/** The hint about an instrument; undefined: none. */
export const hintOf = ({ hints }: Pick<TesterComparison, "hints">, instrument: string): InstrumentHint | undefined =>
  hints?.find((hint) => hint.instrument === instrument);

function directionWords(f: Formats, measure: JudgedMeasure, mean: number): string {
  return `${amountWords(f, measure, mean)} ${mean >= 0 ? "above" : "below"}`;
}

/** The page's first sentences. */
export function testersFinding(f: Formats, comparisons: readonly TesterComparison[]): string {
  const off = comparisons.flatMap(({ measure, testers }) =>
    testers
      .filter(({ verdict }) => verdict === "high" || verdict === "low")
      .map((tester) => `${testerName(f, measure, tester)} ${verdictWords(f, measure, tester)}.`),
  );
  if (off.length > 0) return off.slice(0, 2).join(" ");
  const [hint] = comparisons.flatMap(({ measure, hints = [] }) =>
    hints.map((of) => `${of.instrument}: ${hintWords(f, measure, of)}.`),
  );
  if (hint !== undefined) return hint;
  const compared = comparisons.flatMap(({ testers }) => testers.filter((t) => t.offset !== null));
  if (compared.length === 0)
    return "Too few engines were read with more than one instrument to tell whether one reads high.";
  const names = compared.length <= 4 ? ` (${listWords(compared.map((t) => t.instrument))})` : "";
  const count = compared.length === 1 ? "one instrument" : `${f.number(compared.length)} instruments`;
  return `Of ${count} that can be compared${names}, none reads high or low.`;
}
