import type { Guess } from "./guess-columns.ts";
import { questionWords } from "./question-words.ts";
import type { Question } from "./suggestion.ts";

/** Columns of readings whose headings have a number that may not be that of a cylinder as the engine counts them. */

/** A heading of a cylinder that there is not: with it, each of its neighbours is of another than it says. */
const isNought = (header: string) => /\b(?:cyl(?:inder)?s?|pot)\W*(?:no\W*)?0{1,2}\b/i.test(header);

/**
 * The guesses without such readings, which are asked: the rows name the cylinder already, so that the number (`1st`, `2nd`)
 * is of something else; or the cylinders are counted from 0.
 */
export function withoutDoubtfulCylinders(guesses: readonly Guess[], questions: Question[]): readonly Guess[] {
  const numbered = guesses.flatMap(({ is }, i) => (is.is === "reading" && is.cylinder !== null ? [i] : []));
  const inRows = guesses.some(({ is }) => is.is === "field" && is.field === "cylinder");
  const nought = guesses.map(({ header }) => header).find(isNought);
  if (numbered.length === 0 || (!inRows && nought === undefined)) return guesses;
  const words = inRows
    ? questionWords.numbersBesideCylinders(numbered.map((i) => guesses[i]?.header ?? ""))
    : questionWords.countedFromNought(nought ?? "");
  const why = inRows ? "Its rows name a cylinder already." : "Its cylinder may be counted from 0.";
  questions.push({ code: "cylinder", needed: true, words, columns: numbered, choices: [], likely: null });
  return guesses.map((guess, i) =>
    numbered.includes(i) ? { ...guess, is: { header: guess.header, is: "ignored" }, sureness: "unknown", why } : guess,
  );
}
