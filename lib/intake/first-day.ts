import type { IsoDate, TestFact } from "../schema/facts.ts";
import type { Proposal, RowIssue } from "../schema/intake.ts";
import { correctTest } from "./correct-cells.ts";
import { testKey } from "./fact-keys.ts";
import type { OddnessBefore } from "./odd-tests.ts";
import { oddWords, proposalWords } from "./odd-words.ts";
import type { ReconciledUnit } from "./reconcile-unit.ts";
import { byText, placeOf, type UnitRows, withProposals } from "./unit-rows.ts";

/** Tests before the first day of their unit: most often the year was written wrong. */

/** The date that a test may have meant, for its rows in one file; none where no year or more than one would do. */
export function likelyDate(
  /** The test, or its fragments. */
  fragments: readonly TestFact[],
  others: readonly TestFact[],
  { firstDay, file }: { readonly firstDay: IsoDate; readonly file: string },
): readonly Proposal[] {
  const [test] = fragments;
  const likely = test === undefined ? null : likelyYear(test, others, firstDay);
  if (test === undefined || likely === null) return [];
  const told = { column: "test_date", was: test.date, value: likely };
  const cells = fragments.flatMap((fragment) => correctTest(fragment, file, told));
  return [{ kind: "test-date", words: proposalWords.dateIs(likely), cells }];
}

/** The same day of the one year from the unit's first on in which the meter fits between the other tests. */
function likelyYear(test: TestFact, all: readonly TestFact[], firstDay: IsoDate): IsoDate | null {
  const others = all.filter((other) => other.date >= firstDay).sort((a, b) => byText(a.date, b.date));
  const latest = others.at(-1)?.date;
  if (latest === undefined) return null;
  const fitting: IsoDate[] = [];
  for (let year = Number(firstDay.slice(0, 4)); year <= Number(latest.slice(0, 4)); year++) {
    const date = `${year}${test.date.slice(4)}`;
    // There is no 29 February in most years; beyond the latest test anything would fit.
    if (date < firstDay || date > latest || !isDate(date)) continue;
    const fits = others.every((other) => (other.date <= date ? other.meter <= test.meter : other.meter >= test.meter));
    if (fits) fitting.push(date);
  }
  return fitting.length === 1 ? (fitting[0] as IsoDate) : null;
}

const isDate = (date: IsoDate) => !date.endsWith("-02-29") || new Date(`${date}T00:00:00Z`).getUTCDate() === 29;

/**
 * The issues of a unit, those of tests told otherwise that are refused for their meter and lie before the unit's first day:
 * then it is the date that cannot be right. `before`: what is known of the unit beside these rows.
 */
export function withFirstDay(
  rows: UnitRows,
  { accepted }: Pick<ReconciledUnit, "accepted">,
  issues: readonly RowIssue[],
  before: OddnessBefore,
): readonly RowIssue[] {
  const firstDay = accepted.units[0]?.inServiceDate ?? before.inServiceDate;
  const early = firstDay === null ? [] : rows.tests.filter((test) => test.date < firstDay);
  if (firstDay === null || early.length === 0) return issues;
  const others = [...before.tests, ...accepted.tests];
  return issues.map((issue) => {
    if (issue.code !== "meter-backwards") return issue;
    const { file, line } = issue;
    const isHere = (test: TestFact) =>
      test.readings.some((reading) => {
        const place = placeOf(test, reading);
        return place.file === file && place.line === line;
      });
    const test = early.find(isHere);
    if (test === undefined) return issue;
    const key = testKey(test);
    const fragments = early.filter((other) => testKey(other) === key);
    const told = { ...issue, words: `${issue.words}; ${oddWords.dateFirst(test.date, firstDay)}` };
    const offers = likelyDate(fragments, others, { firstDay, file });
    return withProposals(told, [...offers, ...(issue.proposals ?? [])]);
  });
}
