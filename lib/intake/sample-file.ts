import { sampleCollector } from "../layout/sample.ts";
import type { Sample } from "../layout/suggestion.ts";
import { delimiterOfFile, recordReader } from "./records.ts";
import { type FileSource, textBlocks } from "./text-blocks.ts";

/**
 * Reads a file to its end for `suggestLayout`, in bounded memory. null: it is not text; what `readFleetFile` says of it
 * tells why.
 */
export async function sampleFile(source: FileSource): Promise<Sample | null> {
  const collector = sampleCollector();
  let records: ReturnType<typeof recordReader> | null = null;
  for await (const block of textBlocks(source)) {
    if (!block.ok) return null;
    records ??= recordReader(delimiterOfFile(block.text));
    const found = records(block.text, block.last);
    for (const record of found.records) collector.add(record);
    if (found.stopped) break;
  }
  return collector.sample();
}
