import { editDistance } from "../lib/edit-distance.ts";

/** So many letters may be amiss in a word that is taken for a slip of another; in a longer one a third of them. */
const fewLetters = 2;

/** The word that the one typed is most likely a slip of, the first of equals; undefined: it is like none. */
function nearest(typed: string, words: readonly string[]): string | undefined {
  const mostAmiss = Math.max(fewLetters, Math.floor(typed.length / 3));
  const near = words
    .map((word) => ({ word, amiss: editDistance(typed, word) }))
    // All letters amiss is another word, however short.
    .filter(({ word, amiss }) => amiss <= mostAmiss && amiss < Math.min(typed.length, word.length));
  return near.sort((a, b) => a.amiss - b.amiss)[0]?.word;
}

/** "; did you mean assess?", or a full stop where no word is like the one typed. */
export function orNearest(typed: string, words: readonly string[]): string {
  const near = nearest(typed, words);
  return near === undefined ? "." : `; did you mean ${near}?`;
}
