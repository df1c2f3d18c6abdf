import type { JudgementFact, ReadingFact, TestFact } from "../schema/facts.ts";
import type { RowIssue } from "../schema/intake.ts";
import { withdrawnBy } from "../withdrawn.ts";
import { measureWords } from "../wording.ts";
import { judgementKey, testKey } from "./fact-keys.ts";
import { oddWords } from "./odd-words.ts";
import { byPlace, issueAt, placeOf, type UnitRows } from "./unit-rows.ts";

/** What is known of a unit's tests that a person withdrew, as a whole or a cylinder of them. */
export interface WithdrawnBefore {
  /** As they stand on file, with the readings that do not count. */
  readonly tests: readonly TestFact[];
  readonly judgements: readonly JudgementFact[];
}

export type KnownJudgement = Omit<JudgementFact, "file">;

/** The known judgements that no row takes the place of. */
function leftOf<J extends KnownJudgement>(known: readonly J[], told: readonly JudgementFact[]): readonly J[] {
  if (known.length === 0 || told.length === 0) return known;
  const judged = new Set(told.map(judgementKey));
  return known.filter((one) => !judged.has(judgementKey(one)));
}

/** What is withdrawn of one unit's tests once the rows are in, by them or before. */
export const withdrawnWith = (told: readonly JudgementFact[], known: readonly KnownJudgement[]) =>
  withdrawnBy([...leftOf(known, told), ...told]);

/**
 * Rows under the name of a test that was withdrawn count nowhere. Where they repeat what is on file, as the file that told
 * it first does when it comes again, that is as it should be; where they say otherwise, they may well be a true test of
 * that day, and a warning tells what becomes of them and what to do.
 */
export function rowsOfWithdrawn(rows: UnitRows, before: WithdrawnBefore): readonly RowIssue[] {
  const withdrawals = leftOf(before.judgements, rows.judgements).filter(({ verdict }) => verdict === "withdrawn");
  if (withdrawals.length === 0) return [];
  const known = new Map(before.tests.map((test) => [testKey(test), test]));
  return rows.tests.flatMap((test) => {
    const key = testKey(test);
    const own = withdrawals.filter((one) => testKey(one) === key);
    const whole = own.find(({ cylinder }) => cylinder === null);
    const other = saidOtherwise(test, known.get(key));
    if (whole !== undefined) return other.slice(0, 1).map((reading) => warn(test, reading, whole));
    return other.flatMap((reading) => {
      const withdrawal = own.find(({ cylinder }) => cylinder === reading.cylinder);
      return withdrawal === undefined ? [] : [warn(test, reading, withdrawal)];
    });
  });
}

/** The readings that are not on file as they are told here, in the order of their rows; all, where the meter is another. */
function saidOtherwise(test: TestFact, known: TestFact | undefined): readonly ReadingFact[] {
  const readings = [...test.readings].sort((a, b) => byPlace(placeOf(test, a), placeOf(test, b)));
  if (known?.meter !== test.meter) return readings;
  return readings.filter(({ cylinder, value, valueUnit }) => {
    const was = known.readings.find((reading) => reading.cylinder === cylinder);
    return was?.value !== value || was.valueUnit !== valueUnit;
  });
}

function warn(test: TestFact, reading: ReadingFact, { cylinder, reason, judgedBy }: JudgementFact): RowIssue {
  const attempt = test.attempt === 1 ? "" : `, attempt ${test.attempt}`;
  const named = `the ${measureWords[test.test]} test of ${test.unit} on ${test.date}${attempt}`;
  const what = cylinder === null ? named : `cylinder ${cylinder} of ${named}`;
  const why = oddWords.withdrawn(what, { reason, judgedBy });
  return issueAt(placeOf(test, reading), { severity: "warning", code: "withdrawn", column: null, value: null }, why);
}
