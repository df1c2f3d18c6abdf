import type { Readable } from "node:stream";
import { type Entry, fromBufferPromise, type ZipFile } from "yauzl";
import { UnreadableFile } from "../../lib/intake/text-blocks.ts";
import type { Archive } from "../../lib/intake/workbook/archive.ts";
import { damaged, tooLarge, workbookLimits } from "../../lib/intake/workbook/limits.ts";
import { crc32 } from "./crc32.ts";

/**
 * Opens the archive that an .xlsx workbook is, for its parts to be unpacked piece by piece. Refuses by what the archive
 * says of itself whatever is past a limit, before anything is unpacked; a part that then proves larger than it was said
 * to be, or not to have the bytes that were packed, is refused as damaged while it is read. Throws `UnreadableFile`.
 */
export async function workbookArchive(bytes: Buffer): Promise<Archive> {
  let zip: ZipFile;
  try {
    zip = await fromBufferPromise(bytes, { lazyEntries: true, validateEntrySizes: true });
  } catch {
    throw damaged();
  }
  if (zip.entryCount > workbookLimits.entries) throw tooLarge("it has more than 5,000 parts");
  const entries = await entriesOf(zip);
  refuseSwelling([...entries.values()], bytes.length);
  return {
    names: new Set(entries.keys()),
    open: (name) => piecesOf(zip, entries.get(name)),
    bytesOf: (name) => entries.get(name)?.uncompressedSize ?? 0,
  };
}

async function entriesOf(zip: ZipFile): Promise<ReadonlyMap<string, Entry>> {
  const entries = new Map<string, Entry>();
  await new Promise<void>((resolve, reject) => {
    zip.on("entry", (entry: Entry) => {
      // Two parts of one name: programs differ in which of them they show.
      if (entries.has(entry.fileName)) return reject(damaged());
      entries.set(entry.fileName, entry);
      zip.readEntry();
    });
    zip.on("end", resolve);
    zip.on("error", () => reject(damaged()));
    zip.readEntry();
  });
  return entries;
}

function refuseSwelling(entries: readonly Entry[], packedBytes: number): void {
  const { ratio, ratioFromBytes, sheetBytes } = workbookLimits;
  let unpacked = 0;
  for (const entry of entries) {
    unpacked += entry.uncompressedSize;
    if (entry.uncompressedSize > ratioFromBytes && entry.uncompressedSize > ratio * entry.compressedSize) {
      throw new UnreadableFile("workbook-swells");
    }
  }
  // Parts that share their packed bytes each have a harmless ratio of their own.
  if (unpacked > ratioFromBytes && unpacked > ratio * packedBytes) throw new UnreadableFile("workbook-swells");
  if (unpacked > 2 * sheetBytes) throw tooLarge("unpacked, it has more than 2,000 MB");
}

const isSheet = (name: string) => /\/worksheets\//.test(name);

/** The unpacked bytes of a part; given up half-way, the unpacking ends. */
async function* piecesOf(zip: ZipFile, entry: Entry | undefined): AsyncGenerator<Uint8Array> {
  if (entry === undefined) throw damaged();
  if (entry.isEncrypted()) throw new UnreadableFile("workbook-locked");
  const most = isSheet(entry.fileName) ? workbookLimits.sheetBytes : workbookLimits.partBytes;
  if (entry.uncompressedSize > most) throw tooLarge(`unpacked, one of its parts has more than ${most / 1_000_000} MB`);
  let stream: Readable | null = null;
  let sum = 0;
  try {
    stream = await zip.openReadStreamPromise(entry);
    for await (const piece of stream as AsyncIterable<Uint8Array>) {
      sum = crc32(piece, sum);
      yield piece;
    }
  } catch {
    throw damaged();
  } finally {
    stream?.destroy();
  }
  if (sum !== entry.crc32) throw damaged();
}
