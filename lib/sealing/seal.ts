import type { EngineModel } from "../schema/engine-model.ts";
import type { FleetFacts, IsoDate, RepairFact, TestFact } from "../schema/facts.ts";
import type { MeterUnit } from "../schema/words.ts";
import { dateWords } from "../wording.ts";
import { fittingsOf, type JoinedEngine, joinStays, type PlacedStay, xAt } from "./engines.ts";
import { groupByUnit } from "./group.ts";
import { usualTester } from "./leak-down.ts";
import { cumulativeOfReading } from "./meters.ts";
import { compareSource, compareText } from "./order.ts";
import { sidesOfRepair } from "./repair-day.ts";
import { roundingSteps } from "./rounding.ts";
import { sealTest } from "./seal-test.ts";
import { claimsOf, staysOf } from "./stays.ts";
import { type UnitFacts, type UnitTimeline, unitTimeline } from "./timeline.ts";
import type { EngineCheck, EngineHistory, EngineRepair, FleetIndex, SealedTest, UnitHistory } from "./types.ts";
import { usualAltitudes } from "./usual-altitude.ts";

/**
 * Lays a fleet out by units and engines: continuous meters, which engine was in which unit, one wear axis for each engine
 * (see `EngineHistory`). Only facts up to and including `asOf` count; rows of units and depots have no date and always
 * do. The order of the facts does not matter. Readings are referred when `seal` is called for their engine, so that a
 * fleet of any size needs the memory of one engine.
 *
 * Where `facts` are of some units only, give all that are connected over shared engines, and `usualMeterUnits`: the meter
 * unit that most units of each engine model have in the whole fleet (left out: those of `facts`), which a unit that tells
 * none is taken to have.
 *
 * Facts that contradict each other don't fail: the unit's `warnings` say what was assumed. A unit whose engine model is
 * not told or not in `facts.models` is left out, and `problems` says so.
 */
export function indexFleet(
  facts: FleetFacts,
  { asOf, usualMeterUnits }: { readonly asOf: IsoDate; readonly usualMeterUnits?: ReadonlyMap<string, MeterUnit> },
): FleetIndex {
  const models = new Map(facts.models.map((model) => [model.id, model]));
  const altitudeOf = depotAltitudes(facts);
  const byUnit = groupByUnit(facts, asOf);
  const claims = claimsOf({ tests: each(byUnit, "tests"), repairs: each(byUnit, "repairs") });
  const problems: string[] = [];
  const timelines: UnitTimeline[] = [];
  const meterUnitOfSisters = usualMeterUnits ?? commonMeterUnits(byUnit);
  for (const unitFacts of byUnit) {
    const named = modelNamesOf(unitFacts);
    const model = named.map((id) => models.get(id)).find((m) => m !== undefined);
    if (model === undefined) {
      const reason = named[0] === undefined ? "no engine model is told" : `engine model ${named[0]} is not known`;
      problems.push(`Unit ${unitFacts.unit} is left out: ${reason}.`);
      continue;
    }
    const told = unitFacts.unitFact?.meterUnit ?? unitFacts.tests[0]?.meterUnit ?? null;
    const meterUnit = told ?? meterUnitOfSisters.get(model.id) ?? "h";
    const depot = unitFacts.unitFact?.depot ?? unitFacts.tests.findLast((t) => t.depot !== null)?.depot ?? null;
    const timeline = unitTimeline(unitFacts, { model, meterUnit, depot });
    if (told === null) timeline.warnings.push(`The unit's meter unit is not told: ${meterUnit} is assumed.`);
    const other = named.find((id) => id !== model.id);
    if (other !== undefined) timeline.warnings.push(`Rows also name engine model ${other}: ${model.id} is used.`);
    timelines.push(timeline);
  }

  const perUnit = timelines.map((timeline) => staysOf(timeline, claims));
  const { engines, fitted } = joinStays(perUnit);
  for (const { repair, unit } of perUnit.flatMap((u) =>
    u.benchRepairs.map((repair) => ({ repair, unit: u.stays[0] })),
  )) {
    if (!engines.has(repair.serial)) {
      unit?.timeline.warnings.push(
        `The repair of ${dateWords(repair.date)} names engine ${repair.serial}, which was in no unit: left out.`,
      );
    }
  }
  const usualTesters = new Map(facts.models.map((model) => [model.id, usualTester(model)]));
  return {
    units: timelines.map((timeline) => unitHistory(timeline, fitted.get(timeline.unit))),
    engineKeys: [...engines.keys()].sort(compareText),
    opened: new Set([...engines].flatMap(([key, engine]) => (wasOpened(engine) ? [key] : []))),
    problems,
    seal: (key) => {
      const engine = engines.get(key);
      if (engine === undefined) throw new RangeError(`no engine ${key} in this fleet`);
      return sealEngine(engine, { altitudeOf, usualTesters });
    },
  };
}

