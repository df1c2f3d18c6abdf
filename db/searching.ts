/**
 * How the search compares text, in the database and beside it: upper and lower case, and the ways in which one sign can be
 * written, make no difference. Words of a search may stand anywhere.
 */

/** Text for finding, the same for what is searched and what is looked for, in every dialect. */
export const searchable = (text: string): string =>
  // No name holds a control sign, and the database would end its reading at some of them; a line's end parts two names.
  text
    .normalize("NFKC")
    .toLowerCase()
    .replace(/[^\P{Cc}\n]/gu, " ");

/** The words of a search. */
export const searchWords = (search: string): string[] => searchable(search).split(/\s+/).filter(Boolean);

/**
 * A word that looks like a number of something ("v109", "V-109"), without its dashes, to be found in text without dashes and
 * blanks; null: the word is none, or nothing is left of it.
 */
export const asNumber = (word: string): string | null =>
  /\p{L}/u.test(word) && /\p{N}/u.test(word) ? word.replaceAll("-", "") : null;

/** Whether text holds a word of a search. */
export function holdsWord(text: string, word: string): boolean {
  if (text.includes(word)) return true;
  const number = asNumber(word);
  return number !== null && text.replace(/[- ]/g, "").includes(number);
}

/**
 * Whether text names everything that a search asks for, given what kind of thing the text names: "lowmarsh depot" finds
 * the depot Lowmarsh. What is asked for by the kind alone is not found by it.
 */
export function isAskedFor(text: string, search: string, kind: string): boolean {
  const words = searchWords(search);
  const all = searchable(text);
  return words.every((word) => holdsWord(all, word)) || withoutKind(words, kind).every((word) => holdsWord(all, word));
}

/** The words of a search without those that say what kind of thing is looked for, unless nothing else is left. */
export function withoutKind(words: readonly string[], kind: string): readonly string[] {
  const others = words.filter((word) => word !== kind && word !== `${kind}s`);
  return others.length === 0 ? words : others;
}
