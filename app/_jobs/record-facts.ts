import { fleetFacts } from "../../db/facts.ts";
import type { Store } from "../../db/store.ts";
import { testKey } from "../../lib/intake/fact-keys.ts";
import type { Told } from "../../lib/outtake/contract-csv.ts";
import type { TestFact } from "../../lib/schema/facts.ts";
import { commitFormImport } from "./commit-form-import.ts";
import type { Committed } from "./commit-import.ts";
import type { Act, JobControl } from "./progress.ts";

/** A test as a person saw it: nothing is corrected that reads otherwise by now. */
export type TestSeen = Pick<TestFact, "unit" | "date" | "test" | "attempt" | "instrument"> & {
  readonly seen: string;
};

/** Stands for the readings of a test as they are told. */
export const seenOf = (test: Pick<TestFact, "meter" | "readings">): string =>
  JSON.stringify([test.meter, ...test.readings.map(({ cylinder, value, valueUnit }) => [cylinder, value, valueUnit])]);

/** The test as it stands; null: there is none. */
export async function testOf(
  store: Store,
  named: Pick<TestFact, "unit" | "date" | "test" | "attempt" | "instrument">,
): Promise<TestFact | null> {
  const { tests } = await fleetFacts(store, { units: [named.unit] });
  return tests.find((test) => testKey(test) === testKey(named)) ?? null;
}

/**
 * Keeps what a person recorded of units as an import of its own, and assesses them and those that share an engine with
 * them. `corrects`: the test that a correction was written for. Throws a `JobError` where that reads otherwise by now,
 * where nothing would change, or where the facts cannot be taken beside what is known; nothing is kept then.
 */
export function recordFacts(
  store: Store,
  {
    title,
    told,
    corrects = null,
  }: { readonly title: string; readonly told: Told; readonly corrects?: TestSeen | null },
  act: Act,
  control: JobControl = {},
): Promise<Committed & { readonly import: string }> {
  const meanwhile = async () => {
    if (corrects === null) return null;
    const now = await testOf(store, corrects);
    if (now !== null && seenOf(now) === corrects.seen) return null;
    return "The test was changed by somebody else meanwhile, so nothing was kept. Load the page again and look at it.";
  };
  return commitFormImport(store, { title, told }, { ...act, meanwhile }, control);
}
