import { createReadStream } from "node:fs";
import { access, constants, stat } from "node:fs/promises";
import type { ImportSource } from "../app/_jobs/import-source.ts";
import { Refusal } from "./refusal.ts";

/** The size of a file that can be read; refuses a folder, and what is missing or may not be read. */
export async function readableSize(file: string): Promise<number> {
  try {
    const found = await stat(file);
    if (found.isDirectory()) throw new Refusal(`${file} is a folder, not a file.`);
    await access(file, constants.R_OK);
    return found.size;
  } catch (error) {
    throw asRefusal(file, error);
  }
}

/** A pipe is read whole, for it comes but once and files are looked through before they are read. */
const longestPipe = 64_000_000;

/** A file that can be opened again and again at its beginning; refuses what cannot be read. */
export async function fileToRead(file: string): Promise<ImportSource> {
  const bytes = await readableSize(file);
  if (!(await stat(file)).isFIFO()) return { name: file, bytes, open: () => bytesOf(file) };
  const pieces: Uint8Array[] = [];
  let length = 0;
  for await (const piece of bytesOf(file)) {
    pieces.push(piece);
    length += piece.length;
    if (length > longestPipe) throw new Refusal(`${file} is a pipe with more than 64 MB; write it to a file first.`);
  }
  return {
    name: file,
    bytes: length,
    open: async function* () {
      yield* pieces;
    },
  };
}

/** The bytes of a file, piece by piece; refuses where they cannot be had to the end. */
export async function* bytesOf(file: string): AsyncGenerator<Uint8Array> {
  try {
    yield* createReadStream(file, { highWaterMark: 1 << 18 }) as AsyncIterable<Uint8Array>;
  } catch (error) {
    throw asRefusal(file, error);
  }
}

function asRefusal(file: string, error: unknown): unknown {
  const { code, message } = error as NodeJS.ErrnoException;
  if (code === undefined) return error;
  if (code === "ENOENT") return new Refusal(`There is no file ${file}.`);
  if (code === "EACCES" || code === "EPERM") return new Refusal(`The file ${file} may not be read by you.`);
  return new Refusal(`The file ${file} could not be read: ${message}.`);
}