/** Whether any repair of the engine tells what was found in it. */
function wasOpened({ stays, benchRepairs }: JoinedEngine): boolean {
  const tells = ({ found, findings }: RepairFact) => found.length > 0 || findings.length > 0;
  return (
    benchRepairs.some(({ repair }) => tells(repair.fact)) ||
    stays.some(({ stay }) => stay.events.some((event) => event.kind === "repair" && tells(event.fact)))
  );
}

function* each<K extends "tests" | "repairs">(units: readonly UnitFacts[], kind: K): Iterable<UnitFacts[K][number]> {
  for (const unit of units) yield* unit[kind];
}

function depotAltitudes(facts: FleetFacts): (depot: string | null) => number | null {
  const altitudes = new Map<string, number>();
  const rows = [...facts.depots].sort(compareSource);
  for (const { depot, altitudeM } of rows) if (altitudeM !== null) altitudes.set(depot, altitudeM);
  return (depot) => (depot === null ? null : (altitudes.get(depot) ?? null));
}

/** Engine models that a unit's rows name: its own row's first, then those of its tests, the latest first. */
function modelNamesOf({ unitFact, tests }: UnitFacts): string[] {
  const names = new Set<string>();
  if (unitFact !== null && unitFact.engineModel !== null) names.add(unitFact.engineModel);
  for (let i = tests.length - 1; i >= 0; i--) {
    const name = tests[i]?.engineModel ?? null;
    if (name !== null) names.add(name);
  }
  return [...names];
}

/** The meter unit that most units of each model have: what a unit without one most likely has. */
function commonMeterUnits(units: readonly UnitFacts[]): ReadonlyMap<string, MeterUnit> {
  const counts = new Map<string, Map<MeterUnit, number>>();
  for (const unit of units) {
    const meterUnit = unit.unitFact?.meterUnit ?? unit.tests[0]?.meterUnit;
    const model = modelNamesOf(unit)[0];
    if (meterUnit === undefined || model === undefined) continue;
    const ofModel = counts.get(model) ?? new Map<MeterUnit, number>();
    counts.set(model, ofModel.set(meterUnit, (ofModel.get(meterUnit) ?? 0) + 1));
  }
  const common = new Map<string, MeterUnit>();
  for (const [model, ofModel] of counts) {
    const [first] = [...ofModel].sort(([a, n], [b, m]) => m - n || compareText(a, b));
    if (first !== undefined) common.set(model, first[0]);
  }
  return common;
}

function unitHistory(timeline: UnitTimeline, fitted: { engine: string; offset: number } | undefined): UnitHistory {
  if (fitted === undefined) throw new Error(`no engine was placed in unit ${timeline.unit}`);
  const { unit, model, meterUnit, depot, unitFact, meter, warnings } = timeline;
  return {
    unit,
    model,
    meterUnit,
    depot,
    class: unitFact?.class ?? null,
    status: unitFact?.status ?? "in-service",
    disposalDate: unitFact?.disposalDate ?? null,
    engine: fitted.engine,
    meterPoints: meter.points,
    offset: meter.offset,
    engineOffset: fitted.offset,
    warnings: [...new Set(warnings)],
  };
}

