import { mostCylinders } from "../schema/rows.ts";
import { contentFits } from "./column-content.ts";
import type { Guess } from "./guess-columns.ts";
import type { LayoutColumn } from "./layout.ts";
import { questionWords } from "./question-words.ts";
import type { Choice, Question } from "./suggestion.ts";

/** Cylinders that a header names by letters: `A`, `B`, `C`, `D`, side by side. */

/** Fewer letters side by side are no row of cylinders. */
const fewest = 3;

/** For each column the place of its letter in such a row, from 1; null: it is in none. Only one row of letters is looked for. */
export function letteredColumns(headings: readonly string[]): readonly (number | null)[] {
  const none = headings.map(() => null);
  const start = headings.findIndex((heading) => /^a$/i.test(heading.trim()));
  if (start === -1) return none;
  let count = 0;
  while ((headings[start + count] ?? "").trim().toUpperCase() === String.fromCharCode(65 + count)) count += 1;
  if (count < fewest || count > mostCylinders) return none;
  return headings.map((_, i) => (i >= start && i < start + count ? i - start + 1 : null));
}

/** Readings below `A`, `B`, `C`: likely cylinders in their order, but nothing says so, and it is asked. */
export function withLetters(
  guesses: readonly Guess[],
  headings: readonly string[],
  questions: Question[],
): readonly Guess[] {
  const letters = letteredColumns(headings);
  const at = letters.flatMap((place, i) =>
    place !== null && contentFits("value", guesses[i]?.texts ?? []) ? [i] : [],
  );
  if (at.length === 0 || at.length < letters.filter((place) => place !== null).length) return guesses;
  const as = guesses.map((guess, i): Guess => {
    if (!at.includes(i)) return guess;
    const is: LayoutColumn = {
      header: guess.header,
      is: "reading",
      measure: null,
      cylinder: letters[i] as number,
      unit: null,
    };
    return { ...guess, is, sureness: "likely", why: "By its place in a row of letters." };
  });
  const columns = at.map((index) => ({ index, is: as[index]?.is as LayoutColumn }));
  const words = questionWords.letters(at.map((i) => guesses[i]?.header ?? ""));
  const choice: Choice = {
    value: "in-order",
    words: "cylinders in this order, from 1",
    becomes: { columns, constants: {} },
  };
  const others = questions.filter(({ code, columns: of }) => code !== "column" || !of.some((i) => at.includes(i)));
  questions.splice(0, questions.length, ...others, {
    code: "cylinder",
    needed: true,
    words,
    columns: at,
    choices: [choice],
    likely: "in-order",
  });
  return as;
}
