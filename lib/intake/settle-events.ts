import type { CheckFact, JudgementFact, MeterFact, RepairFact } from "../schema/facts.ts";
import type { RowIssue } from "../schema/intake.ts";
import { checkKey, judgementKey, meterKey, repairKey } from "./fact-keys.ts";
import { byPlace, issueAt, type RowPlace } from "./unit-rows.ts";
import { words } from "./words.ts";

/**
 * Repairs, checks, judgements and meter readings of one unit that tell of the same thing in different ways. Exact repeats must be
 * gone before; one row at most is left for each thing.
 */

function groupsOf<F>(facts: readonly F[], keyOf: (fact: F) => string): readonly (readonly F[])[] {
  const groups = new Map<string, F[]>();
  for (const fact of facts) {
    const key = keyOf(fact);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [fact]);
    else group.push(fact);
  }
  return [...groups.values()];
}

/** Nobody can say which of them is right: all are refused, each naming the others. */
function withoutContradictions<F extends RowPlace>(
  facts: readonly F[],
  what: { readonly name: (fact: F) => string; readonly key: (fact: F) => string },
  issues: RowIssue[],
): readonly F[] {
  const refused = new Set<F>();
  for (const group of groupsOf(facts, what.key)) {
    if (group.length === 1) continue;
    for (const fact of group) {
      refused.add(fact);
      const others = group.filter((other) => other !== fact).sort(byPlace);
      const issue = { severity: "refused", code: "told-otherwise", column: null, value: null } as const;
      issues.push(issueAt(fact, issue, words.toldOtherwise(what.name(fact), others, fact.file)));
    }
  }
  return refused.size === 0 ? facts : facts.filter((fact) => !refused.has(fact));
}

export const settleRepairs = (facts: readonly RepairFact[], issues: RowIssue[]): readonly RepairFact[] =>
  withoutContradictions(
    facts,
    {
      name: ({ scope, date }) => `the ${scope} repair of ${date}`,
      key: repairKey,
    },
    issues,
  );

export const settleChecks = (facts: readonly CheckFact[], issues: RowIssue[]): readonly CheckFact[] =>
  withoutContradictions(
    facts,
    {
      name: ({ check, date }) => `the check ${check} of ${date}`,
      key: checkKey,
    },
    issues,
  );

export const settleJudgements = (facts: readonly JudgementFact[], issues: RowIssue[]): readonly JudgementFact[] =>
  withoutContradictions(
    facts,
    {
      name: ({ test, date }) => `the judgement of the ${test} test of ${date}`,
      key: judgementKey,
    },
    issues,
  );

/** Several readings of one day are no contradiction: the last one counts, of a new meter the first. */
export function settleMeterReadings(facts: readonly MeterFact[], issues: RowIssue[]): readonly MeterFact[] {
  return groupsOf(facts, meterKey).map((group) => {
    const ascending = [...group].sort((a, b) => a.meter - b.meter);
    const counts = ascending.at(ascending[0]?.meterReset === true ? 0 : -1) as MeterFact;
    for (const fact of group) {
      if (fact === counts) continue;
      const issue = { severity: "mention", code: "same-day", column: "meter", value: String(fact.meter) } as const;
      issues.push(issueAt(fact, issue, words.sameDayMeter(counts, fact.file)));
    }
    return counts;
  });
}
