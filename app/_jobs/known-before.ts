import { fleetFacts } from "../../db/facts.ts";
import type { Store } from "../../db/store.ts";
import { testKey } from "../../lib/intake/merge-tests.ts";
import type { UnitBefore } from "../../lib/intake/reconcile-unit.ts";
import { identityOf } from "../../lib/intake/unit-identity.ts";
import type { UnitRows } from "../../lib/intake/unit-rows.ts";
import type { FleetFacts } from "../../lib/schema/facts.ts";

/**
 * What the store holds of the units that the rows tell of; units not known are missing. A reading of the meter that the
 * rows tell anew with another figure is left out: a correction must not be judged against what it corrects.
 */
export async function knownBefore(store: Store, batch: readonly UnitRows[]): Promise<Map<string, UnitBefore>> {
  const facts = await fleetFacts(store, { units: batch.map((rows) => rows.unit) });
  const byUnit = new Map<string, Mutable<FactsOfUnit>>();
  const of = (unit: string) => {
    const found = byUnit.get(unit);
    if (found !== undefined) return found;
    const none = { units: [], tests: [], repairs: [], meterReadings: [], checks: [] };
    byUnit.set(unit, none);
    return none;
  };
  for (const fact of facts.units) of(fact.unit).units.push(fact);
  for (const fact of facts.tests) of(fact.unit).tests.push(fact);
  for (const fact of facts.repairs) of(fact.unit).repairs.push(fact);
  for (const fact of facts.meterReadings) of(fact.unit).meterReadings.push(fact);
  for (const fact of facts.checks) of(fact.unit).checks.push(fact);
  const before = new Map<string, UnitBefore>();
  for (const rows of batch) {
    const known = byUnit.get(rows.unit);
    if (known !== undefined) before.set(rows.unit, beforeOf(known, rows));
  }
  return before;
}

type FactsOfUnit = Pick<FleetFacts, "units" | "tests" | "repairs" | "meterReadings" | "checks">;
type Mutable<T> = { -readonly [K in keyof T]: T[K] extends readonly (infer F)[] ? F[] : T[K] };

function beforeOf(known: FactsOfUnit, rows: UnitRows): UnitBefore {
  const tests = new Map(rows.tests.map((test) => [testKey(test), test.meter]));
  const meters = new Map(rows.meterReadings.map((fact) => [`${fact.date} ${fact.meterReset}`, fact.meter]));
  const isCorrected = (told: number | undefined, meter: number) => told !== undefined && told !== meter;
  const readings: { date: string; meter: number; reset: boolean; file: string; line: number }[] = [];
  const add = (fact: { date: string; meter: number | null; file: string }, line: number, reset = false) => {
    const { date, meter, file } = fact;
    if (meter !== null) readings.push({ date, meter, reset, file, line });
  };
  for (const test of known.tests) {
    if (!isCorrected(tests.get(testKey(test)), test.meter)) add(test, test.readings[0]?.line ?? 1);
  }
  for (const fact of known.meterReadings) {
    if (!isCorrected(meters.get(`${fact.date} ${fact.meterReset}`), fact.meter)) add(fact, fact.line, fact.meterReset);
  }
  for (const fact of [...known.repairs, ...known.checks]) add(fact, fact.line);
  const { engineModel, meterUnit } = identityOf({ fact: known.units[0] ?? null, tests: known.tests }, null);
  return { engineModel, meterUnit, meterReadings: readings };
}
