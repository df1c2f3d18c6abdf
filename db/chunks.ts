/** Statements take a limited number of parameters; lists longer than this are asked for in parts. */
export const chunkSize = 500;

export function* chunks<T>(items: readonly T[], size = chunkSize): Generator<readonly T[]> {
  for (let start = 0; start < items.length; start += size) yield items.slice(start, start + size);
}

/** Rows for a long list of keys: `ask` is called with parts of it. */
export async function forChunks<T, R>(
  items: readonly T[],
  ask: (part: T[]) => PromiseLike<readonly R[]>,
): Promise<R[]> {
  const out: R[] = [];
  for (const part of chunks(items)) for (const row of await ask([...part])) out.push(row);
  return out;
}
