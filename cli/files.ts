import { createReadStream } from "node:fs";
import { access, constants, stat } from "node:fs/promises";
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
