import { createHash } from "node:crypto";
import { testsAndUnits } from "../../db/facts.ts";
import type { Store } from "../../db/store.ts";
import { testKey } from "../../lib/intake/fact-keys.ts";
import type { Told } from "../../lib/outtake/contract-csv.ts";
import type { JudgementFact, TestFact } from "../../lib/schema/facts.ts";
import { commitFormImport } from "./commit-form-import.ts";
import type { Committed } from "./commit-import.ts";
import type { Act, JobControl } from "./progress.ts";

type Named = Pick<TestFact, "unit" | "date" | "test" | "attempt" | "instrument">;

/** A test as a person saw it: nothing is corrected that reads otherwise by now. */
export type TestSeen = Named & { readonly seen: string };

/** Stands for all that is told of a test and its readings; the place that it was read from is no part of it. */
export function seenOf({ file: _file, readings, ...head }: TestFact): string {
  const told = readings.map(({ line: _line, file: _own, ...reading }) => inOrder(reading));
  return createHash("sha256")
    .update(JSON.stringify([inOrder(head), told]))
    .digest("base64url");
}

const inOrder = (fact: object) => Object.entries(fact).sort(([a], [b]) => (a < b ? -1 : 1));

/** What stands of a test, and what persons made of it. */
export interface TestStanding {
  readonly test: TestFact;
  readonly judged: readonly JudgementFact[];
}

/** The test as it stands; null: there is none. */
export async function testOf(store: Store, named: Named): Promise<TestStanding | null> {
  const { tests, judgements } = await testsAndUnits(store, [named.unit]);
  const key = testKey(named);
  const test = tests.find((one) => testKey(one) === key);
  return test === undefined ? null : { test, judged: judgements.filter((one) => testKey(one) === key) };
}

export interface Recorded {
  readonly title: string;
  readonly told: Told;
  /** Whether blanks of a corrected test become blank (`FormFacts.tellsWhole`). */
  readonly tellsWhole?: boolean;
  /** The test that a correction or judgement was written for. */
  readonly corrects?: TestSeen | null;
  /** A test that was not on file when the form was read: what it would be laid over, nobody saw. */
  readonly asNew?: Named | null;
}

/**
 * Keeps what a person recorded of units as an import of its own, and assesses them and those that share an engine with
 * them. Throws a `JobError` where the test that is corrected reads otherwise by now, where nothing would change, or where
 * the facts cannot be taken beside what is known; nothing is kept then.
 */
export function recordFacts(
  store: Store,
  { title, told, tellsWhole = false, corrects = null, asNew = null }: Recorded,
  act: Act,
  control: JobControl = {},
): Promise<Committed & { readonly import: string }> {
  const meanwhile = async () => {
    const now = corrects === null ? null : await testOf(store, corrects);
    const isAsSeen = corrects === null || (now !== null && seenOf(now.test) === corrects.seen);
    if (isAsSeen && (asNew === null || (await testOf(store, asNew)) === null)) return null;
    return "The test was changed by somebody else meanwhile, so nothing was kept. Load the page again and look at it.";
  };
  return commitFormImport(store, { title, told, tellsWhole }, { ...act, meanwhile }, control);
}
