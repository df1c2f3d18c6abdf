import type { FileSource } from "../../lib/intake/text-blocks.ts";
import { piecesOf } from "../../lib/intake/text-blocks.ts";
import type { Layout } from "../../lib/layout/layout.ts";
import type { ReadingChoice } from "../../lib/schema/reading.ts";

/** A file to import. It is read more than once: a first look tells what it is, before its rows are read. */
export interface ImportSource {
  /** As a person knows it; two of the same name in one import are told apart by a number. */
  readonly name: string;
  /** Size in bytes; null: not known. */
  readonly bytes: number | null;
  /** Opens the file at its beginning; may be called again. */
  readonly open: () => FileSource;
  /** How somebody said that it is to be read; what is left out is found out. */
  readonly choice?: ReadingChoice;
  /** How the columns of a foreign file of test results are read; left out: they are those of the contract. */
  readonly layout?: Layout;
}

/** Bytes of a file's beginning that tell whether it is JSON. */
const beginning = 1 << 12;

/** Whether the file is JSON, and so a list of engine models: by its first bracket, which is the same byte in any encoding. */
async function isModels(source: ImportSource): Promise<boolean> {
  let start = "";
  for await (const piece of piecesOf(source.open())) {
    start += (typeof piece === "string" ? piece : Buffer.from(piece).toString("latin1")).slice(0, beginning);
    // Zero bytes are the other halves of UTF-16, and what comes before the text is its byte order mark.
    const first = /[^\s\0\ufeff\xef\xbb\xbf\xff\xfe]/.exec(start);
    if (first !== null) return first[0] === "{" || first[0] === "[";
    if (start.length >= beginning) return false;
  }
  return false;
}

/** The files, those of engine models first, each with a name of its own. */
export async function inReadingOrder(sources: readonly ImportSource[]): Promise<readonly ImportSource[]> {
  const named = withOwnNames(sources);
  const looked: { source: ImportSource; models: boolean }[] = [];
  for (const source of named) looked.push({ source, models: await isModels(source) });
  return [...looked.filter((l) => l.models), ...looked.filter((l) => !l.models)].map((l) => l.source);
}

function withOwnNames(sources: readonly ImportSource[]): readonly ImportSource[] {
  const taken = new Set<string>();
  return sources.map((source) => {
    let name = source.name;
    for (let n = 2; taken.has(name); n++) name = `${source.name} (${n})`;
    taken.add(name);
    return { ...source, name };
  });
}
