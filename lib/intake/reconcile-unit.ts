import type { EngineModel } from "../schema/engine-model.ts";
import type { ReadingFact, TestFact } from "../schema/facts.ts";
import type { RowIssue } from "../schema/intake.ts";
import type { MeterUnit } from "../schema/words.ts";
import { toKpa } from "../units.ts";
import { mergeEvents, mergeUnitFacts } from "./merge-facts.ts";
import { mergeTests } from "./merge-tests.ts";
import { type MeantInstead, meterOffers } from "./meter-offers.ts";
import { type MeterRow, meterBreaches } from "./meter-order.ts";
import { settleChecks, settleJudgements, settleMeterReadings, settleRepairs } from "./settle-events.ts";
import { identityOf, type KnownUnit } from "./unit-identity.ts";
import {
  byText,
  issueAt,
  issuesOfTest,
  noRows,
  placeOf,
  type RowPlace,
  type UnitRows,
  withProposals,
} from "./unit-rows.ts";
import { type KnownJudgement, withdrawnWith } from "./withdrawn-rows.ts";
import { words } from "./words.ts";

/** What earlier imports hold of the unit: its identity, every reading of its meter, and what persons made of its tests. */
export interface UnitBefore extends KnownUnit {
  readonly meterReadings: readonly Omit<MeterRow, "known">[];
  readonly judgements: readonly KnownJudgement[];
}

export interface ReconciledUnit {
  /** The rows that count; `tests` are whole, `units` holds one row at most. Ascending by date. */
  readonly accepted: UnitRows;
  readonly engineModel: string | null;
  readonly meterUnit: MeterUnit | null;
  /** Ascending by file and line. */
  readonly issues: readonly RowIssue[];
}

const refusedRow = (code: string, column: string | null, value: string | null) =>
  ({ severity: "refused", code, column, value }) as const;

/** Above this many times the new value a compression is taken with a warning. */
const improbableTimes = 3;

/**
 * The rules that need all rows of a unit (contract, sections 1 and 3): a new unit needs an engine model, one unit keeps
 * one meter unit, cylinders are those of its engine, rows that repeat count once, rows that contradict each other are
 * refused, the meter does not run backwards without a reset. `before` is what earlier imports hold of the unit (null:
 * nothing); it is never refused and is not part of `accepted`. The order of the rows makes no difference.
 */
export function reconcileUnit(
  rows: UnitRows,
  before: UnitBefore | null,
  models: ReadonlyMap<string, EngineModel>,
): ReconciledUnit {
  const issues: RowIssue[] = [];
  // One by one: a spread puts them all on the stack, which some 100,000 rows of one unit overflow.
  const tell = (...lists: readonly (readonly RowIssue[])[]) => {
    for (const list of lists) for (const issue of list) issues.push(issue);
  };
  const kept = before?.meterUnit ?? null;
  const listed = rows.units.filter((fact) => {
    if (kept === null || fact.meterUnit === null || fact.meterUnit === kept) return true;
    const why = words.meterUnitOther(fact.meterUnit, kept, rows.unit);
    issues.push(issueAt(fact, refusedRow("meter-unit-other", "meter_unit", fact.meterUnit), why));
    return false;
  });
  const unit = mergeUnitFacts(listed);
  const identity = identityOf({ fact: unit.fact, tests: rows.tests }, before);
  tell(unit.issues, identity.issues);
  if (identity.engineModel === null) {
    tell(refusalsOfNewUnit({ ...rows, units: listed }));
    const nothing = noRows(rows.unit);
    return { accepted: nothing, engineModel: null, meterUnit: identity.meterUnit, issues: issues.sort(byIssue) };
  }
  const model = models.get(identity.engineModel) ?? null;
  const fitting = fittingTests(rows.tests, { meterUnit: identity.meterUnit, model }, issues);
  const tests = mergeTests(fitting);
  const repairs = mergeEvents(rows.repairs);
  const meterReadings = mergeEvents(rows.meterReadings);
  const checks = mergeEvents(rows.checks);
  const judgements = mergeEvents(rows.judgements);
  tell(tests.issues, repairs.issues, meterReadings.issues, checks.issues, judgements.issues);
  const accepted = inMeterOrder(
    {
      unit: rows.unit,
      units: unit.fact === null ? [] : [unit.fact],
      tests: tests.tests,
      repairs: settleRepairs(repairs.facts, issues).filter(
        (fact) =>
          hasCylinders(fact, fact.cylinders === "all" ? [] : fact.cylinders, { model, column: "cylinders" }, issues) &&
          hasCylinders(
            fact,
            fact.findings.map(({ cylinder }) => cylinder),
            { model, column: "findings" },
            issues,
          ),
      ),
      meterReadings: settleMeterReadings(meterReadings.facts, issues),
      checks: settleChecks(checks.facts, issues).filter((fact) =>
        hasCylinders(fact, fact.cylinder === null ? [] : [fact.cylinder], { model, column: "cylinder" }, issues),
      ),
      judgements: settleJudgements(judgements.facts, issues).filter((fact) =>
        hasCylinders(fact, fact.cylinder === null ? [] : [fact.cylinder], { model, column: "cylinder" }, issues),
      ),
    },
    {
      meterReadings: before?.meterReadings ?? [],
      judgements: before?.judgements ?? [],
      meterUnit: identity.meterUnit,
    },
    issues,
  );
  const { engineModel, meterUnit } = identity;
  return { accepted, engineModel, meterUnit, issues: issues.sort(byIssue) };
}

