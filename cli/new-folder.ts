import { type FileHandle, mkdir, open, readdir, rm, rmdir } from "node:fs/promises";
import path from "node:path";
import { Refusal } from "./refusal.ts";

/** A folder that is filled with new files, or left as it was. */
export interface NewFolder {
  /** Adds text to one of its files, which is begun at the first. */
  readonly append: (file: string, text: string) => Promise<void>;
  /** Writes one of its files whole; a folder in its path is made. */
  readonly put: (file: string, bytes: Uint8Array) => Promise<void>;
  /** All is written: brings it to the disk. */
  readonly finish: () => Promise<void>;
  /** Takes away what was written, and the folder where it was not there before. */
  readonly takeBack: () => Promise<void>;
}

/** Opens a folder to write to, and makes it where it is missing. Refuses one that holds anything, and what is none. */
export async function newFolder(folder: string): Promise<NewFolder> {
  const made = await refusing(folder, () => mkdir(folder, { recursive: true }));
  const held = await refusing(folder, () => readdir(folder));
  if (held.length > 0) {
    throw new Refusal(`${folder} is not empty: nothing was written. Give a new folder, or one that holds nothing.`);
  }
  const files = new Map<string, FileHandle>();
  const begin = async (file: string): Promise<FileHandle> => {
    const handle = await open(path.join(folder, file), "wx");
    files.set(file, handle);
    return handle;
  };
  const whole: string[] = [];
  const folders = new Set<string>();
  const put = async (file: string, bytes: Uint8Array): Promise<void> => {
    const within = path.dirname(file);
    if (within !== "." && !folders.has(within)) {
      await mkdir(path.join(folder, within));
      folders.add(within);
    }
    const handle = await open(path.join(folder, file), "wx");
    whole.push(file);
    try {
      await handle.writeFile(bytes);
      await handle.sync();
    } finally {
      await handle.close();
    }
  };
  return {
    put: (file, bytes) => refusing(folder, () => put(file, bytes)),
    append: (file, text) =>
      refusing(folder, async () => (files.get(file) ?? (await begin(file))).appendFile(text, "utf8")),
    finish: () =>
      refusing(folder, async () => {
        for (const handle of files.values()) {
          await handle.sync();
          await handle.close();
        }
      }),
    takeBack: async () => {
      for (const [file, handle] of files) {
        await handle.close().catch(() => undefined);
        await rm(path.join(folder, file), { force: true });
      }
      for (const file of whole) await rm(path.join(folder, file), { force: true });
      for (const within of folders) await rmdir(path.join(folder, within)).catch(() => undefined);
      // Of nested folders that were made, the innermost alone: the others may serve somebody by now.
      if (made !== undefined) await rmdir(folder).catch(() => undefined);
    },
  };
}

async function refusing<T>(folder: string, work: () => Promise<T>): Promise<T> {
  try {
    return await work();
  } catch (error) {
    throw new Refusal(`${folder} could not be written: ${reasonOf(error as NodeJS.ErrnoException)}.`);
  }
}

function reasonOf({ code, message }: NodeJS.ErrnoException): string {
  if (code === "ENOSPC" || code === "EDQUOT") return "the disk is full; nothing was kept";
  if (code === "EEXIST" || code === "ENOTDIR") return "it is a file, or lies below one";
  if (code === "EACCES" || code === "EPERM" || code === "EROFS") return "you may not write there";
  return message;
}
