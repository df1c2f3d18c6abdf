import { type AssessedUnit, type AssessOptions, assessUnit } from "../assess.ts";
import { onScale, roundedReading, unitOf } from "../assessment/rounding.ts";
import { addDays } from "../calendar.ts";
import { worseSign } from "../condition/series.ts";
import { levelQuantilesAhead } from "../projection/fan.ts";
import type { IsoDate } from "../schema/facts.ts";
import type { JudgedMeasure } from "../schema/words.ts";
import type { FleetIndex, SealedReading, SealedTest, UnitHistory } from "../sealing/types.ts";
import { crossingAt, sealedWith } from "./re-assess.ts";
import type { NextTest } from "./types.ts";

/** Days from the as-of date to the test that is thought of. */
const daysAhead = 30;

const noSetUp: SealedTest["setUp"] = {
  orificeMm: null,
  warm: null,
  throttleOpen: null,
  allPlugsOut: null,
  tdcConfirmed: null,
  gaugeZeroed: null,
  crankingRpm: null,
  altitudeM: null,
  barometerKpa: null,
};

/**
 * Adds one test of the measure, a month ahead and at the meter that the unit's use foresees, and assesses the unit anew on
 * that day under the same pools. null: no level of the cylinder is foreseen.
 */
export function nextTestOf(
  index: FleetIndex,
  unit: UnitHistory,
  options: AssessOptions,
  of: { readonly cylinder: number; readonly measure: JudgedMeasure },
): NextTest | null {
  const date = addDays(options.asOf, daysAhead);
  const then = { ...options, asOf: date };
  const plain = assessUnit(index, unit, then);
  const without = crossingAt(plain, of);
  const foreseen = foreseenLevels(plain, of.measure);
  const own = foreseen.get(of.cylinder);
  if (without === null || own === undefined) return null;

  const { history } = plain.state.conditioned;
  const cumulative = plain.xNow - unit.engineOffset;
  const tested: UnitHistory = {
    ...unit,
    meterPoints: [...unit.meterPoints, { date, meter: cumulative - unit.offset, cumulative }],
  };
  const read = (end: keyof Foreseen) => {
    const levels = new Map([...foreseen].map(([cylinder, ends]) => [cylinder, ends[end]]));
    const test = madeUpTest(plain, of.measure, date, levels);
    const assessed = assessUnit(sealedWith(index, { ...history, tests: [...history.tests, test] }), tested, then);
    return { value: own[end], crossing: crossingAt(assessed, of) ?? without };
  };
  return { date, without, asForeseen: read("middle"), better: read("better"), worse: read("worse") };
}

/** The 8 in 10 range of a cylinder's level on the day of an assessment, its better end first, as measured; null: nothing is known of it. */
export function levelRange(
  assessed: AssessedUnit,
  { cylinder, measure }: { readonly cylinder: number; readonly measure: JudgedMeasure },
): Pick<Foreseen, "better" | "worse"> | null {
  return foreseenLevels(assessed, measure).get(cylinder) ?? null;
}

type Foreseen = { readonly better: number; readonly middle: number; readonly worse: number };

/** By cylinder, as measured; cylinders of which nothing is known are not read. */
function foreseenLevels({ state }: AssessedUnit, measure: JudgedMeasure): Map<number, Foreseen> {
  const { cylinders, scale } = state.wear[measure];
  const asMeasured = (badness: number) => roundedReading(measure, onScale(measure, worseSign[measure] * badness));
  return new Map(
    cylinders
      .filter(({ branches }) => branches.length > 0)
      .map(({ cylinder, branches }): [number, Foreseen] => {
        const [low, , middle, , high] = levelQuantilesAhead(branches, scale, 0).map(asMeasured) as Quantiles;
        return [cylinder, { better: low, middle, worse: high }];
      }),
  );
}

type Quantiles = [number, number, number, number, number];

function madeUpTest(
  { unit, xNow, telling }: AssessedUnit,
  measure: JudgedMeasure,
  date: IsoDate,
  levels: ReadonlyMap<number, number>,
): SealedTest {
  const readings = [...levels].map(
    ([cylinder, value]): SealedReading => ({
      cylinder,
      value,
      referralSd: 0,
      roundingSd: 0,
      leakAreaMm2: null,
      firstStrokeShare: null,
      heardAt: [],
      order: null,
      enteredValue: value,
      enteredUnit: unitOf(measure),
      enteredSupply: null,
      remarks: null,
      line: 0,
    }),
  );
  return {
    unit: unit.unit,
    depot: unit.depot,
    date,
    measure,
    attempt: 1,
    instrument: null,
    testedBy: null,
    x: xNow,
    meter: telling.meterNow,
    setUp: noSetUp,
    referral: [],
    readings,
    file: "",
  };
}
