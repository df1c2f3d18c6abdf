import { sampleCollector } from "../layout/sample.ts";
import type { Sample } from "../layout/suggestion.ts";
import type { FileToRead } from "./read-file.ts";
import { delimiterNamed, delimiterOf, firstLines, recordReader } from "./records.ts";
import { textBlocks } from "./text-blocks.ts";

/**
 * Reads a file to its end for `suggestLayout`, in bounded memory. null: it is not text; what `readFleetFile` says of it
 * tells why.
 */
export async function sampleFile({
  source,
  encoding,
  delimiter,
}: Pick<FileToRead, "source" | "encoding" | "delimiter">): Promise<Sample | null> {
  const collector = sampleCollector();
  let records: ReturnType<typeof recordReader> | null = null;
  for await (const block of textBlocks(source, encoding)) {
    if (!block.ok) return null;
    records ??= recordReader(delimiterNamed(delimiter) ?? delimiterOf(firstLines(block.text, block.last)));
    const found = records(block.text, block.last);
    for (const record of found.records) collector.add(record);
    if (found.stopped) break;
  }
  return collector.sample();
}
