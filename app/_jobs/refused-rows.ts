import { allIssues, type ImportDetail, type ImportFileRow } from "../../db/imports.ts";
import type { Store } from "../../db/store.ts";
import { correctCells } from "../../lib/intake/correct-cells.ts";
import { delimiterNamed, delimiterOf, firstLines, recordReader } from "../../lib/intake/records.ts";
import { textBlocks } from "../../lib/intake/text-blocks.ts";
import { layoutApplier } from "../../lib/layout/apply.ts";
import { reasonHeading } from "../../lib/layout/header-key.ts";
import { layoutOfRow } from "./file-layout.ts";
import { keptSources } from "./kept-sources.ts";
import { lookThrough } from "./look-through.ts";
import { readableText } from "./readable-text.ts";

type Row = readonly string[];

/**
 * The refused rows of one file of an import as they were given, each with why in a column more, below the header and what
 * stands above it: to be mended and imported again. What was put right in them by hand stays so. Cells of a layout that are
 * blank because they say what stands above them are filled in, for that may be missing here. Pieces of some rows; none where
 * the file was not kept.
 */
export async function* refusedRows(
  store: Store,
  detail: ImportDetail,
  file: ImportFileRow,
): AsyncGenerator<readonly Row[]> {
  const kept = (await keptSources(store, detail))?.find(({ name }) => name === file.name);
  if (kept === undefined) return;
  const reasons = await reasonsByLine(store, detail.id, file.name);
  const { encoding, delimiter, sheet } = file.readAs ?? { encoding: null, delimiter: null, sheet: null };
  const choice = {
    ...(encoding === null ? {} : { encoding }),
    ...(delimiter === null ? {} : { delimiter }),
    ...(sheet === null ? {} : { sheet }),
  };
  const source = { ...kept, choice };
  const text = await readableText(source, await lookThrough(source));
  const layout = layoutOfRow(file)?.layout ?? null;
  const corrections = file.readAs?.corrections ?? [];
  const applier = layout === null ? null : layoutApplier(layout, corrections);
  const own = layout === null ? correctCells(corrections) : null;
  let records: ReturnType<typeof recordReader> | null = null;
  let isOpen = false;
  let width = 0;
  /** The header with what stands above it, until one of its rows is refused. */
  let head: Row[] = [];
  for await (const block of textBlocks(text.source, text.encoding)) {
    if (!block.ok) return;
    records ??= recordReader(delimiterNamed(text.delimiter) ?? delimiterOf(firstLines(block.text, block.last)));
    const read = records(block.text, block.last);
    const rows: Row[] = [];
    for (const [i, record] of read.records.entries()) {
      if (record.every((cell) => cell.trim() === "")) continue;
      const line = read.lines[i] as number;
      const step = applier?.take(record, line) ?? null;
      const isHeader = step === null ? !isOpen : step.is === "opened";
      if (isHeader) {
        const headings = own?.header(record) ?? record;
        width = headings.length;
        head = [...(step?.is === "opened" ? step.above : []), [...headings, reasonHeading]];
        // The first header always comes; one further down, with the title above it, only with a row of its own.
        if (!isOpen) rows.push(...head.splice(0));
        isOpen = true;
        continue;
      }
      const why = isOpen ? reasons.get(line) : undefined;
      if (why === undefined || step?.is === "title") continue;
      const told = step?.is === "rows" ? step.record : (own?.record(record, line) ?? record);
      // A row may end before its header does.
      const blanks = Array.from({ length: Math.max(0, width - told.length) }, () => "");
      rows.push(...head.splice(0), [...told, ...blanks, why.join("; ")]);
    }
    if (rows.length > 0) yield rows;
  }
}

async function reasonsByLine(store: Store, importId: string, file: string): Promise<ReadonlyMap<number, string[]>> {
  const reasons = new Map<number, string[]>();
  for await (const issues of allIssues(store, importId, { severity: "refused" })) {
    for (const issue of issues) {
      if (issue.file !== file || issue.line === null) continue;
      const told = reasons.get(issue.line);
      if (told === undefined) reasons.set(issue.line, [issue.words]);
      else told.push(issue.words);
    }
  }
  return reasons;
}
