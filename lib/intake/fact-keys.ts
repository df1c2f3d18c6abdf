import type { CheckFact, JudgementFact, MeterFact, RepairFact, TestFact } from "../schema/facts.ts";

/**
 * What tells a fact of one unit from the others of that unit: two rows with the same key tell of the same thing. Told
 * apart is what the store tells apart. Keys of different kinds are never the same.
 */

/** One test = same unit, date, test, attempt and instrument (contract, section 1). */
export const testKey = (test: Pick<TestFact, "unit" | "date" | "test" | "attempt" | "instrument">): string =>
  JSON.stringify(["test", test.unit, test.date, test.test, test.attempt, test.instrument]);

export const repairKey = ({ date, scope, cylinders }: Pick<RepairFact, "date" | "scope" | "cylinders">): string =>
  JSON.stringify(["repair", date, scope, cylinders]);

export const meterKey = ({ date, meterReset }: Pick<MeterFact, "date" | "meterReset">): string =>
  JSON.stringify(["meter", date, meterReset]);

/** The remarks tell what was looked at, so two remarks are two checks. */
export const checkKey = (fact: Pick<CheckFact, "date" | "check" | "cylinder" | "remarks">): string =>
  JSON.stringify(["check", fact.date, fact.check, fact.cylinder, fact.remarks]);

export const judgementKey = (
  fact: Pick<JudgementFact, "date" | "test" | "attempt" | "instrument" | "cylinder">,
): string => JSON.stringify(["judgement", fact.date, fact.test, fact.attempt, fact.instrument, fact.cylinder]);
