import type { EngineModel } from "../schema/engine-model.ts";
import type { JudgementFact, TestFact } from "../schema/facts.ts";
import { checkKey, judgementKey, meterKey, repairKey, testKey } from "./fact-keys.ts";
import { type ReconciledUnit, reconcileUnit, type UnitBefore } from "./reconcile-unit.ts";
import type { UnitRows } from "./unit-rows.ts";

/** What the store holds of a unit, with what a row may correct. */
export interface KnownHistory extends UnitBefore {
  /** A list of units names it already: another engine model in a list is then a change. */
  readonly isListed: boolean;
  /** `key`: what the reading came with, as `fact-keys.ts` tells it. */
  readonly meterReadings: readonly (UnitBefore["meterReadings"][number] & { readonly key: string })[];
}

/** Engine models by what a person decides: with those that the rows' import defines, and as they are known now. */
export interface ModelsToJudge {
  readonly changed: ReadonlyMap<string, EngineModel>;
  readonly known: ReadonlyMap<string, EngineModel>;
}

export interface JudgedUnit extends ReconciledUnit {
  /** Readings and facts out of `accepted` that hold only where what the rows change is taken too. */
  readonly withChanges: ReadonlySet<object>;
}

/**
 * `reconcileUnit` for rows that may change what is known: another engine model, another meter at a known test, repair,
 * reading or check. A correction is not judged against what it corrects or withdraws. Where there are changes, the rows are judged a
 * second time as if these were declined, and what then does not hold comes with the changes or not at all.
 */
export function judgeUnit(rows: UnitRows, before: KnownHistory | null, models: ModelsToJudge): JudgedUnit {
  if (before === null) return { ...reconcileUnit(rows, null, models.changed), withChanges: new Set() };
  const meters = metersTold(rows);
  const withdrawn = new Set(rows.judgements.flatMap((fact) => (isOfWhole(fact) ? [testKey(fact)] : [])));
  const isCorrected = ({ key, meter }: { key: string; meter: number }) =>
    withdrawn.has(key) || (meters.get(key) ?? meter) !== meter;
  const corrected = new Set(before.meterReadings.filter(isCorrected));
  const meterReadings = before.meterReadings.filter((reading) => !corrected.has(reading));
  const judged = reconcileUnit(rows, { ...before, meterReadings }, models.changed);
  const cylinders = (of: ReadonlyMap<string, EngineModel>, id: string | null) =>
    id === null ? undefined : of.get(id)?.cylinders;
  const isOtherEngine =
    (before.isListed && rows.units.some((fact) => (fact.engineModel ?? before.engineModel) !== before.engineModel)) ||
    cylinders(models.known, before.engineModel) !== cylinders(models.changed, before.engineModel);
  if (corrected.size === 0 && !isOtherEngine) return { ...judged, withChanges: new Set() };
  const asKnown = reconcileUnit(withoutChanges(rows, before), before, models.known);
  return { ...judged, withChanges: missingFrom(asKnown.accepted, judged.accepted, before) };
}

/** A test is withdrawn as a whole. */
const isOfWhole = ({ cylinder, verdict }: JudgementFact) => cylinder === null && verdict === "withdrawn";

/** The meter that the rows tell for each thing; of several for one test the lowest, as `mergeTests` takes it. */
function metersTold(rows: UnitRows): ReadonlyMap<string, number> {
  const meters = new Map<string, number>();
  for (const test of rows.tests) {
    const key = testKey(test);
    meters.set(key, Math.min(test.meter, meters.get(key) ?? test.meter));
  }
  for (const fact of rows.meterReadings) meters.set(meterKey(fact), fact.meter);
  for (const fact of rows.repairs) meters.set(repairKey(fact), fact.meter);
  for (const fact of rows.checks) if (fact.meter !== null) meters.set(checkKey(fact), fact.meter);
  return meters;
}

/** The rows as if what they say otherwise were declined: what is known stays as it is. */
function withoutChanges(rows: UnitRows, before: KnownHistory): UnitRows {
  const meters = new Map(before.meterReadings.map(({ key, meter }) => [key, meter]));
  return {
    unit: rows.unit,
    units: before.isListed ? [] : rows.units,
    tests: rows.tests.map((test): TestFact => ({ ...test, meter: meters.get(testKey(test)) ?? test.meter })),
    repairs: rows.repairs.filter((fact) => !meters.has(repairKey(fact))),
    meterReadings: rows.meterReadings.filter((fact) => !meters.has(meterKey(fact))),
    checks: rows.checks.filter((fact) => !meters.has(checkKey(fact))),
    judgements: rows.judgements,
  };
}

function missingFrom(few: UnitRows, all: UnitRows, before: KnownHistory): ReadonlySet<object> {
  // What is known stands whatever becomes of the change.
  const holds = new Set(before.meterReadings.map(({ key }) => key));
  for (const fact of few.repairs) holds.add(repairKey(fact));
  for (const fact of few.meterReadings) holds.add(meterKey(fact));
  for (const fact of few.checks) holds.add(checkKey(fact));
  for (const fact of few.judgements) holds.add(judgementKey(fact));
  const readings = new Set(few.tests.flatMap((test) => test.readings.map((r) => `${r.cylinder} ${testKey(test)}`)));
  const missing = new Set<object>();
  for (const test of all.tests) {
    for (const reading of test.readings)
      if (!readings.has(`${reading.cylinder} ${testKey(test)}`)) missing.add(reading);
  }
  for (const fact of all.repairs) if (!holds.has(repairKey(fact))) missing.add(fact);
  for (const fact of all.meterReadings) if (!holds.has(meterKey(fact))) missing.add(fact);
  for (const fact of all.checks) if (!holds.has(checkKey(fact))) missing.add(fact);
  for (const fact of all.judgements) if (!holds.has(judgementKey(fact))) missing.add(fact);
  return missing;
}
