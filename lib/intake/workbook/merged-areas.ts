import { type CellPlace, cellPlace } from "./cell-place.ts";
import { tooLarge, workbookLimits } from "./limits.ts";

export interface MergedArea {
  readonly first: CellPlace;
  readonly last: CellPlace;
}

const endOfCells = /<\/(?:[\w.-]+:)?sheetData\s*>|<(?:[\w.-]+:)?sheetData\s*\/>/;
/** Longer than the tag that is looked for, so that one cut in two is found. */
const overlap = 128;
/** Merged areas stand near the end of a sheet; what follows them is small beside its cells. */
const longestEnd = 1 << 24;

/**
 * The merged areas of a sheet, by their first rows. They stand behind the cells that they change, so a sheet is unpacked
 * once for them alone; its cells are passed over without being read.
 */
export async function mergedAreas(pieces: AsyncIterable<Uint8Array>): Promise<readonly MergedArea[]> {
  const decoder = new TextDecoder("utf-8");
  let text = "";
  let isPastCells = false;
  for await (const piece of pieces) {
    text += decoder.decode(piece, { stream: true });
    if (!isPastCells) {
      const end = endOfCells.exec(text);
      isPastCells = end !== null;
      text = end === null ? text.slice(-overlap) : text.slice(end.index + end[0].length);
    }
    if (text.length > longestEnd) throw tooLarge("what stands behind the cells of its sheet has more than 16 MB");
  }
  const areas: MergedArea[] = [];
  for (const [tag] of isPastCells ? text.matchAll(/<(?:[\w.-]+:)?mergeCell\s[^<>]*>/g) : []) {
    const [first, last] = (/\sref\s*=\s*["']([^"']*)["']/.exec(tag)?.[1] ?? "").split(":");
    if (first === undefined || last === undefined) continue;
    areas.push({ first: cellPlace(first), last: cellPlace(last) });
    if (areas.length > workbookLimits.mergedAreas) throw tooLarge("its sheet has more than 100,000 merged areas");
  }
  return areas.sort((a, b) => a.first.row - b.first.row);
}