type Lookups = {
  readonly altitudeOf: (depot: string | null) => number | null;
  readonly usualTesters: ReadonlyMap<string, ReturnType<typeof usualTester>>;
};

function sealEngine(engine: JoinedEngine, { altitudeOf, usualTesters }: Lookups): EngineHistory {
  const { model } = (engine.stays.at(-1) as PlacedStay).stay.timeline;
  const usual = usualTesters.get(model.id) ?? usualTester(model);
  const placedTests: { fact: TestFact; x: number; timeline: UnitTimeline }[] = [];
  const repairs = engine.benchRepairs.map(({ repair, x }) => engineRepair(repair.fact, x, model));
  const checks: EngineCheck[] = [];
  for (const placed of engine.stays) {
    const { timeline, events, fromDate, toDate } = placed.stay;
    for (const event of events) {
      const x = xAt(placed, event.cumulative);
      if (event.kind === "repair") repairs.push(engineRepair(event.fact, x, model));
      else placedTests.push({ fact: event.fact, x, timeline });
    }
    for (const check of timeline.checks) {
      if ((fromDate !== null && check.date < fromDate) || (toDate !== null && check.date >= toDate)) continue;
      const { unit, date, meter, cylinder, result, value, valueUnit, remarks } = check;
      const x = meter === null ? null : xAt(placed, cumulativeOfReading(timeline.meter, { date, meter }));
      checks.push({ unit, date, x, cylinder, check: check.check, result, value, valueUnit, remarks });
    }
  }
  const sides = sidesOfRepair(placedTests, repairs);
  const usually = new Map(
    engine.stays.map(({ stay: { timeline } }) => [timeline, usualAltitudes(testsOf(timeline), altitudeOf)]),
  );
  const stepOf = roundingSteps(placedTests.map(({ fact }) => fact));
  const tests = placedTests.map(({ fact, x, timeline }) => {
    const depot = fact.depot ?? timeline.depot;
    return sealTest(fact, {
      x,
      repairSameDay: sides.get(fact),
      judgements: timeline.judgementsOf(fact),
      model,
      usual,
      depot,
      depotAltitudeM: altitudeOf(depot),
      usualDepotAltitudeM: altitudeOf(timeline.depot),
      usualAltitudeM: usually.get(timeline)?.get(fact) ?? null,
      roundingStep: (unit) => stepOf(fact, unit),
    });
  });
  return {
    engine: engine.engine,
    serial: engine.serial,
    model,
    meterUnit: engine.meterUnit,
    fittings: fittingsOf(engine),
    tests: tests.sort(compareSealedTests),
    repairs: repairs.sort((a, b) => a.x - b.x || compareText(a.date, b.date) || compareText(a.scope, b.scope)),
    checks,
  };
}

/** All tests made in the unit, whichever engine was in it: they tell where it usually stands. */
const testsOf = ({ events }: UnitTimeline): TestFact[] =>
  events.flatMap((event) => (event.kind === "test" ? [event.fact] : []));

const compareSealedTests = (a: SealedTest, b: SealedTest): number =>
  a.x - b.x ||
  compareText(a.date, b.date) ||
  Number(a.repairSameDay !== "before") - Number(b.repairSameDay !== "before") ||
  compareText(a.measure, b.measure) ||
  a.attempt - b.attempt ||
  compareText(a.instrument ?? "", b.instrument ?? "");

function engineRepair(fact: RepairFact, x: number, model: EngineModel): EngineRepair {
  const { unit, date, meter, scope, found, findings, cost, labourHours, downtimeDays, remarks } = fact;
  const all = Array.from({ length: model.cylinders }, (_, i) => i + 1);
  const named = fact.cylinders;
  const cylinders =
    named === "all" || scope === "engine-swap" ? all : all.filter((cylinder) => named.includes(cylinder));
  return { unit, date, x, meter, scope, cylinders, found, findings, cost, labourHours, downtimeDays, remarks };
}
