import { columnWords } from "../../../lib/layout/column-words.ts";
import type { Layout } from "../../../lib/layout/layout.ts";
import type { ChangeLine } from "../change-cells.tsx";
import { headingWords, wholeFileFacts } from "./layout-words.ts";

const notThere = "not there";
const notTold = "not told";

/** What of a layout differs from the version before it, column by column and value by value. */
export function layoutChanges(before: Layout, after: Layout): readonly ChangeLine[] {
  return [
    ...lines(columnFacts(before), columnFacts(after), notThere),
    ...lines(new Map(wholeFileFacts(before)), new Map(wholeFileFacts(after)), notTold),
  ];
}

/** What each column is, by its heading; one that appears again is told by its number as well. */
function columnFacts({ columns }: Layout): ReadonlyMap<string, string> {
  const facts = new Map<string, string>();
  for (const [index, column] of columns.entries()) {
    const heading = headingWords(column.header, index);
    facts.set(facts.has(heading) ? `${heading} (column ${index + 1})` : heading, columnWords(column));
  }
  return facts;
}

function lines(before: ReadonlyMap<string, string>, after: ReadonlyMap<string, string>, none: string): ChangeLine[] {
  return [...new Set([...before.keys(), ...after.keys()])].flatMap((column) => {
    const [was, is] = [before.get(column) ?? none, after.get(column) ?? none];
    return was === is ? [] : [{ column, before: was, after: is }];
  });
}
