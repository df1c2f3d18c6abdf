import type { FleetFacts } from "../schema/facts.ts";

/**
 * The facts of a unit and of all that shared an engine with it, directly or over others: as much as its assessment hangs on. Models
 * and depots stay all.
 */
export function connectedFacts(facts: FleetFacts, unit: string): FleetFacts {
  const connected = new Set([unit]);
  const serials = new Set<string>();
  const naming = [...facts.tests, ...facts.units, ...facts.repairs].filter(({ engineSerial }) => engineSerial !== null);
  // Each round goes one shared engine further.
  for (let known = 0; known < connected.size; ) {
    known = connected.size;
    for (const { unit: one, engineSerial } of naming) if (connected.has(one)) serials.add(engineSerial as string);
    for (const { unit: one, engineSerial } of naming) if (serials.has(engineSerial as string)) connected.add(one);
  }
  const own = <F extends { readonly unit: string }>(all: readonly F[]) =>
    all.filter((fact) => connected.has(fact.unit));
  return {
    ...facts,
    units: own(facts.units),
    tests: own(facts.tests),
    repairs: own(facts.repairs),
    meterReadings: own(facts.meterReadings),
    checks: own(facts.checks),
    judgements: own(facts.judgements),
  };
}
