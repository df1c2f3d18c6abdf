import type { BasisTest } from "../schema/changes.ts";
import type { IsoDate } from "../schema/facts.ts";
import { dateWords, measureWords } from "../wording.ts";
import { grouped, listDifference, onDates } from "./lists.ts";

const keyOf = ({ date, measure, attempt }: BasisTest) => `${measure} ${date} ${attempt}`;
const tests = (of: readonly BasisTest[], measure: BasisTest["measure"]): string =>
  `${measureWords[measure]} test${of.length === 1 ? "" : "s"}`;

/** What is different about the tests, each as a part of a sentence; empty: nothing. */
export function testCauses(was: readonly BasisTest[], now: readonly BasisTest[]): readonly string[] {
  const { added, gone } = listDifference(was, now, keyOf);
  return [
    ...grouped(added.toReversed(), ({ measure }) => measure).map(([measure, of]) => {
      const unused = of.every(({ used }) => !used) ? ", kept but not used" : "";
      return `new ${tests(of, measure)} ${onDates(of.map(({ date }) => date))}${unused}`;
    }),
    ...grouped(gone, ({ measure }) => measure).map(
      ([measure, of]) => `${tests(of, measure)} ${onDates(of.map(({ date }) => date))} taken back`,
    ),
    ...judgedAnew(was, now),
  ];
}

/** Tests that both know, but with other readings, or used by one alone. */
function judgedAnew(was: readonly BasisTest[], now: readonly BasisTest[]): readonly string[] {
  const before = new Map(was.map((test) => [keyOf(test), test]));
  const both = now.flatMap((test) => {
    const old = before.get(keyOf(test));
    return old === undefined ? [] : [{ test, old }];
  });
  const corrected = both.filter(({ test, old }) => test.readings !== old.readings).map(({ test }) => test);
  const isCorrected = new Set(corrected);
  const byPerson = both.filter(({ test, old }) => test.judged !== old.judged && !isCorrected.has(test));
  const isByPerson = new Set(byPerson);
  const rejudged = both.filter(
    (one) => one.test.used !== one.old.used && !isCorrected.has(one.test) && !isByPerson.has(one),
  );
  const of = (those: readonly BasisTest[], says: string) =>
    grouped(those, ({ measure }) => measure).map(
      ([measure, group]) => `${tests(group, measure)} ${onDates(group.map(({ date }) => date))} ${says}`,
    );
  return [
    ...of(corrected, "corrected"),
    ...grouped(byPerson, ({ test }) => verdictWords(test)).flatMap(([says, group]) =>
      of(
        group.map(({ test }) => test),
        says,
      ),
    ),
    ...of(
      rejudged.filter(({ test }) => test.used).map(({ test }) => test),
      "used after all",
    ),
    ...of(
      rejudged.filter(({ test }) => !test.used).map(({ test }) => test),
      "no longer used",
    ),
  ];
}

const saysOf: Readonly<Record<string, string>> = {
  "set-aside": "set aside",
  fault: "told to show a fault",
  "no-fault": "told to show no fault",
};

/** "set aside by a person", "cylinder 3 accepted by a person" */
function verdictWords({ judged }: BasisTest): string {
  if (judged === undefined) return "no longer judged by a person";
  const each = judged.split(", ").map((one) => {
    const [verdict, cylinder] = one.split(" ");
    const says = saysOf[verdict ?? ""] ?? verdict;
    return cylinder === undefined ? says : `cylinder ${cylinder} ${says}`;
  });
  return `${each.join(", ")} by a person`;
}

/** Where the tests were not kept: by the date of the last one alone. */
export function lastTestCause(was: IsoDate | null, now: IsoDate | null): readonly string[] {
  if (was === now) return [];
  if (now !== null && (was === null || now > was)) return [`new test on ${dateWords(now)}`];
  return ["a test taken back"];
}
