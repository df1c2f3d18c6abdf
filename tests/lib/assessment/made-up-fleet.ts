import { type AssessedUnit, assessUnit } from "@/lib/assess.ts";
import { type FleetPools, fitPools } from "@/lib/assessment/pools.ts";
import type { EngineModel } from "@/lib/schema/engine-model.ts";
import type { FleetFacts, TestFact } from "@/lib/schema/facts.ts";
import { type AssessmentSettings, settingsSchema } from "@/lib/schema/settings.ts";
import { indexFleet } from "@/lib/sealing/seal.ts";
import type { FleetIndex } from "@/lib/sealing/types.ts";
import { petrol4 as petrolFour } from "../cause/engines.ts";
import { fleet, reading, testFact } from "../sealing/facts.ts";

/** Small fleets through all stages after intake. */

export const petrol4: EngineModel = { ...petrolFour, testInterval: { meter: 20_000, days: 365 } };

export const settings = settingsSchema.parse({});

/** A test at sea level with one value for each cylinder from 1; null: not measured. */
function testOf(
  test: TestFact["test"],
  date: string,
  meter: number,
  values: readonly (number | null)[],
  changes: Partial<TestFact> = {},
): TestFact {
  const valueUnit = test === "leak-down" ? "%" : "kPa";
  const readings = values.flatMap((value, i) =>
    value === null ? [] : [reading({ cylinder: i + 1, value, valueUnit })],
  );
  return testFact({ date, meter, altitudeM: 0, test, readings, ...changes });
}
type Given = [date: string, meter: number, values: readonly (number | null)[], changes?: Partial<TestFact>];
export const leakDown = (...given: Given): TestFact => testOf("leak-down", ...given);
export const dry = (...given: Given): TestFact => testOf("compression-dry", ...given);
export const wet = (...given: Given): TestFact => testOf("compression-wet", ...given);

/** Leak-down tests half a year and 9,000 km apart, the last on 1 June 2026 at 100,000 km; a row of values each. */
export const halfYearly = (
  rows: readonly (readonly (number | null)[])[],
  changes: Partial<TestFact> = {},
): TestFact[] =>
  rows.map((values, i) => {
    const before = rows.length - 1 - i;
    const year = 2026 - Math.ceil(before / 2);
    return leakDown(`${year}-${before % 2 === 0 ? "06" : "12"}-01`, 100_000 - 9000 * before, values, changes);
  });

/** All cylinders alike, from `first` on by `step` each half year. */
export const worn = (count: number, first: number, step: number): number[][] =>
  Array.from({ length: count }, (_, i) => Array(4).fill(first + step * i));

export interface AssessedFleet {
  readonly index: FleetIndex;
  readonly pools: FleetPools;
  readonly units: readonly AssessedUnit[];
}

export function assessedFleet(
  facts: Partial<FleetFacts>,
  given: {
    readonly asOf?: string;
    readonly pools?: FleetPools;
    readonly horizonYears?: number;
    readonly settings?: AssessmentSettings;
  } = {},
): AssessedFleet {
  const { asOf = "2026-06-30", horizonYears = settings.horizonYears } = given;
  const index = indexFleet(fleet({ models: [petrol4], ...facts }), { asOf });
  const pools = given.pools ?? fitPools(index, asOf);
  const options = { asOf, pools, settings: { ...(given.settings ?? settings), horizonYears } };
  return { index, pools, units: index.units.map((unit) => assessUnit(index, unit, options)) };
}

/** One unit of the facts; V-101 unless told otherwise. */
export function assessedUnit(
  facts: Partial<FleetFacts>,
  { unit = "V-101", ...given }: { readonly unit?: string } & Parameters<typeof assessedFleet>[1] = {},
): AssessedUnit {
  const found = assessedFleet(facts, given).units.find((u) => u.unit.unit === unit);
  if (found === undefined) throw new Error(`unit ${unit} is not in the fleet`);
  return found;
}
