import type { IsoDate } from "./schema/facts.ts";
import type { CheckKind, Measure, MeterUnit, RepairScope } from "./schema/words.ts";

/** How numbers, dates and cylinders are written in the sentences that several stages make. Plain text, British English. */

// Own names: the English locale of the runtime writes "Sept".
const months = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"] as const;

/** "9 Nov 2026" */
export function dateWords(date: IsoDate): string {
  return `${Number(date.slice(8, 10))} ${months[Number(date.slice(5, 7)) - 1]} ${date.slice(0, 4)}`;
}

/** "Nov 2026" */
export const monthWords = (date: IsoDate): string => `${months[Number(date.slice(5, 7)) - 1]} ${date.slice(0, 4)}`;

/** "1,010", "−3.2": that many decimals, thousands parted by commas, a true minus sign; never "−0". */
export function numberWords(value: number, decimals = 0): string {
  const digits = Math.abs(value).toFixed(decimals);
  const [whole = "", fraction] = digits.split(".");
  const sign = value < 0 && Number(digits) !== 0 ? "−" : "";
  return `${sign}${whole.replace(/\B(?=(\d{3})+$)/g, ",")}${fraction === undefined ? "" : `.${fraction}`}`;
}

/** Decimals that a figure was entered with, at most 2: 18 has none, 17.5 has one. */
export const enteredDecimals = (value: number): number => [0, 1].find((d) => Number(value.toFixed(d)) === value) ?? 2;

/** "1,010 kPa" */
export const kpaWords = (kpa: number): string => `${numberWords(kpa)} kPa`;

/** "22 %" of 22 */
export const percentWords = (percent: number): string => `${numberWords(percent)} %`;

/** "22 %" of 0.22; "under 1 %" and "over 99 %" for what is neither impossible nor certain. */
export function probabilityWords(probability: number): string {
  if (probability > 0 && probability < 0.01) return "under 1 %";
  if (probability < 1 && probability > 0.99) return "over 99 %";
  return percentWords(100 * probability);
}

/** "148,600 km" */
export const meterWords = (value: number, unit: MeterUnit): string => `${numberWords(value)} ${unit}`;

/** "1 day", "12 days" */
export const dayWords = (days: number): string => `${numberWords(days)} ${Math.abs(days) === 1 ? "day" : "days"}`;

/** "1 month", "12 months" */
export const monthCountWords = (months: number): string =>
  `${numberWords(months)} ${months === 1 ? "month" : "months"}`;

/** "a", "a and b", "a, b and c" */
export function listWords(items: readonly string[]): string {
  return items.length < 2 ? items.join("") : `${items.slice(0, -1).join(", ")} and ${items.at(-1)}`;
}

/** "cylinder 3", "cylinders 2 and 5", "cylinders 1 to 4, 6 and 7"; the numbers ascending. */
export function cylinderWords(cylinders: readonly number[]): string {
  const runs: number[][] = [];
  for (const c of cylinders) {
    const run = runs.at(-1);
    if (run !== undefined && run.at(-1) === c - 1) run.push(c);
    else runs.push([c]);
  }
  const parts = runs.flatMap((run) => (run.length > 2 ? [`${run[0]} to ${run.at(-1)}`] : run.map(String)));
  return `${cylinders.length === 1 ? "cylinder" : "cylinders"} ${listWords(parts)}`;
}

/** Names told in a sentence before the rest is counted. */
const mostNamed = 12;

/** The first dozen of what is named, and how many more there are: "A, B and 5 more" once they are joined. */
export const firstNamed = (names: readonly string[]): readonly string[] =>
  names.length <= mostNamed ? names : [...names.slice(0, mostNamed), `${numberWords(names.length - mostNamed)} more`];

/** The sentence with its first letter raised. */
export const sentenceWords = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);

/** How a test of a measure is called in a sentence: "leak-down test". */
export const measureWords = {
  "leak-down": "leak-down",
  "compression-dry": "compression",
  "compression-wet": "wet compression",
} as const satisfies Record<Measure, string>;

/** How a repair is called in a sentence. */
export const scopeWords = {
  "top-end": "top-end repair",
  "bottom-end": "bottom-end repair",
  complete: "complete overhaul",
  "engine-swap": "engine swap",
  adjustment: "adjustment",
} as const satisfies Record<RepairScope, string>;

/** How a check is called in a sentence. */
export const checkWords = {
  borescope: "borescope",
  "combustion-gas-in-coolant": "combustion-gas test",
  "cooling-pressure": "cooling-system pressure test",
  "valve-clearance": "valve clearance check",
  "valve-lift": "valve lift check",
  "blow-by": "blow-by check",
  "oil-use": "oil-use check",
} as const satisfies Record<CheckKind, string>;

const smallNumbers = [
  "no",
  "one",
  "two",
  "three",
  "four",
  "five",
  "six",
  "seven",
  "eight",
  "nine",
  "ten",
  "eleven",
  "twelve",
] as const;

/** A count within a sentence: words up to twelve ("no", "one" …), figures beyond. */
export const countWord = (count: number): string => smallNumbers[count] ?? numberWords(count);
