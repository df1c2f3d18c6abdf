import { filled } from "./column-content.ts";
import { convertReading } from "./convert-cell.ts";
import type { Guess } from "./guess-columns.ts";
import type { Layout, ReadingColumn } from "./layout.ts";
import { leakagesByUnit } from "./leakages-by-unit.ts";
import { questionWords } from "./question-words.ts";
import type { Question } from "./suggestion.ts";
import { splitUnit, valueUnitOf } from "./unit-words.ts";

/**
 * Leakages that may be something else: what was held instead of what was lost, or shares of 1. Read the wrong way, a tight
 * engine looks worn out or a worn one tight, so such columns are left out and asked.
 */

export type ReadingGuess = Guess & { readonly is: ReadingColumn };
export const isReading = (guess: Guess): guess is ReadingGuess => guess.is.is === "reading";

export const numbersOf = (texts: readonly string[]): readonly number[] =>
  filled(texts).flatMap((text) => {
    const read = convertReading(text, null, null);
    return read.is === "reading" && Number.isFinite(Number(read.value)) ? [Number(read.value)] : [];
  });

export function medianOf(numbers: readonly number[]): number | null {
  const sorted = numbers.toSorted((a, b) => a - b);
  const middle = sorted.slice(Math.floor((sorted.length - 1) / 2), Math.floor(sorted.length / 2) + 1);
  return middle.length === 0 ? null : middle.reduce((a, b) => a + b, 0) / middle.length;
}

const isPair = (text: string): boolean => /\d\s*\/\s*\d/.test(text);
/** Whether a column holds pressures with their supply (`76/80`) and nothing else. */
export const holdsPairs = (texts: readonly string[]): boolean => {
  const cells = filled(texts);
  return cells.length > 0 && cells.every(isPair);
};

/** Whether of such pairs the lower pressure is what was held: of most cylinders more than half of the supply is. */
function pairsAreHeld(texts: readonly string[]): boolean {
  const shares = filled(texts).flatMap((text) => {
    const read = convertReading(text, "leak-down", null);
    return read.is === "reading" && read.supply !== null ? [Number(read.value) / Number(read.supply)] : [];
  });
  return (medianOf(shares) ?? 1) >= 0.5;
}

/** Above this (%) most cylinders of a fleet would not run: the figures are more likely what was held. */
const moreThanLost = 60;

/** Whether leakages (%) are so high that they are more likely what was held. */
export const looksHeld = (texts: readonly string[]): boolean => (medianOf(numbersOf(texts)) ?? 0) > moreThanLost;

/** A spreadsheet's 12 % comes out as 0.12: leakages that are all at most 1, and not all whole. */
export function looksLikeShares(texts: readonly string[]): boolean {
  const numbers = numbersOf(filled(texts).filter((text) => !text.includes("%")));
  return numbers.length > 2 && Math.max(...numbers) <= 1 && numbers.some((number) => !Number.isInteger(number));
}

/** Whether a column of a leak-down test is in a pressure: by its heading, or by a cell of its own. */
const isPressure = ({ is, texts }: ReadingGuess): boolean =>
  is.unit === null
    ? holdsPairs(texts) ||
      filled(texts).some((text) => {
        const unit = valueUnitOf(splitUnit(text).unit);
        return unit !== null && unit !== "%";
      })
    : is.unit !== "%";

/** `constants`: what holds for the whole file. */
export function settleLeakages(
  guesses: readonly Guess[],
  constants: Layout["constants"],
): { readonly guesses: readonly Guess[]; readonly questions: readonly Question[] } {
  const leakages = leakagesByUnit(
    { columns: guesses.map(({ is }) => is), constants },
    guesses.map(({ texts }) => texts),
  );
  const readings = guesses.flatMap((guess, index) => (isReading(guess) ? [{ index, guess }] : []));
  const inPercent = readings.filter(
    ({ index, guess }) => guess.is.unit === "%" || leakages[index]?.percent.length !== 0,
  );
  const textsOfPercent = leakages.flatMap(({ percent }) => percent);
  const shares = looksLikeShares(textsOfPercent) ? inPercent : [];
  const isHigh = looksHeld(textsOfPercent);
  const percentHeld = inPercent.filter(({ guess }) => isHigh || guess.heading.sense === "held");
  // A pressure beside `held`, or with its supply in the same cell and near it, is what was held; any other may be lost.
  const pressureLost = readings.filter(({ index, guess }) => {
    const { heading, texts } = guess;
    // A row or the file that tells the pressure says no more than its heading does of what became of it.
    if (heading.sense === "lost" && leakages[index]?.pressure.length !== 0) return true;
    const isHeld = holdsPairs(texts) ? heading.sense !== "lost" && pairsAreHeld(texts) : heading.sense === "held";
    return (guess.is.measure ?? constants.test) === "leak-down" && isPressure(guess) && !isHeld;
  });

  const questions: Question[] = [];
  const leftOut = new Map<number, string>();
  const ask = (
    code: "share" | "leak-sense",
    columns: typeof readings,
    { words, why, choice }: { readonly words: string; readonly why: string; readonly choice: string | null },
  ) => {
    if (columns.length === 0) return;
    const becomes = { columns: columns.map(({ index, guess }) => ({ index, is: guess.is })), constants: {} };
    const choices = choice === null ? [] : [{ value: choice, words: choice, becomes }];
    questions.push({ code, words, needed: true, columns: columns.map(({ index }) => index), choices, likely: null });
    for (const { index } of columns) leftOut.set(index, why);
  };
  const headers = (columns: typeof readings) => columns.map(({ guess }) => guess.header);
  const example = textsOfPercent[0] ?? "";
  const why = "It may be what was lost or what was held.";
  ask("share", shares, {
    words: questionWords.share(headers(shares), example),
    why: "Its leakages look like shares of 1.",
    choice: null,
  });
  ask("leak-sense", percentHeld, { words: questionWords.percentSense(headers(percentHeld)), why, choice: "lost" });
  ask("leak-sense", pressureLost, { words: questionWords.pressureSense(headers(pressureLost)), why, choice: "held" });
  const settled = guesses.map((guess, i): Guess => {
    const reason = leftOut.get(i);
    if (reason === undefined) return guess;
    return { ...guess, is: { header: guess.header, is: "ignored" }, sureness: "unknown", why: reason };
  });
  return { guesses: settled, questions };
}
