import type { EngineModel } from "../schema/engine-model.ts";
import type { IsoDate } from "../schema/facts.ts";
import type { TestLine, UnitReport } from "../schema/report.ts";
import { type Measure, type MeterUnit, measures, type PressureUnit, type ValueUnit } from "../schema/words.ts";
import { isAltitude } from "../sealing/ambient.ts";
import { seaLevelAbsKpa, seaLevelShare } from "../sealing/atmosphere.ts";
import { leakAreaMm2, leakagePercent, testerInUse } from "../sealing/orifice.ts";
import { toKpa } from "../units.ts";
import { offersWetTest } from "./set-up.ts";

/** What a sheet knows of the engine before anything is measured. All of it can be sent to a browser as JSON. */
export interface SheetFacts {
  readonly unit: string;
  readonly depot: string | null;
  readonly modelName: string;
  readonly fuel: string | null;
  readonly layout: EngineModel["layout"];
  readonly aircraft: boolean;
  readonly cylinders: number;
  readonly meter: { readonly value: number; readonly unit: MeterUnit };
  /** The kinds of test that are offered, the usual ones first. */
  readonly tests: readonly MeasureFacts[];
}

/** Of one kind of test. Levels in kPa, or in % of leakage, as they would read here and now. */
export interface MeasureFacts {
  readonly test: Measure;
  /** Compression when new; null: not known, or leak-down. */
  readonly newKpa: number | null;
  /** Leak-down: the model's usual tester, to which levels are referred. */
  readonly tester: { readonly orificeMm: number; readonly supplyKpa: number } | null;
  /** Leak-down: what the tester of the last test showed, where that was what the cylinders held; null: what they lost. */
  readonly lastHeld: { readonly valueUnit: PressureUnit; readonly supply: number } | null;
  /** What such tests of the unit were made with, each name once, the latest first. */
  readonly instruments: readonly string[];
  readonly byCylinder: readonly CylinderFacts[];
}

export interface CylinderFacts {
  readonly cylinder: number;
  /** The limit in force; null: none, as in a wet test. */
  readonly limit: number | null;
  /** Newest first. */
  readonly last: readonly LastReading[];
}

export interface LastReading {
  readonly date: IsoDate;
  /** As it would read here: compression in the air of the depot, leakage on the usual tester. */
  readonly level: number;
  /** As it was written down. */
  readonly value: number;
  readonly valueUnit: ValueUnit;
  /** false: kept, not used. */
  readonly used: boolean;
}

const lastTold = 3;

/**
 * What the sheet of a unit knows, from its report. `altitudeM`: of the depot where the unit is; null: not known, then, as
 * near sea level, a compression stands as it was read.
 */
export function testSheetFacts(report: UnitReport, { altitudeM }: { readonly altitudeM: number | null }): SheetFacts {
  const { assessment, model } = report;
  const share = shareHere(altitudeM);
  return {
    unit: assessment.unit,
    depot: report.depot,
    modelName: model.name ?? model.id,
    fuel: model.fuel ?? null,
    layout: model.layout,
    aircraft: model.aircraft,
    cylinders: model.cylinders,
    meter: { value: assessment.meter.value, unit: assessment.meter.unit },
    tests: offeredTests(model).map((test) => ({
      test,
      newKpa: test === "leak-down" || model.compression === undefined ? null : model.compression.newKpa * (share ?? 1),
      tester: test === "leak-down" ? usualBore(model) : null,
      lastHeld: test === "leak-down" ? lastHeld(report.tests) : null,
      instruments: instrumentsOf(report.tests, test),
      byCylinder: Array.from({ length: model.cylinders }, (_, i) => ({
        cylinder: i + 1,
        limit: limitOf(report, { test, cylinder: i + 1, share }),
        last: lastReadings(report.tests, { test, cylinder: i + 1, share }),
      })),
    })),
  };
}

/** So near sea level the weather moves a reading more than the altitude does (about 2 %): levels stand as they are. */
const smallestFall = 0.01;

function shareHere(altitudeM: number | null): number | null {
  const share = isAltitude(altitudeM) ? seaLevelShare(altitudeM) : 1;
  return Math.abs(1 - share) < smallestFall ? null : share;
}

const usualBore = ({ leakDown }: EngineModel) => ({
  orificeMm: leakDown?.orificeMm ?? 1.016,
  supplyKpa: leakDown?.supplyKpa ?? 550,
});

/** What the model is judged on comes first; the other kinds may be recorded as well. */
function offeredTests(model: EngineModel): readonly Measure[] {
  const isJudged = (test: Measure) =>
    test === "leak-down" ? model.leakDown !== undefined : test === "compression-dry" && model.compression !== undefined;
  return measures
    .filter((test) => test !== "compression-wet" || offersWetTest(model))
    .toSorted((a, b) => Number(isJudged(b)) - Number(isJudged(a)));
}

const newestFirst = (tests: readonly TestLine[], test: Measure): readonly TestLine[] =>
  tests
    .filter(({ measure }) => measure === test)
    .toSorted((a, b) => b.date.localeCompare(a.date) || b.attempt - a.attempt);

function lastHeld(tests: readonly TestLine[]): MeasureFacts["lastHeld"] {
  const first = newestFirst(tests, "leak-down")[0]?.entered[0];
  if (first === undefined || first.valueUnit === "%" || first.supply === null) return null;
  return { valueUnit: first.valueUnit, supply: first.supply };
}

const instrumentsTold = 8;

const instrumentsOf = (tests: readonly TestLine[], test: Measure): readonly string[] =>
  [...new Set(newestFirst(tests, test).flatMap(({ instrument }) => instrument ?? []))].slice(0, instrumentsTold);

interface Of {
  readonly test: Measure;
  readonly cylinder: number;
  /** Of sea level's air pressure here; null: not known, or all of it. */
  readonly share: number | null;
}

function limitOf({ assessment }: UnitReport, { test, cylinder, share }: Of): number | null {
  const measured = assessment.cylinders.find((c) => c.cylinder === cylinder)?.measures.find((m) => m.measure === test);
  if (measured?.limit == null) return null;
  return test === "leak-down" ? measured.limit : measured.limit * (share ?? 1);
}

function lastReadings(tests: readonly TestLine[], { test, cylinder, share }: Of): readonly LastReading[] {
  return newestFirst(tests, test)
    .flatMap(({ date, entered }) => {
      const of = entered.find((reading) => reading.cylinder === cylinder);
      if (of === undefined) return [];
      const { value, valueUnit } = of;
      const asRead = test === "leak-down" || valueUnit === "%" ? of.referred : toKpa(value, valueUnit);
      const level = test === "leak-down" || share === null ? asRead : of.referred * share;
      return [{ date, level, value, valueUnit, used: of.weight > 0 }];
    })
    .slice(0, lastTold);
}

/** A leakage on the usual tester as another one would show it, at sea level: what altitude does to it is not worth telling. */
export function onTester(
  percent: number,
  usual: NonNullable<MeasureFacts["tester"]>,
  tester: { readonly orificeMm: number | null; readonly supplyKpa: number | null },
): number {
  const here = {
    orificeMm: tester.orificeMm ?? usual.orificeMm,
    supplyKpa: tester.supplyKpa ?? usual.supplyKpa,
  };
  if (here.orificeMm === usual.orificeMm && here.supplyKpa === usual.supplyKpa) return percent;
  const inAir = { ambientAbsKpa: seaLevelAbsKpa };
  return leakagePercent(testerInUse({ ...here, ...inAir }), leakAreaMm2(testerInUse({ ...usual, ...inAir }), percent));
}
