import type { DelimiterName, Encoding, ReadAs } from "../../../lib/schema/reading.ts";

/** What encodings and delimiters are called on a page. */
export const encodingTitles: Readonly<Record<Encoding, string>> = {
  "utf-8": "UTF-8",
  "utf-16le": "UTF-16, little endian",
  "utf-16be": "UTF-16, big endian",
  "windows-1252": "Windows-1252",
};
export const delimiterTitles: Readonly<Record<DelimiterName, string>> = {
  comma: "Commas",
  semicolon: "Semicolons",
  tab: "Tabs",
  bar: "Bars",
};

/** How a file was read, in short: "UTF-8, parted by semicolons" or "sheet “Tests”"; empty: nothing is known of it. */
export function readAsWords(readAs: ReadAs | null): string {
  if (readAs === null) return "";
  if (readAs.sheet !== null) return `sheet “${readAs.sheet}”`;
  const parts: string[] = [];
  if (readAs.encoding !== null) parts.push(encodingTitles[readAs.encoding]);
  if (readAs.delimiter !== null) parts.push(`parted by ${delimiterTitles[readAs.delimiter].toLowerCase()}`);
  return parts.join(", ");
}