export const byIssue = (a: RowIssue, b: RowIssue) =>
  byText(a.file, b.file) ||
  (a.line ?? 0) - (b.line ?? 0) ||
  byText(a.column ?? "", b.column ?? "") ||
  byText(a.words, b.words);

/** Every row of a unit of which nobody says what engine it has. */
function refusalsOfNewUnit(rows: UnitRows): readonly RowIssue[] {
  const here = refusedRow("unit-new", "engine_model", null);
  const elsewhere = refusedRow("unit-unknown", "unit", rows.unit);
  const others: readonly RowPlace[] = [...rows.repairs, ...rows.meterReadings, ...rows.checks, ...rows.judgements];
  return [
    ...rows.units.map((fact) => issueAt(fact, here, words.unitNew(rows.unit))),
    ...rows.tests.flatMap((test) => issuesOfTest(test, here, words.unitNew(rows.unit))),
    ...others.map((fact) => issueAt(fact, elsewhere, words.unitNewElsewhere(rows.unit))),
  ];
}

/** Fragments without the rows that do not fit the unit's meter or engine; improbable readings are warned of. */
function fittingTests(
  fragments: readonly TestFact[],
  unit: { readonly meterUnit: MeterUnit | null; readonly model: EngineModel | null },
  issues: RowIssue[],
): readonly TestFact[] {
  const { meterUnit, model } = unit;
  return fragments.flatMap((test) => {
    if (meterUnit !== null && test.meterUnit !== meterUnit) {
      const issue = refusedRow("meter-unit-other", "meter_unit", test.meterUnit);
      issues.push(...issuesOfTest(test, issue, words.meterUnitOther(test.meterUnit, meterUnit, test.unit)));
      return [];
    }
    if (model === null) return [test];
    const newKpa = test.test === "leak-down" ? undefined : model.compression?.newKpa;
    let left = test.readings;
    for (const reading of test.readings) {
      const place = placeOf(test, reading);
      if (reading.cylinder > model.cylinders) {
        const issue = refusedRow("cylinder-unknown", ...toldCylinder(reading));
        issues.push(issueAt(place, issue, words.cylinderUnknown(reading.cylinder, model)));
        left = left.filter((r) => r !== reading);
        continue;
      }
      const { value, valueUnit } = reading;
      if (newKpa === undefined || valueUnit === "%" || toKpa(value, valueUnit) <= improbableTimes * newKpa) continue;
      const column = reading.column ?? "value";
      const issue = { severity: "warning", code: "improbable", column, value: String(value) } as const;
      issues.push(issueAt(place, issue, words.improbable(value, valueUnit, newKpa)));
    }
    if (left === test.readings) return [test];
    return left.length === 0 ? [] : [{ ...test, readings: left }];
  });
}

