import { randomBytes } from "node:crypto";
import { mkdir, open, readdir, rm, stat } from "node:fs/promises";
import path from "node:path";
import { Transform } from "node:stream";
import { pipeline } from "node:stream/promises";
import { piecesOf } from "../../../lib/intake/text-blocks.ts";
import { fileSource } from "../../_jobs/file-source.ts";
import type { ImportSource } from "../../_jobs/import-source.ts";
import {
  longestName,
  mostFiles,
  tooLarge,
  tooLargeTogether,
  tooManyFiles,
  type UploadLimits,
} from "../../_ui/import/limits.ts";
import { refusal } from "./answers.ts";

/** Files on their way in: written to the data folder as they come, read from there by the job, then deleted. */
interface Upload {
  readonly folder: string;
  readonly files: { readonly name: string; readonly path: string }[];
  writing: number;
  /** Of all files, those that are still coming in included. */
  bytes: number;
  lastUsed: number;
}

export type UploadError =
  | "unknown-upload"
  | "too-large"
  | "too-large-together"
  | "too-many-files"
  | "too-many-uploads"
  | "broken-off"
  | "disk-full"
  | "still-coming";

const uploadWords = (limits: UploadLimits): Readonly<Record<UploadError, string>> => ({
  "unknown-upload": "This upload is not known any more. Choose the files again.",
  "too-large": tooLarge(limits),
  "too-large-together": tooLargeTogether(limits),
  "too-many-files": tooManyFiles,
  "too-many-uploads": "Too many files are on their way in at once. Try again in a minute.",
  "broken-off": "The file did not arrive whole. Send it again.",
  "disk-full": "The disk that holds the data folder is full, so the file could not be kept. Nothing was taken in.",
  "still-coming": "A file of this upload is still on its way in.",
});

const uploadStatus = {
  "unknown-upload": 404,
  "too-large": 413,
  "too-large-together": 413,
  "too-many-files": 413,
  "too-many-uploads": 503,
  "broken-off": 400,
  "disk-full": 507,
  "still-coming": 409,
} as const satisfies Record<UploadError, number>;

/** Why an upload was refused, as the API answers it. */
export const uploadRefusal = (error: UploadError, limits: UploadLimits): Response =>
  refusal(uploadStatus[error], uploadWords(limits)[error]);

/** So many may be open at once; each keeps its files on the disk. */
export const mostUploads = 20;

const anHourMs = 3_600_000;
const holder = globalThis as { borecastUploads?: Map<string, Upload> };
/** On globalThis because the bundler may load this file once for each route. */
const uploads = (): Map<string, Upload> => {
  holder.borecastUploads ??= new Map();
  return holder.borecastUploads;
};

const uploadsFolder = () => path.join(process.env["BORECAST_DATA"] || "data", "uploads");

/**
 * Begins an upload and gives its id. What was left behind by others, here or in an ended process, is deleted. Where too
 * many are open, the one that has lain idle for longest makes room; null: files are coming in for all of them.
 */
export async function beginUpload(now: number): Promise<string | null> {
  await sweep(now);
  if (uploads().size >= mostUploads) {
    const [idle] = [...uploads()]
      .filter(([, { writing }]) => writing === 0)
      .sort((a, b) => a[1].lastUsed - b[1].lastUsed);
    if (idle === undefined) return null;
    await endUpload(idle[0]);
  }
  const id = randomBytes(9).toString("base64url");
  const folder = path.join(uploadsFolder(), id);
  await mkdir(folder, { recursive: true });
  uploads().set(id, { folder, files: [], writing: 0, bytes: 0, lastUsed: now });
  return id;
}

async function sweep(now: number): Promise<void> {
  const isOld = (instant: number) => now - instant > anHourMs;
  for (const [id, upload] of uploads()) if (upload.writing === 0 && isOld(upload.lastUsed)) await endUpload(id);
  await mkdir(uploadsFolder(), { recursive: true });
  for (const name of await readdir(uploadsFolder())) {
    if (uploads().has(name)) continue;
    const folder = path.join(uploadsFolder(), name);
    // Another process may be writing there, but not for an hour without a new file.
    const touched = await stat(folder).then(
      (found) => found.mtimeMs,
      () => null,
    );
    if (touched !== null && isOld(touched)) await rm(folder, { recursive: true, force: true });
  }
}

/** Writes a file to the upload piece by piece, in memory that does not grow with it; null: it is there. */
export async function addFile(
  id: string,
  {
    name,
    body,
    now,
    limits,
  }: {
    readonly name: string;
    readonly body: ReadableStream<Uint8Array> | null;
    readonly now: number;
    readonly limits: UploadLimits;
  },
): Promise<UploadError | null> {
  const upload = uploads().get(id);
  if (upload === undefined) return "unknown-upload";
  if (upload.files.length + upload.writing >= mostFiles) return "too-many-files";
  const file = path.join(upload.folder, randomBytes(6).toString("hex"));
  upload.writing += 1;
  try {
    const failed = await write(body, file, { upload, limits });
    if (failed !== null) return failed;
  } finally {
    upload.writing -= 1;
    upload.lastUsed = now;
  }
  if (uploads().get(id) !== upload) {
    // It was given up while the file came in.
    await rm(upload.folder, { recursive: true, force: true });
    return "unknown-upload";
  }
  upload.files.push({ name: name.slice(0, longestName), path: file });
  return null;
}

async function write(
  body: ReadableStream<Uint8Array> | null,
  file: string,
  { upload, limits }: { readonly upload: Upload; readonly limits: UploadLimits },
): Promise<UploadError | null> {
  let bytes = 0;
  let refused: UploadError | null = null;
  const measure = new Transform({
    transform(piece: Uint8Array, _encoding, done) {
      bytes += piece.length;
      upload.bytes += piece.length;
      if (bytes > limits.bytes) refused = "too-large";
      else if (upload.bytes > limits.bytesTogether) refused = "too-large-together";
      done(refused === null ? null : new Error(refused), piece);
    },
  });
  try {
    // Opened first: a stream that opens it by itself could still make it after it was refused and taken away.
    const opened = await open(file, "w");
    await pipeline(body === null ? [] : piecesOf(body), measure, opened.createWriteStream());
    return null;
  } catch (error) {
    upload.bytes -= bytes;
    await rm(file, { force: true });
    if (refused !== null) return refused;
    const code = (error as NodeJS.ErrnoException).code ?? "";
    if (code === "ENOSPC" || code === "EDQUOT") return "disk-full";
    if (code === "ENOENT") return "unknown-upload";
    if (["EACCES", "EROFS", "EIO", "EMFILE"].includes(code)) throw error;
    return "broken-off";
  }
}

/** The files of an upload, to be read; the upload takes no more files. `endUpload` deletes them afterwards. */
export async function takeFiles(
  id: string,
): Promise<UploadError | { readonly sources: ImportSource[]; readonly done: () => Promise<void> }> {
  const upload = uploads().get(id);
  if (upload === undefined) return "unknown-upload";
  if (upload.writing > 0) return "still-coming";
  uploads().delete(id);
  const sources = await Promise.all(
    upload.files.map(async (file) => ({ ...(await fileSource(file.path)), name: file.name })),
  );
  return { sources, done: () => rm(upload.folder, { recursive: true, force: true }) };
}

/** Gives an upload up and deletes its files; false: it is not known. */
export async function endUpload(id: string): Promise<boolean> {
  const upload = uploads().get(id);
  if (upload === undefined) return false;
  uploads().delete(id);
  await rm(upload.folder, { recursive: true, force: true });
  return true;
}
