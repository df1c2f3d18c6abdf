import { headingKey } from "./header-key.ts";
import type { Layout } from "./layout.ts";

/** Where the columns of a layout stand in a file, by their headings. */
export interface LocatedColumns {
  /** For each column of the layout its place in the file; -1: it is ignored and not there. */
  readonly places: readonly number[];
  /** Headings of the file that the layout does not know. */
  readonly unknown: readonly string[];
  /** How each column of the layout is spelt in this file. */
  readonly spelled: readonly string[];
}

/** A heading as people see it: what nobody can see is kept with no reading. */
const wordsAlone = (heading: string): string => heading.replace(/\p{Cc}+/gu, " ").trim();

/** Headings as the layout has them that a row of the file lacks; none: it is the header. */
export function locateColumns(
  layout: Layout,
  headings: readonly string[],
): { readonly missing: readonly string[]; readonly located: LocatedColumns } {
  const waiting = new Map<string, number[]>();
  for (const [index, heading] of headings.entries()) {
    const key = headingKey(heading);
    const same = waiting.get(key);
    if (same === undefined) waiting.set(key, [index]);
    else same.push(index);
  }
  const missing: string[] = [];
  const places = layout.columns.map((column) => {
    // Headings that appear twice are told apart by their order.
    const index = waiting.get(headingKey(column.header))?.shift();
    if (index === undefined && column.is !== "ignored") missing.push(column.header);
    return index ?? -1;
  });
  const unknown = [...waiting.entries()].filter(([key]) => key !== "").flatMap(([, left]) => left);
  const spelled = layout.columns.map(({ header }, i) => wordsAlone(headings[places[i] as number] ?? header));
  return {
    missing,
    located: { places, unknown: unknown.sort((a, b) => a - b).map((i) => wordsAlone(headings[i] as string)), spelled },
  };
}
