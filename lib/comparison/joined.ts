/** Things joined in sets: union and find, with paths halved. */
export function joiner(n: number) {
  const parent = Int32Array.from({ length: n }, (_, i) => i);
  const find = (i: number): number => {
    let at = i;
    while (parent[at] !== at) {
      parent[at] = parent[parent[at] as number] as number;
      at = parent[at] as number;
    }
    return at;
  };
  return { find, join: (i: number, j: number) => (parent[find(i)] = find(j)) };
}

/**
 * Which of `n` instruments stay joined whichever group of engines is left out: a class number for each. A comparison that
 * hangs on a single group cannot say how sure it is. `links`: instruments used on one course, and the group it is in.
 */
export function joinedClasses(
  n: number,
  links: readonly { readonly group: number; readonly instruments: readonly number[] }[],
): Int32Array {
  let classes: Int32Array = new Int32Array(n);
  for (const left of new Set(links.map((link) => link.group))) {
    const { find, join } = joiner(n);
    for (const { group, instruments } of links) {
      if (group !== left) for (const j of instruments.slice(1)) join(instruments[0] as number, j);
    }
    // Only what was together so far and still is stays together.
    const seen = new Map<string, number>();
    classes = classes.map((known, j) => {
      const key = `${known} ${find(j)}`;
      const number = seen.get(key) ?? seen.size;
      seen.set(key, number);
      return number;
    });
  }
  return links.length === 0 ? Int32Array.from({ length: n }, (_, i) => i) : classes;
}
