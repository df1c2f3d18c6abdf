import type { EngineModel } from "../schema/engine-model.ts";
import type { CheckFact, IsoDate, JudgementFact, MeterFact, RepairFact, TestFact, UnitFact } from "../schema/facts.ts";
import type { MeterUnit } from "../schema/words.ts";
import { meterFactor } from "../units.ts";
import { dateWords } from "../wording.ts";
import { judgementsByTest } from "./judgements.ts";
import {
  type ContinuousMeter,
  continuousMeter,
  cumulativeOfReading,
  cumulativeOnDate,
  isBetweenReadings,
  type MeterObservation,
} from "./meters.ts";
import { compareRepairs, compareTests, compareText } from "./order.ts";
import type { TestJudgement } from "./types.ts";

/** What happened to the engine of a unit, placed on the unit's continuous meter. */
export type UnitEvent = {
  readonly date: IsoDate;
  readonly cumulative: number;
  /** The engine that the fact names; null: none. */
  readonly serial: string | null;
} & ({ readonly kind: "test"; readonly fact: TestFact } | { readonly kind: "repair"; readonly fact: RepairFact });

/** All facts of one unit up to the as-of date; `unitFact` is what its rows say together. */
export interface UnitFacts {
  readonly unit: string;
  readonly unitFact: UnitFact | null;
  readonly tests: TestFact[];
  readonly repairs: RepairFact[];
  readonly meterReadings: MeterFact[];
  readonly checks: CheckFact[];
  readonly judgements: JudgementFact[];
}

export interface UnitTimeline {
  readonly unit: string;
  readonly unitFact: UnitFact | null;
  readonly model: EngineModel;
  readonly meterUnit: MeterUnit;
  readonly depot: string | null;
  readonly meter: ContinuousMeter;
  /** Ascending by date, then by meter; of equal ones repairs first. */
  readonly events: readonly UnitEvent[];
  readonly checks: readonly CheckFact[];
  /** What persons made of the unit's tests. */
  readonly judgementsOf: (test: TestFact) => readonly TestJudgement[];
  /** Filled by each step that finds something to doubt. */
  readonly warnings: string[];
}

/** A repair row that may speak of an engine that is out of the unit; the meter it gives is not relied on. */
const isAboutNamedEngine = (repair: RepairFact) => repair.scope !== "engine-swap" && repair.engineSerial !== null;

/**
 * Puts a unit's tests and repairs in order on its continuous meter. A test in miles of a unit in km (or the reverse) is
 * converted; one in hours of a unit in km is left out. A fact whose meter contradicts the others is placed by its date;
 * a test so only where later readings say how far the unit had come, else it is left out. All with a warning.
 */
export function unitTimeline(
  facts: UnitFacts,
  known: { readonly model: EngineModel; readonly meterUnit: MeterUnit; readonly depot: string | null },
): UnitTimeline {
  const warnings: string[] = [];
  const factorOf = (test: TestFact) => meterFactor(test.meterUnit, known.meterUnit);
  const tests = facts.tests.filter((test) => factorOf(test) !== null).sort(compareTests);
  for (const test of facts.tests) {
    if (factorOf(test) === null) {
      warnings.push(
        `The test of ${dateWords(test.date)} is in ${test.meterUnit}, the unit's meter in ${known.meterUnit}: left out.`,
      );
    }
  }
  const repairs = [...facts.repairs].sort(compareRepairs);
  const meterOf = (test: TestFact) => test.meter * (factorOf(test) ?? 1);
  const relied = repairs.filter((repair) => !isAboutNamedEngine(repair));
  const meter = continuousMeter([
    ...tests.map((test): MeterObservation => ({ date: test.date, meter: meterOf(test), reset: false })),
    ...relied.map(({ date, meter }): MeterObservation => ({ date, meter, reset: false })),
    ...facts.meterReadings.map(({ date, meter, meterReset }): MeterObservation => ({ date, meter, reset: meterReset })),
    ...inServiceObservation(facts.unitFact),
  ]);
  for (const warning of meter.warnings) warnings.push(warning);

  const events: UnitEvent[] = [];
  tests.forEach((fact, i) => {
    const { date, engineSerial: serial } = fact;
    const cumulative = meter.cumulative[i] ?? (isBetweenReadings(meter, date) ? cumulativeOnDate(meter, date) : null);
    if (cumulative !== null) events.push({ kind: "test", date, cumulative, serial, fact });
    else warnings.push(`The ${fact.test} test of ${dateWords(date)} has no place on the meter: left out.`);
  });
  const reliedFrom = tests.length;
  const reliedPlace = new Map(relied.map((repair, i) => [repair, meter.cumulative[reliedFrom + i] ?? null]));
  for (const fact of repairs) {
    const { date, engineSerial: serial } = fact;
    const placed = isAboutNamedEngine(fact) ? cumulativeOfReading(meter, fact) : reliedPlace.get(fact);
    events.push({ kind: "repair", date, cumulative: placed ?? cumulativeOnDate(meter, date), serial, fact });
  }
  const { judgementsOf, unmatched } = judgementsByTest(facts.judgements, facts.tests);
  for (const { test, date } of unmatched) {
    warnings.push(`A judgement names a ${test} test of ${dateWords(date)} that is not on file: it changes nothing.`);
  }
  events.sort(
    (a, b) =>
      compareText(a.date, b.date) || a.cumulative - b.cumulative || compareText(a.kind, b.kind) || sameKind(a, b),
  );
  return {
    ...known,
    unit: facts.unit,
    unitFact: facts.unitFact,
    meter,
    events,
    checks: facts.checks,
    judgementsOf,
    warnings,
  };
}

function sameKind(a: UnitEvent, b: UnitEvent): number {
  if (a.kind === "test" && b.kind === "test") return compareTests(a.fact, b.fact);
  if (a.kind === "repair" && b.kind === "repair") return compareRepairs(a.fact, b.fact);
  return 0;
}

function inServiceObservation(unitFact: UnitFact | null): MeterObservation[] {
  if (unitFact === null || unitFact.inServiceDate === null || unitFact.inServiceMeter === null) return [];
  return [{ date: unitFact.inServiceDate, meter: unitFact.inServiceMeter, reset: false }];
}
