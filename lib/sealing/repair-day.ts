import type { TestFact } from "../schema/facts.ts";
import type { EngineRepair, SealedTest } from "./types.ts";

/**
 * On which side of a repair each test stands that was made on the same day at the same meter reading; tests of other
 * moments are not in the map. Neither day nor meter tells, so the usual order of work does: a lone test of a measure found
 * what was then repaired. Of several of one measure, told apart by attempt or else by time of day, the last checked the
 * repair and the others came before it. Misleads where a lone test checked the repair: its reading then stands in the old
 * life. A swap is no repair here: which engine a test of that day is of is told by its serial number.
 */
export function sidesOfRepair(
  tests: readonly { readonly fact: TestFact; readonly x: number }[],
  repairs: readonly EngineRepair[],
): ReadonlyMap<TestFact, NonNullable<SealedTest["repairSameDay"]>> {
  const moments = new Set(repairs.filter((r) => r.scope !== "engine-swap").map((r) => `${r.date} ${r.x}`));
  const beside = moments.size === 0 ? [] : tests.filter(({ fact, x }) => moments.has(`${fact.date} ${x}`));
  return new Map(
    beside.map(({ fact, x }) => {
      const others = beside.filter((o) => o.fact.test === fact.test && o.fact.date === fact.date && o.x === x);
      const isLast = others.some((o) => isLater(fact, o.fact)) && !others.some((o) => isLater(o.fact, fact));
      return [fact, isLast ? "after" : "before"];
    }),
  );
}

const isLater = (a: TestFact, b: TestFact): boolean =>
  a.attempt > b.attempt || (a.attempt === b.attempt && a.time !== null && b.time !== null && a.time > b.time);
