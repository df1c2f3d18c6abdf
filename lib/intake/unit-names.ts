import type { RowIssue } from "../schema/intake.ts";
import { oddWords, proposalWords } from "./odd-words.ts";
import { byPlace, byText, issueAt, placeOf, type RowPlace, type UnitRows, withProposals } from "./unit-rows.ts";

/** Fleet numbers that people write in more than one way. */

/**
 * The same for names that differ by blanks, capitals, leading noughts or the letter O in place of a nought alone:
 * `V-104`, `v 104`, `V-0104`, `V-1O4`.
 */
const likeKey = (name: string): string =>
  name
    .normalize("NFKC")
    .toLowerCase()
    .replace(/[\s-]/gu, "")
    .replaceAll("o", "0")
    .replace(/(^|\D)0+(?=\d)/g, "$1");

export interface AlikeUnit {
  readonly unit: string;
  /** The store knows it; else it stands in the same files. */
  readonly isKnown: boolean;
}

/**
 * For each unit of an import that nobody knows yet: the unit whose name is almost the same, a known one before one of
 * the same files, of several the first by text. null: none is, or the unit itself is known.
 */
export function alikeUnits(units: Iterable<string>, known: ReadonlySet<string>): (unit: string) => AlikeUnit | null {
  const byKey = new Map<string, AlikeUnit[]>();
  const add = (unit: string, isKnown: boolean) => {
    const key = likeKey(unit);
    const same = byKey.get(key);
    if (same === undefined) byKey.set(key, [{ unit, isKnown }]);
    else if (same.every((other) => other.unit !== unit)) same.push({ unit, isKnown });
  };
  for (const unit of [...known].sort(byText)) add(unit, true);
  for (const unit of [...units].sort(byText)) add(unit, false);
  return (unit) => {
    if (known.has(unit)) return null;
    const [first] = byKey.get(likeKey(unit)) ?? [];
    return first === undefined || first.unit === unit ? null : first;
  };
}

/**
 * The issues of a unit whose name is almost another's: what refuses its rows is given the proposal to read the known
 * name, else a warning is added for each file. Of two names that are both new nobody can say which is meant.
 */
export function withAlike(rows: UnitRows, issues: readonly RowIssue[], alike: AlikeUnit | null): readonly RowIssue[] {
  if (alike === null) return issues;
  const { unit, isKnown } = alike;
  const cells = [{ line: null, column: "unit", was: rows.unit, value: unit }];
  const proposals = isKnown ? [{ kind: "unit-name", words: proposalWords.unitIs(unit), cells } as const] : [];
  const refusals = ["unit-new", "unit-unknown"];
  if (issues.some((issue) => refusals.includes(issue.code))) {
    return issues.map((issue) => (refusals.includes(issue.code) ? withProposals(issue, proposals) : issue));
  }
  const why = isKnown ? oddWords.unitLikeKnown(rows.unit, unit) : oddWords.unitsAlike(rows.unit, unit);
  const issue = { severity: "warning", code: "unit-alike", column: "unit", value: rows.unit } as const;
  return [...issues, ...firstOfFiles(rows).map((place) => withProposals(issueAt(place, issue, why), proposals))];
}

/** The first row of the unit in each file. */
function firstOfFiles(rows: UnitRows): readonly RowPlace[] {
  const places: readonly RowPlace[] = [
    ...rows.units,
    ...rows.tests.flatMap((test) => test.readings.map((reading) => placeOf(test, reading))),
    ...rows.repairs,
    ...rows.meterReadings,
    ...rows.checks,
  ];
  const firsts = new Map<string, RowPlace>();
  for (const place of places) {
    const first = firsts.get(place.file);
    if (first === undefined || place.line < first.line) firsts.set(place.file, place);
  }
  return [...firsts.values()].sort(byPlace);
}
