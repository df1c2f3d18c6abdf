import { type Cause, causes, repairClassOf } from "../schema/words.ts";
import { numberWords } from "../wording.ts";

/** How a cause is called: as a heading, and inside a sentence. */
const names: Readonly<Record<Cause, { readonly label: string; readonly words: string }>> = {
  "rings-or-bore": { label: "Piston rings or bore", words: "the piston rings or the bore" },
  piston: { label: "Piston", words: "the piston" },
  "inlet-valve": { label: "Inlet valve or seat", words: "the inlet valve or its seat" },
  "exhaust-valve": { label: "Exhaust valve or seat", words: "the exhaust valve or its seat" },
  "head-gasket": { label: "Head gasket", words: "the head gasket" },
  "cracked-head-or-block": { label: "Cracked head or block", words: "a crack in the head or the block" },
  "valve-timing": { label: "Valve timing, lift or clearance", words: "the valve timing, lift or clearance" },
  "test-set-up": { label: "Set-up of the test", words: "the way the test was made, not the engine" },
};

/** Heading of a cause, for a table or a chart: "Exhaust valve or seat". */
export const causeLabel = (cause: Cause): string => names[cause].label;

/** A cause inside a sentence: "… points to the exhaust valve or its seat". */
export const causeWords = (cause: Cause): string => names[cause].words;

/**
 * That two causes act at once, in two sentences: the chance that both are there, and, told apart from it, how little of the
 * loss the lesser one bears. `shares`: of all causes, whose fault the loss mostly is; `percent` writes a probability.
 */
export function togetherWords(
  two: { readonly causes: readonly Cause[]; readonly probability: number },
  shares: readonly { readonly cause: Cause; readonly probability: number }[],
  percent: (probability: number) => string,
): string {
  const shareOf = (cause: Cause) => shares.find((of) => of.cause === cause)?.probability ?? 0;
  const [greater, lesser] = two.causes.toSorted((a, b) => shareOf(b) - shareOf(a)) as [Cause, Cause];
  return `${two.probability >= 0.5 ? "Probably" : "Perhaps"} two faults at once: beside ${causeWords(greater)} also ${causeWords(lesser)}; the chance that both are there is ${percent(two.probability)}. The shares above tell something else, whose fault the loss mostly is; of that the part of ${causeWords(lesser)} is ${percent(shareOf(lesser))}.`;
}

/** Bit of a cause in a set of causes; sets of eight causes are numbers because they are compared for every reading. */
export const causeBit = (cause: Cause): number => 1 << causes.indexOf(cause);

/** All causes whose repair is of one class, as a set of bits. */
export const causesOfClass = (repairClass: "top-end" | "bottom-end" | "test-set-up"): number =>
  causes.reduce((set, cause) => (repairClassOf[cause] === repairClass ? set | causeBit(cause) : set), 0);

const counts = ["no", "one", "two", "three", "four", "five", "six", "seven", "eight"] as const;

/** A small count in words: "four"; above eight in figures. */
export const countInWords = (count: number): string => counts[count] ?? String(count);

/** A percentage as people read it, without its sign: whole from 10 on, one decimal below. */
export function percentInWords(percent: number): string {
  const rounded = Math.round(percent * 10) / 10;
  return numberWords(percent, Math.abs(rounded) >= 10 || Number.isInteger(rounded) ? 0 : 1);
}
