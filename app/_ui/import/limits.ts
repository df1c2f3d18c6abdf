/** What one import may bring; known to the page, so that nobody waits for a file that is then refused. */
export const mostBytes = 200_000_000;
export const mostFiles = 50;
/** Bytes of all files of one import together. */
export const mostBytesTogether = 400_000_000;
/** Characters of a file's name; what goes beyond is cut off. */
export const longestName = 200;

export const tooLarge = "A file may have up to 200 MB. Cut it in two, each part with the header row.";
export const tooManyFiles = `One import takes up to ${mostFiles} files. Import the others after it.`;
export const tooLargeTogether = "The files of one import may have up to 400 MB together. Import some of them after it.";
