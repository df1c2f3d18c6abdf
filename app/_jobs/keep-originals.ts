import { keepOriginalPart, partLength } from "../../db/import-originals.ts";
import type { Store } from "../../db/store.ts";
import type { ImportSource } from "./import-source.ts";
import { type Look, lookThrough } from "./look-through.ts";
import { breather, type JobControl, progressOf } from "./progress.ts";

/**
 * Looks through the files in their order and, where `importId` is told, keeps each with that import, byte for byte. Gives
 * what was seen of each, by its name.
 */
export async function keepOriginals(
  store: Store,
  sources: readonly ImportSource[],
  { importId }: { readonly importId: string | null },
  { onProgress, signal }: JobControl,
): Promise<ReadonlyMap<string, Look>> {
  const breathe = breather(signal);
  const sizes = sources.map((source) => source.bytes);
  const totalBytes = sizes.every((size) => size !== null) ? sizes.reduce((sum, size) => sum + size, 0) : null;
  const looks = new Map<string, Look>();
  let bytes = 0;
  for (const source of sources) {
    const { add, end } =
      importId === null
        ? keepNothing
        : partsInto((part, some) => keepOriginalPart(store, importId, { file: source.name, part, bytes: some }));
    const look = await lookThrough(source, async (piece) => {
      bytes += piece.length;
      await add(piece);
      onProgress?.(progressOf("keeping", { bytes, totalBytes }));
      await breathe();
    });
    await end();
    looks.set(source.name, look);
  }
  return looks;
}

interface Parts {
  readonly add: (piece: Buffer) => Promise<void>;
  readonly end: () => Promise<void>;
}

const keepNothing: Parts = { add: async () => {}, end: async () => {} };

/** Gathers pieces to parts of one length, the last one shorter. An empty file has one part, which is empty. */
function partsInto(keep: (part: number, bytes: Buffer) => Promise<void>): Parts {
  let waiting: Buffer[] = [];
  let length = 0;
  let part = 0;
  const keepNext = async () => {
    const all = Buffer.concat(waiting);
    const next = all.subarray(0, partLength);
    waiting = [all.subarray(next.length)];
    length -= next.length;
    await keep(part++, next);
  };
  return {
    add: async (piece) => {
      waiting.push(piece);
      length += piece.length;
      while (length >= partLength) await keepNext();
    },
    end: async () => {
      if (length > 0 || part === 0) await keepNext();
    },
  };
}
