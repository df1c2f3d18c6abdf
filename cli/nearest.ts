/** Number of letters to put in, take out, change or swap with their neighbour to get from one word to the other. */
function editDistance(a: string, b: string): number {
  const rows: number[][] = [Array.from({ length: b.length + 1 }, (_, j) => j)];
  const at = (i: number, j: number) => rows[i]?.[j] ?? Number.POSITIVE_INFINITY;
  for (let i = 1; i <= a.length; i++) {
    rows.push([i]);
    for (let j = 1; j <= b.length; j++) {
      const change = at(i - 1, j - 1) + (a[i - 1] === b[j - 1] ? 0 : 1);
      const isSwap = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1];
      const swap = isSwap ? at(i - 2, j - 2) + 1 : change;
      (rows[i] as number[]).push(Math.min(change, swap, at(i - 1, j) + 1, at(i, j - 1) + 1));
    }
  }
  return at(a.length, b.length);
}

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
