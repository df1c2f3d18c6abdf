import type { IsoDate } from "../schema/facts.ts";
import { dateWords, listWords, numberWords } from "../wording.ts";

/** What stands in one list and not in the other. Equal entries count as often as they occur. */
export function listDifference<T>(
  was: readonly T[],
  now: readonly T[],
  keyOf: (item: T) => string,
): { readonly added: readonly T[]; readonly gone: readonly T[] } {
  return { added: without(now, was, keyOf), gone: without(was, now, keyOf) };
}

function without<T>(items: readonly T[], others: readonly T[], keyOf: (item: T) => string): readonly T[] {
  const left = new Map<string, number>();
  for (const other of others) left.set(keyOf(other), (left.get(keyOf(other)) ?? 0) + 1);
  return items.filter((item) => {
    const count = left.get(keyOf(item)) ?? 0;
    left.set(keyOf(item), count - 1);
    return count <= 0;
  });
}

const mostDates = 3;

/** "on 3 May 2026 and 24 Aug 2026"; of many only the last is named. */
export function onDates(dates: readonly IsoDate[]): string {
  const sorted = [...new Set(dates)].toSorted();
  if (sorted.length <= mostDates) return `on ${listWords(sorted.map(dateWords))}`;
  return `on ${numberWords(sorted.length)} days, last on ${dateWords(sorted.at(-1) ?? "")}`;
}

/** The items by their group, groups in the order in which they come. */
export function grouped<T, K extends string>(
  items: readonly T[],
  groupOf: (item: T) => K,
): (readonly [K, readonly T[]])[] {
  const groups = new Map<K, T[]>();
  for (const item of items) {
    const group = groups.get(groupOf(item));
    if (group === undefined) groups.set(groupOf(item), [item]);
    else group.push(item);
  }
  return [...groups];
}
