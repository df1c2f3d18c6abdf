import type { FleetFacts, IsoDate, UnitFact } from "../schema/facts.ts";
import { withdrawnBy } from "../withdrawn.ts";
import { compareRepairs, compareSource, compareTests, compareText } from "./order.ts";
import type { UnitFacts } from "./timeline.ts";

/**
 * The facts of a fleet by unit, ascending by unit, those after `asOf` left out; tests and repairs of each ascend by date.
 * Several rows of one unit are read in the order of file and line: what a later one tells goes before an earlier one.
 * Tests and readings that a person withdrew are left out, and what was said of them.
 */
export function groupByUnit(facts: FleetFacts, asOf: IsoDate): UnitFacts[] {
  const units = new Map<string, UnitFacts>();
  const of = (unit: string): UnitFacts => {
    const known = units.get(unit);
    if (known !== undefined) return known;
    const fresh: UnitFacts = {
      unit,
      unitFact: null,
      tests: [],
      repairs: [],
      meterReadings: [],
      checks: [],
      judgements: [],
    };
    units.set(unit, fresh);
    return fresh;
  };
  for (const unitFact of [...facts.units].sort(compareSource)) {
    const known = of(unitFact.unit);
    units.set(unitFact.unit, { ...known, unitFact: mergedRow(known.unitFact, unitFact, asOf) });
  }
  const withdrawn = withdrawnBy(facts.judgements);
  for (const test of facts.tests) {
    const left = test.date <= asOf ? withdrawn.left(test) : null;
    if (left !== null) of(test.unit).tests.push(left);
  }
  for (const repair of facts.repairs) if (repair.date <= asOf) of(repair.unit).repairs.push(repair);
  for (const reading of facts.meterReadings) if (reading.date <= asOf) of(reading.unit).meterReadings.push(reading);
  for (const check of facts.checks) if (check.date <= asOf) of(check.unit).checks.push(check);
  for (const judgement of facts.judgements) {
    if (judgement.date <= asOf && withdrawn.counts(judgement)) of(judgement.unit).judgements.push(judgement);
  }
  for (const unit of units.values()) {
    unit.tests.sort(compareTests);
    unit.repairs.sort(compareRepairs);
    unit.meterReadings.sort((a, b) => compareText(a.date, b.date) || compareSource(a, b));
    unit.checks.sort((a, b) => compareText(a.date, b.date) || compareSource(a, b));
    unit.judgements.sort((a, b) => compareText(a.date, b.date) || (a.cylinder ?? 0) - (b.cylinder ?? 0));
  }
  return [...units.values()].sort((a, b) => compareText(a.unit, b.unit));
}

/** A unit that enters service after the as-of date is known, but has not yet begun to run. */
function mergedRow(before: UnitFact | null, row: UnitFact, asOf: IsoDate): UnitFact {
  const isBegun = row.inServiceDate === null || row.inServiceDate <= asOf;
  return {
    ...row,
    engineModel: row.engineModel ?? before?.engineModel ?? null,
    meterUnit: row.meterUnit ?? before?.meterUnit ?? null,
    depot: row.depot ?? before?.depot ?? null,
    class: row.class ?? before?.class ?? null,
    inServiceDate: (isBegun ? row.inServiceDate : null) ?? before?.inServiceDate ?? null,
    inServiceMeter: (isBegun ? row.inServiceMeter : null) ?? before?.inServiceMeter ?? null,
    engineSerial: row.engineSerial ?? before?.engineSerial ?? null,
    disposalDate: row.disposalDate ?? before?.disposalDate ?? null,
  };
}
