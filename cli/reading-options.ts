import { delimiterNames, encodings, type ReadingChoice, readingChoiceSchema } from "../lib/schema/reading.ts";
import { orNearest } from "./nearest.ts";
import { Refusal } from "./refusal.ts";

/** Options of commands that read files: how these are to be read, where that is not to be found out. */
export const readingOptions = {
  encoding: { type: "string" },
  delimiter: { type: "string" },
  sheet: { type: "string" },
} as const;

interface Given {
  readonly encoding?: string | undefined;
  readonly delimiter?: string | undefined;
  readonly sheet?: string | undefined;
}

/** Checks what was given; it holds for every file of the command. */
export function readReadingOptions({ encoding, delimiter, sheet }: Given): ReadingChoice {
  const word = delimiter === undefined ? undefined : (byMark[delimiter] ?? delimiter);
  refuseUnlessOneOf("encoding", encoding, encodings);
  refuseUnlessOneOf("delimiter", word, delimiterNames);
  if (sheet?.trim() === "") throw new Refusal("--sheet is empty; give the name of a sheet.");
  return readingChoiceSchema.parse({ encoding, delimiter: word, sheet });
}

/** The mark itself says as much as its name. */
const byMark: Readonly<Record<string, string>> = { ",": "comma", ";": "semicolon", "\t": "tab", "|": "bar" };

function refuseUnlessOneOf(option: string, given: string | undefined, words: readonly string[]): void {
  if (given === undefined || words.includes(given)) return;
  const known = `${words.slice(0, -1).join(", ")} or ${words[words.length - 1]}`;
  throw new Refusal(`--${option} ${given} is not known: give ${known}${orNearest(given, words)}`);
}
