/**
 * Number of letters to put in, take out, change or swap with their neighbour to get from one word to the other. Beyond
 * `most` it is infinite, and words that far apart are told in time that does not grow with the square of their length.
 */
export function editDistance(a: string, b: string, most = Number.POSITIVE_INFINITY): number {
  if (Math.abs(a.length - b.length) > most) return Number.POSITIVE_INFINITY;
  const far = Number.POSITIVE_INFINITY;
  let beforeLast: readonly number[] = [];
  let last: readonly number[] = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = new Array<number>(b.length + 1).fill(far);
    row[0] = i;
    let least = i <= most ? i : far;
    // Beyond this band more letters were put in or taken out than may be.
    const from = Math.max(1, i - most);
    const to = Math.min(b.length, i + most);
    for (let j = from; j <= to; j++) {
      const change = (last[j - 1] as number) + (a[i - 1] === b[j - 1] ? 0 : 1);
      const isSwap = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1];
      const swap = isSwap ? (beforeLast[j - 2] as number) + 1 : change;
      const here = Math.min(change, swap, (last[j] as number) + 1, (row[j - 1] as number) + 1);
      row[j] = here;
      least = Math.min(least, here);
    }
    if (least > most) return far;
    beforeLast = last;
    last = row;
  }
  const distance = last[b.length] as number;
  return distance <= most ? distance : far;
}
