/** How long the text of a search may be. */
export const mostSearchLetters = 100;
