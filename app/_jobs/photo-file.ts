import { createHash } from "node:crypto";
import { readFile, stat } from "node:fs/promises";
import path from "node:path";
import type { PhotoGiven } from "../../db/photos.ts";
import { largestPhotoBytes, type PhotoType, photoEndings, photoTypeOf } from "../../lib/schema/photo.ts";
import { JobError } from "./job-registry.ts";

/** Where a photo lies in an exported folder: no name that anybody gave becomes the name of a file. */
export const photoFile = (type: PhotoType, bytes: Uint8Array): string =>
  `photos/${createHash("sha256").update(bytes).digest("hex")}.${photoEndings[type]}`;

/**
 * Reads a photo of an exported folder, held to what an upload is held to: its size, and what its first bytes say that it
 * is. Throws a `JobError` where it is missing, or another than was written.
 */
export async function readPhoto(folder: string, file: string): Promise<Pick<PhotoGiven, "type" | "bytes">> {
  const refuse = (why: string) => new JobError(`photos.json names ${file}, ${why}. Nothing was taken.`);
  const at = path.join(folder, file);
  const found = await stat(at).catch(() => null);
  if (found === null || !found.isFile()) throw refuse("which is not in the folder");
  if (found.size > largestPhotoBytes) throw refuse(`which is larger than ${largestPhotoBytes / 1_000_000} MB`);
  const bytes = await readFile(at).catch(() => {
    throw refuse("which may not be read");
  });
  const type = photoTypeOf(bytes);
  if (type === null) throw refuse("which is no JPEG, PNG or WebP image");
  if (photoFile(type, bytes) !== file) throw refuse("whose bytes are not those that were written");
  return { type, bytes };
}
