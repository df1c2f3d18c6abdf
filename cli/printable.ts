/** Controls, line ends of all kinds, and what turns the direction of writing. */
const obeyed = /[\p{Cc}\p{Bidi_Control}\u2028\u2029]/gu;

/** Text out of a file, for a terminal: what it would obey instead of show is told as an escape, such as \u001b. */
export const printable = (text: string): string =>
  text.replace(obeyed, (one) => `\\u${one.charCodeAt(0).toString(16).padStart(4, "0")}`);
