import { createHash } from "node:crypto";
import type { FileToRead } from "../../lib/intake/read-file.ts";
import { type FileSource, piecesOf, UnreadableFile } from "../../lib/intake/text-blocks.ts";
import { tooLarge, workbookLimits } from "../../lib/intake/workbook/limits.ts";
import { openSheet } from "../../lib/intake/workbook/workbook.ts";
import type { ImportSource } from "./import-source.ts";
import { JobError } from "./job-registry.ts";
import type { Look } from "./look-through.ts";
import { workbookArchive } from "./workbook-archive.ts";

/** A file as `readFleetFile` takes it, whether it is text or a workbook. */
export interface ReadableText extends Pick<FileToRead, "source" | "encoding" | "delimiter" | "corrections" | "sheet"> {
  /** Bytes of the file that were read so far, or that what was read of a workbook's sheet stands for. */
  readonly bytes: () => number;
}

/** Thrown where a file is not the one any more that was looked through. */
export class FileChanged extends JobError {
  constructor(name: string) {
    super(`The file ${name} changed while it was read. Nothing was taken in; give it again.`);
  }
}

/**
 * Opens a file that was looked through: its text in the encoding found or chosen, or the text of a workbook's sheet. What
 * cannot be opened gives a source that says so when it is read, so that the file is refused as any other that cannot be
 * read. A file whose bytes are not those that were looked through throws `FileChanged` at its end.
 */
export async function readableText(file: ImportSource, look: Look): Promise<ReadableText> {
  const { choice = {} } = file;
  const { pieces, bytes } = checked(file, look);
  if (!look.archive) {
    const { encoding = look.encoding, delimiter, corrections } = choice;
    return { source: pieces, encoding, delimiter, corrections, bytes };
  }
  try {
    if (look.bytes > workbookLimits.fileBytes) throw tooLarge("it has more than 64 MB");
    const opened = await openSheet(await workbookArchive(await whole(pieces)), choice.sheet);
    const delimiter = "comma";
    return {
      source: opened.text(),
      delimiter,
      corrections: choice.corrections,
      sheet: opened.sheet,
      bytes: () => Math.round(opened.share() * look.bytes),
    };
  } catch (error) {
    if (!(error instanceof UnreadableFile)) throw error;
    return { source: refusing(error), bytes: () => look.bytes };
  }
}

// A generator that only throws.
// biome-ignore lint/correctness/useYield: it is read as a source, and gives nothing.
async function* refusing(error: UnreadableFile): AsyncGenerator<string> {
  throw error;
}

async function whole(pieces: FileSource): Promise<Buffer> {
  const all: Uint8Array[] = [];
  for await (const piece of piecesOf(pieces)) all.push(typeof piece === "string" ? Buffer.from(piece) : piece);
  return Buffer.concat(all);
}

/** The pieces of a file, held against what was seen of it before. */
function checked(file: ImportSource, look: Look): { readonly pieces: FileSource; readonly bytes: () => number } {
  const hash = createHash("sha256");
  let bytes = 0;
  async function* pieces() {
    for await (const piece of piecesOf(file.open())) {
      hash.update(piece);
      bytes += typeof piece === "string" ? Buffer.byteLength(piece) : piece.length;
      yield piece;
    }
    if (hash.digest("hex") !== look.sha256) throw new FileChanged(file.name);
  }
  return { pieces: pieces(), bytes: () => bytes };
}
