import { createReadStream } from "node:fs";
import { stat } from "node:fs/promises";
import path from "node:path";
import type { ImportSource } from "./import-source.ts";

/** A file of this machine; throws where it cannot be read. */
export async function fileSource(file: string): Promise<ImportSource> {
  return {
    name: path.basename(file),
    bytes: (await stat(file)).size,
    open: () => createReadStream(file, { highWaterMark: 1 << 18 }),
  };
}
