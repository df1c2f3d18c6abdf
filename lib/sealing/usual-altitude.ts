import type { TestFact } from "../schema/facts.ts";
import { isAltitude } from "./ambient.ts";

/**
 * For each test of a unit whose place is not told, the altitude at which the unit was mostly tested up to that date (that
 * of the row, else of the row's depot; of equally frequent ones the latest). Not in the map: none is known up to then.
 * Misleads for a unit that moved since: the place of most of its tests goes before that of the last one.
 *
 * @param tests of one unit, ascending by date
 */
export function usualAltitudes(
  tests: readonly TestFact[],
  altitudeOf: (depot: string | null) => number | null,
): ReadonlyMap<TestFact, number> {
  const usual = new Map<TestFact, number>();
  const counts = new Map<number, number>();
  let mostly: number | null = null;
  for (let start = 0, end = 0; start < tests.length; start = end) {
    while (end < tests.length && tests[end]?.date === tests[start]?.date) end++;
    const unknown: TestFact[] = [];
    for (const test of tests.slice(start, end)) {
      const altitudeM = [test.altitudeM, altitudeOf(test.depot)].find(isAltitude);
      if (altitudeM === undefined) {
        unknown.push(test);
        continue;
      }
      const count = (counts.get(altitudeM) ?? 0) + 1;
      counts.set(altitudeM, count);
      if (mostly === null || count >= (counts.get(mostly) ?? 0)) mostly = altitudeM;
    }
    if (mostly !== null) for (const test of unknown) usual.set(test, mostly);
  }
  return usual;
}
