/** Number of letters to put in, take out, change or swap with their neighbour to get from one word to the other. */
export function editDistance(a: string, b: string): number {
  const rows: number[][] = [Array.from({ length: b.length + 1 }, (_, j) => j)];
  const at = (i: number, j: number) => rows[i]?.[j] ?? Number.POSITIVE_INFINITY;
  for (let i = 1; i <= a.length; i++) {
    rows.push([i]);
    for (let j = 1; j <= b.length; j++) {
      const change = at(i - 1, j - 1) + (a[i - 1] === b[j - 1] ? 0 : 1);
      const isSwap = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1];
      const swap = isSwap ? at(i - 2, j - 2) + 1 : change;
      (rows[i] as number[]).push(Math.min(change, swap, at(i - 1, j) + 1, at(i, j - 1) + 1));
    }
  }
  return at(a.length, b.length);
}
