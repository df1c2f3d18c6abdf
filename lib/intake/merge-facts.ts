import type { CheckFact, DepotFact, JudgementFact, MeterFact, RepairFact, UnitFact } from "../schema/facts.ts";
import type { RowIssue } from "../schema/intake.ts";
import type { UnitStatus } from "../schema/words.ts";
import { distinct, toldAs } from "./merge-tests.ts";
import { byPlace, byText, issueAt, type RowPlace } from "./unit-rows.ts";
import { words } from "./words.ts";

/** What a fact says, without where it was read; equal for exact repeats. */
const said = (fact: RowPlace): string =>
  JSON.stringify(fact, (key, value) => (key === "file" || key === "line" ? undefined : value));

/** Each fact once, the first by file and line; ascending by what they say. Repeats are mentioned. */
function onceEach<F extends RowPlace>(facts: readonly F[], issues: RowIssue[]): readonly F[] {
  const kept = new Map<string, F>();
  for (const fact of [...facts].sort(byPlace)) {
    const key = said(fact);
    const first = kept.get(key);
    if (first === undefined) kept.set(key, fact);
    else if (byPlace(first, fact) !== 0) {
      const issue = { severity: "mention", code: "repeated", column: null, value: null } as const;
      issues.push(issueAt(fact, issue, words.repeated(first, fact.file)));
    }
  }
  return [...kept.entries()].sort(([a], [b]) => byText(a, b)).map(([, fact]) => fact);
}

/** Repairs, meter readings, checks and judgements of one unit: exact repeats count once, everything else stands side by side. */
export function mergeEvents<F extends RepairFact | MeterFact | CheckFact | JudgementFact>(
  facts: readonly F[],
): { facts: readonly F[]; issues: readonly RowIssue[] } {
  const issues: RowIssue[] = [];
  const kept = onceEach(facts, issues);
  return { facts: [...kept].sort((a, b) => byText(a.date, b.date)), issues };
}

/** The lowest of the values given, with a warning where there are several; null where none is given. */
function lowestOf<F extends RowPlace, K extends keyof F & string>(
  facts: readonly F[],
  field: { readonly key: K; readonly column: string; readonly subject: string },
  issues: RowIssue[],
): F[K] | null {
  const values = distinct(facts.map((fact) => fact[field.key] as string | number | null));
  if (values.length > 1) {
    const told = values.map(toldAs);
    const why = words.disagreement(field.subject, field.column, told, told[0] ?? "");
    const issue = { severity: "warning", code: "disagreement", column: field.column, value: told[0] ?? null } as const;
    issues.push(issueAt(facts[facts.length - 1] as F, issue, why));
  }
  return (values[0] ?? null) as F[K] | null;
}

const finality = { "in-service": 0, stopped: 1, retired: 2 } as const satisfies Record<UnitStatus, number>;

/**
 * The rows of one unit in lists of units, as one; null where there is none. Exact repeats are mentioned. A blank gives
 * way; where rows differ, the lowest value is taken (the earliest date, the first text) with a warning, and the most
 * final status, so that the order of rows and files makes no difference.
 */
export function mergeUnitFacts(facts: readonly UnitFact[]): { fact: UnitFact | null; issues: readonly RowIssue[] } {
  const issues: RowIssue[] = [];
  const kept = [...onceEach(facts, issues)].sort(byPlace);
  const first = kept[0];
  if (first === undefined) return { fact: null, issues };
  if (kept.length === 1) return { fact: first, issues };
  const lowest = <K extends keyof UnitFact & string>(key: K, column: string) =>
    lowestOf(kept, { key, column, subject: `the unit ${first.unit}` }, issues);
  const status = kept
    .map((f) => f.status)
    .filter((told) => told !== null)
    .reduce<UnitStatus | null>((a, b) => (a === null || finality[b] > finality[a] ? b : a), null);
  const fact: UnitFact = {
    ...first,
    engineModel: lowest("engineModel", "engine_model"),
    meterUnit: lowest("meterUnit", "meter_unit"),
    depot: lowest("depot", "depot"),
    class: lowest("class", "class"),
    inServiceDate: lowest("inServiceDate", "in_service_date"),
    inServiceMeter: lowest("inServiceMeter", "in_service_meter"),
    engineSerial: lowest("engineSerial", "engine_serial"),
    disposalDate: lowest("disposalDate", "disposal_date"),
    status,
    statusReason: lowest("statusReason", "status_reason"),
  };
  return { fact, issues };
}

/** Depots, each once, ascending by name; by the same rule as `mergeUnitFacts`. */
export function mergeDepots(facts: readonly DepotFact[]): {
  depots: readonly DepotFact[];
  issues: readonly RowIssue[];
} {
  const issues: RowIssue[] = [];
  const byName = new Map<string, DepotFact[]>();
  for (const fact of [...onceEach(facts, issues)].sort(byPlace)) {
    byName.set(fact.depot, [...(byName.get(fact.depot) ?? []), fact]);
  }
  const depots = [...byName]
    .sort(([a], [b]) => byText(a, b))
    .map(([depot, same]): DepotFact => {
      const altitudeM = lowestOf(
        same,
        { key: "altitudeM", column: "altitude_m", subject: `the depot ${depot}` },
        issues,
      );
      return { ...(same[0] as DepotFact), altitudeM };
    });
  return { depots, issues };
}