/** The column that tells the cylinder and what it holds: in the wide layout the reading, for the cylinder is the column. */
const toldCylinder = ({ column, byLayout, cylinder, value }: ReadingFact): [column: string, value: string] =>
  column === undefined || byLayout === true ? ["cylinder", String(cylinder)] : [column, String(value)];

function hasCylinders(
  place: RowPlace,
  cylinders: readonly number[],
  engine: { readonly model: EngineModel | null; readonly column: string },
  issues: RowIssue[],
): boolean {
  const { model, column } = engine;
  if (model === null) return true;
  const unknown = cylinders.filter((cylinder) => cylinder > model.cylinders);
  for (const cylinder of unknown) {
    const issue = refusedRow("cylinder-unknown", column, String(cylinder));
    issues.push(issueAt(place, issue, words.cylinderUnknown(cylinder, model)));
  }
  return unknown.length === 0;
}

interface FactRow extends MeterRow {
  /** What the reading came with; null: known before. */
  readonly fact: object | null;
}

/** The rows without those that make the meter run backwards; what a person withdrew tells nothing of the meter. */
function inMeterOrder(
  rows: UnitRows,
  unit: Pick<UnitBefore, "meterReadings" | "judgements"> & { readonly meterUnit: MeterUnit | null },
  issues: RowIssue[],
): UnitRows {
  const meterRows: FactRow[] = unit.meterReadings.map((reading) => ({ ...reading, known: true, fact: null }));
  const add = (fact: { date: string; meter: number | null } & RowPlace, owner: object, reset = false) => {
    const { date, meter, file, line } = fact;
    if (meter !== null) meterRows.push({ date, meter, reset, known: false, file, line, fact: owner });
  };
  const withdrawn = withdrawnWith(rows.judgements, unit.judgements);
  for (const test of rows.tests) {
    if (withdrawn.isWithdrawn(test)) continue;
    const line = Math.min(...test.readings.map((reading) => reading.line));
    add({ date: test.date, meter: test.meter, file: test.file, line }, test);
  }
  for (const fact of rows.meterReadings) add(fact, fact, fact.meterReset);
  for (const fact of [...rows.repairs, ...rows.checks]) add(fact, fact);

  const told = (meter: number) =>
    `${meter.toLocaleString("en-US")}${unit.meterUnit === null ? "" : ` ${unit.meterUnit}`}`;
  const whyOf = new Map<object, { readonly meter: number; readonly why: string; readonly meant: MeantInstead }>();
  const breaches = meterBreaches(meterRows);
  const meantInstead = meterOffers(meterRows, breaches, { unit: rows.unit, meterUnit: unit.meterUnit });
  for (const breach of breaches) {
    const { row, kind, against } = breach;
    const where = against.known ? "known already" : words.rowOf(against, row.file);
    const why =
      kind === "backwards"
        ? words.meterBackwards(told(row.meter), told(against.meter), against.date, where)
        : words.meterAhead(told(row.meter), told(against.meter), against.date);
    if (row.fact !== null) whyOf.set(row.fact, { meter: row.meter, why, meant: meantInstead(breach) });
  }
  const stays = <F extends RowPlace>(fact: F): boolean => {
    const breach = whyOf.get(fact);
    if (breach !== undefined) {
      const issue = issueAt(fact, refusedRow("meter-backwards", "meter", String(breach.meter)), breach.why);
      issues.push(withProposals(issue, breach.meant.ofRow(fact)));
    }
    return breach === undefined;
  };
  return {
    ...rows,
    tests: rows.tests.filter((test) => {
      const breach = whyOf.get(test);
      const issue = refusedRow("meter-backwards", "meter", String(test.meter));
      for (const told of breach === undefined ? [] : issuesOfTest(test, issue, breach.why)) {
        issues.push(withProposals(told, breach?.meant.ofTest(test, told.file) ?? []));
      }
      return breach === undefined;
    }),
    meterReadings: rows.meterReadings.filter(stays),
    repairs: rows.repairs.filter(stays),
    checks: rows.checks.filter(stays),
  };
}
