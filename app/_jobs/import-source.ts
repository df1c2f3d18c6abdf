import { createHash } from "node:crypto";
import { type FileSource, piecesOf, textBlocks } from "../../lib/intake/text-blocks.ts";

/** A file to import. It is read twice: a first look tells the engine models, which the other files need. */
export interface ImportSource {
  /** As a person knows it; two of the same name in one import are told apart by a number. */
  readonly name: string;
  /** Size in bytes; null: not known. */
  readonly bytes: number | null;
  /** Opens the file at its beginning; may be called again. */
  readonly open: () => FileSource;
}

/** Whether the file is JSON, and so a list of engine models. */
async function isModels(source: ImportSource): Promise<boolean> {
  for await (const block of textBlocks(source.open())) return block.ok && /^\s*[{[]/.test(block.text);
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

/** The source with what passed through it: bytes so far, and their SHA-256 when all have. */
export function watched(source: ImportSource): {
  readonly pieces: AsyncGenerator<Uint8Array | string>;
  readonly bytes: () => number;
  /** null: the file was not read to its end. */
  readonly sha256: () => string | null;
} {
  const hash = createHash("sha256");
  let bytes = 0;
  let ended = false;
  async function* pieces() {
    for await (const piece of piecesOf(source.open())) {
      hash.update(piece);
      bytes += typeof piece === "string" ? Buffer.byteLength(piece) : piece.length;
      yield piece;
    }
    ended = true;
  }
  return { pieces: pieces(), bytes: () => bytes, sha256: () => (ended ? hash.digest("hex") : null) };
}
