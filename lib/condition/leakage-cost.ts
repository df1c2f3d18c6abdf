/**
 * Compression that a leakage costs, against a cylinder that leaks 6 %: [leakage %, loss %]. Up to 40 % by the flow
 * physics for half a litre at 200/min (computed); beyond, judged.
 */
const costOfLeakage: readonly (readonly [number, number])[] = [
  [6, 0],
  [10, 3],
  [20, 8],
  [30, 13],
  [40, 17],
  [60, 32],
  [100, 95],
];

/**
 * Expected loss of compression at a leakage, in % against a cylinder that leaks 6 %; 0 below that.
 * @param leakagePercent 0 to 100
 */
export function compressionLostTo(leakagePercent: number): number {
  let [from, fromLoss] = costOfLeakage[0] as readonly [number, number];
  for (const [to, toLoss] of costOfLeakage) {
    if (leakagePercent <= to) {
      return to === from ? toLoss : fromLoss + ((toLoss - fromLoss) * Math.max(0, leakagePercent - from)) / (to - from);
    }
    [from, fromLoss] = [to, toLoss];
  }
  return fromLoss;
}

/** Slow cranking makes a leak cost up to half as much again (30 % of leakage 19 instead of 13 % at 120/min; computed). */
const slowCranking = 1.5;

/**
 * What of a cylinder's compression below its siblings', in %, its leakage beside theirs cannot explain, and what it can.
 * Held against the siblings, for what all of them leak costs all of them alike; a leak is given its cost at slow cranking, so
 * that nothing is called unexplained that is only a weak battery. Negative where it lies higher than its leakage lets expect.
 * @param deficitPercent how far it lies below its siblings
 * @param leakagePercent its own
 * @param othersPercent the siblings'; null: not known, a sound cylinder's
 */
export function besideLeakage(
  deficitPercent: number,
  { leakagePercent, othersPercent }: { readonly leakagePercent: number; readonly othersPercent: number | null },
): { readonly unexplained: number; readonly explained: number } {
  const beyond = Math.max(0, compressionLostTo(leakagePercent) - compressionLostTo(othersPercent ?? 0));
  return { unexplained: deficitPercent - slowCranking * beyond, explained: beyond };
}
