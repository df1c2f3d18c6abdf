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

/** Whether two names are the same to whoever reads them. */
export const sameName = (a: string, b: string): boolean => searchWords(a).join(" ") === searchWords(b).join(" ");

/** Whether text holds a word of a search. */
export function holdsWord(text: string, word: string): boolean {
  if (text.includes(word)) return true;
  const number = asNumber(word);
  return number !== null && text.replaceAll("-", "").includes(number);
}

/**
 * What a row is found by: names (of a unit, an engine, a model), also without their dashes and blanks so that "v109" finds
 * V-109, and other words, which are compared as they stand ("limit 28" is no T-28).
 */
export function searchTextOf(names: readonly (string | null | undefined)[], words: readonly (string | null)[]): string {
  const told = names.filter((name) => name != null);
  const joined = told.map((name) => name.replace(/[- ]/g, "")).filter((name, i) => name !== told[i]);
  return searchable([...told, ...joined, ...words.filter((word) => word !== null)].join("\n"));
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
