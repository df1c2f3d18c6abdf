/** Letters of a file that may be a layout: a thousand columns with long headings are shorter. */
export const largestLayoutFile = 900_000;
