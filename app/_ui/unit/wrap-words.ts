/** Breaks words into at most `most` lines of about `width` characters; what is left over ends in an ellipsis. */
export function wrapWords(words: string, width: number, most: number): string[] {
  const lines: string[] = [];
  for (const word of words.split(/\s+/).filter(Boolean)) {
    const last = lines.at(-1);
    if (last !== undefined && last.length + 1 + word.length <= width) lines[lines.length - 1] = `${last} ${word}`;
    else if (lines.length < most) lines.push(word);
    else {
      lines[most - 1] = `${last}…`;
      break;
    }
  }
  return lines;
}
