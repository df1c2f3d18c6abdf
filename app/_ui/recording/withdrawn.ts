import { type TestEvent, type TestNamed, testNamedBy } from "../../../db/test-history.ts";

type Judged = Extract<TestEvent, { kind: "judged" }>;

export interface WithdrawnTest {
  readonly key: string;
  readonly test: TestNamed;
  readonly withdrawal: Judged;
}

/** By what a test as a whole is withdrawn; null: it is not. `events`: of the test, in the order of the commits. */
export function withdrawalOf(events: readonly TestEvent[]): Judged | null {
  const last = events.findLast(
    (event): event is Judged => event.kind === "judged" && event.cylinder === null && event.undoneBy === null,
  );
  return last?.verdict === "withdrawn" ? last : null;
}

/** The tests of a unit that are withdrawn, the latest day first. `histories`: as `testHistories` gives them. */
export function withdrawnTests(
  histories: ReadonlyMap<string, readonly TestEvent[]>,
  unit: string,
): readonly WithdrawnTest[] {
  return [...histories]
    .flatMap(([key, events]) => {
      const withdrawal = withdrawalOf(events);
      const test = testNamedBy(key);
      return withdrawal === null || test.unit !== unit ? [] : [{ key, test, withdrawal }];
    })
    .sort((a, b) => (a.test.date < b.test.date ? 1 : a.test.date > b.test.date ? -1 : a.key < b.key ? -1 : 1));
}
