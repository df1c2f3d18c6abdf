import type { Store } from "./store.ts";

/** More answers than the pages ask for in many ways at once; a store that nobody writes to must not fill the memory. */
const mostAnswers = 200;

interface Kept {
  version: string;
  readonly answers: Map<string, Promise<unknown>>;
}

const keptOf = new WeakMap<Store, Map<string, Kept>>();

/**
 * A read whose answers are kept for as long as nothing in the store changes, by this process or another: pages ask for
 * the same counts of the whole fleet again and again. `name` tells it from other reads; its arguments must be plain data.
 * Answers are shared, so nobody may change them. A read that failed is not kept.
 */
export function remembered<A extends readonly unknown[], R>(
  name: string,
  read: (store: Store, ...args: A) => Promise<R>,
): (store: Store, ...args: A) => Promise<R> {
  return (store, ...args) => {
    const { answers } = keptFor(store, name);
    const key = JSON.stringify(args);
    // Each read keeps its own kind of answer alone.
    const known = answers.get(key) as Promise<R> | undefined;
    if (known !== undefined) return known;
    const answer = read(store, ...args);
    if (answers.size >= mostAnswers) answers.clear();
    answers.set(key, answer);
    answer.catch(() => {
      if (answers.get(key) === answer) answers.delete(key);
    });
    return answer;
  };
}

function keptFor(store: Store, name: string): Kept {
  const reads = keptOf.get(store) ?? new Map<string, Kept>();
  keptOf.set(store, reads);
  const version = store.version();
  const kept = reads.get(name);
  if (kept?.version === version) return kept;
  // A new map and not the old one emptied: a read that is still under way enters the old.
  const fresh: Kept = { version, answers: new Map() };
  reads.set(name, fresh);
  return fresh;
}
