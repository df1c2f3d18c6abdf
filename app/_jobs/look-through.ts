import { createHash } from "node:crypto";
import { encodingWatch } from "../../lib/intake/encoding.ts";
import { piecesOf } from "../../lib/intake/text-blocks.ts";
import type { Encoding } from "../../lib/schema/reading.ts";
import type { ImportSource } from "./import-source.ts";

/** What all bytes of a file tell, before any is read as text. */
export interface Look {
  readonly bytes: number;
  readonly sha256: string;
  /** Of its text, if it is one. */
  readonly encoding: Encoding;
  /** It is a ZIP archive, as workbooks are. */
  readonly archive: boolean;
}

const archiveStart = Buffer.from([0x50, 0x4b, 0x03, 0x04]);

/** Looks through a file from its first byte to its last, in memory that does not grow with it. `each` is given every piece. */
export async function lookThrough(
  source: Pick<ImportSource, "open">,
  each: (piece: Buffer) => Promise<void> | void = () => {},
): Promise<Look> {
  const hash = createHash("sha256");
  const watch = encodingWatch();
  let start = Buffer.alloc(0);
  let bytes = 0;
  for await (const given of piecesOf(source.open())) {
    const piece =
      typeof given === "string" ? Buffer.from(given) : Buffer.from(given.buffer, given.byteOffset, given.length);
    if (start.length < archiveStart.length) start = Buffer.concat([start, piece.subarray(0, archiveStart.length)]);
    hash.update(piece);
    watch.see(piece);
    bytes += piece.length;
    await each(piece);
  }
  const archive = start.subarray(0, archiveStart.length).equals(archiveStart);
  return { bytes, sha256: hash.digest("hex"), encoding: watch.encoding(), archive };
}
