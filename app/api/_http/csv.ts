import { byteOrderMark, type CsvCell, csvLine } from "../../../lib/outtake/csv.ts";
import type { CsvTable } from "../../../lib/outtake/csv-table.ts";
import { textStream } from "./text-stream.ts";

type CsvRow = readonly CsvCell[];

/**
 * A table as a file to download: CSV as `csvLine` writes it, marked as UTF-8 for spreadsheets. Rows that come piece by
 * piece are sent piece by piece.
 *
 * @param name of the file, without its ending
 */
export function csvFile(
  name: string,
  head: CsvRow,
  rows: Iterable<CsvRow> | AsyncIterable<readonly CsvRow[]>,
): Response {
  const body = Symbol.asyncIterator in rows ? textStream(lines(head, rows)) : [head, ...rows].map(csvLine).join("");
  return new Response(typeof body === "string" ? byteOrderMark + body : body, {
    headers: {
      "content-type": "text/csv; charset=utf-8",
      "content-disposition": attachment(`${name}.csv`),
      "cache-control": "no-store",
    },
  });
}

async function* lines(head: CsvRow, pieces: AsyncIterable<readonly CsvRow[]>): AsyncGenerator<string> {
  yield byteOrderMark + csvLine(head);
  for await (const rows of pieces) yield rows.map(csvLine).join("");
}

/** Names of units are people's: what a header or a disk would not take is left out of the plain name (RFC 6266). */
function attachment(name: string): string {
  const plain = name.replace(/[^\w.-]+/g, "-");
  const exact = encodeURIComponent(name.replace(/[/\\]/g, "-")).replace(
    /['()*]/g,
    (c) => `%${c.charCodeAt(0).toString(16)}`,
  );
  return `attachment; filename="${plain}"${plain === name ? "" : `; filename*=UTF-8''${exact}`}`;
}

/** A table of a page as a file to download. */
export const csvTableFile = (name: string, { head, rows }: CsvTable): Response => csvFile(name, head, rows);
