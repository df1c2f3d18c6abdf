import type { EngineModel } from "../schema/engine-model.ts";
import type { ReadingFact, SetUp, TestFact } from "../schema/facts.ts";
import type { ValueUnit } from "../schema/words.ts";
import { gaugeKpa, toKpa } from "../units.ts";
import { numberWords } from "../wording.ts";
import { type Ambient, ambientOfTest } from "./ambient.ts";
import { seaLevelAbsKpa } from "./atmosphere.ts";
import { toSeaLevelKpa } from "./compression.ts";
import { type Conversion, conversion, type ReferredLeakage, referLeakage, referralSlope } from "./leak-down.ts";
import { type TesterInUse, testerInUse } from "./orifice.ts";
import { roundingSdOf } from "./rounding.ts";
import type { SealedReading, SealedTest, TestJudgement } from "./types.ts";

/**
 * Share of a compression that an unknown altitude may shift it by, as a standard deviation. Engineering judgement: most
 * depots lie between 0 and 600 m, where pressure is up to 7 % below that of sea level; that span is taken as two
 * standard deviations. It is one and the same error in all tests made at one place.
 */
export const unknownAltitudeSdShare = 0.035;

/** What sealing a test needs beside the test: where it stands in the engine's life, and what it is referred to. */
export interface TestContext {
  readonly x: number;
  readonly repairSameDay: SealedTest["repairSameDay"];
  readonly judgements: readonly TestJudgement[];
  readonly model: EngineModel;
  readonly usual: TesterInUse;
  readonly depot: string | null;
  readonly depotAltitudeM: number | null;
  readonly usualDepotAltitudeM: number | null;
  readonly usualAltitudeM: number | null;
  /** The step that the test's readings in a unit were rounded to. */
  readonly roundingStep: (unit: ValueUnit) => number;
}

/**
 * One test with its readings referred to sea level (compression) or to the model's usual tester (leak-down), ascending by
 * cylinder. A reading that cannot be read (a compression in %, a held pressure without its supply, a cylinder that the
 * model has not) is left out and said so in `referral`; intake refuses such rows, so this is a second net.
 */
export function sealTest(fact: TestFact, context: TestContext): SealedTest {
  const ambient = ambientOfTest({ setUp: fact, ...context });
  const notes: string[] = ambient.doubt === null ? [] : [ambient.doubt];
  const seal =
    fact.test === "leak-down"
      ? leakDownSealer(fact, context, ambient, notes)
      : compressionSealer(context, ambient, notes);
  const readings: SealedReading[] = [];
  for (const reading of fact.readings) {
    const sealed = reading.cylinder <= context.model.cylinders ? seal(reading) : null;
    if (sealed === null) notes.push(`cylinder ${reading.cylinder}: ${reading.value} ${reading.valueUnit} left out`);
    else readings.push(sealed);
  }
  readings.sort((a, b) => a.cylinder - b.cylinder);
  return {
    unit: fact.unit,
    depot: context.depot,
    date: fact.date,
    measure: fact.test,
    attempt: fact.attempt,
    instrument: fact.instrument,
    testedBy: fact.testedBy,
    x: context.x,
    meter: fact.meter,
    ...(context.repairSameDay === undefined ? {} : { repairSameDay: context.repairSameDay }),
    setUp: setUpOf(fact),
    referral: notes.length === 0 ? asEntered : notes,
    readings,
    ...(context.judgements.length === 0 ? {} : { judgements: context.judgements }),
    file: fact.file,
  };
}

const asEntered: readonly string[] = [];

const setUpOf = (fact: TestFact): SetUp => ({
  orificeMm: fact.orificeMm,
  warm: fact.warm,
  throttleOpen: fact.throttleOpen,
  allPlugsOut: fact.allPlugsOut,
  tdcConfirmed: fact.tdcConfirmed,
  gaugeZeroed: fact.gaugeZeroed,
  crankingRpm: fact.crankingRpm,
  altitudeM: fact.altitudeM,
  barometerKpa: fact.barometerKpa,
});

/** In the referral of a compression test that was made nobody knows where. */
export const unknownAltitudeNote = "altitude not known: sea level assumed, with a wider error";

type Sealer = (reading: ReadingFact) => SealedReading | null;

function sealed(
  reading: ReadingFact,
  referred: Pick<SealedReading, "value" | "referralSd" | "roundingSd" | "leakAreaMm2" | "firstStrokeShare">,
): SealedReading {
  return {
    cylinder: reading.cylinder,
    value: referred.value,
    referralSd: referred.referralSd,
    roundingSd: referred.roundingSd,
    leakAreaMm2: referred.leakAreaMm2,
    firstStrokeShare: referred.firstStrokeShare,
    heardAt: reading.heardAt,
    order: reading.order,
    enteredValue: reading.value,
    enteredUnit: reading.valueUnit,
    enteredSupply: reading.supply,
    remarks: reading.remarks,
    line: reading.line,
  };
}

function compressionSealer({ roundingStep }: TestContext, ambient: Ambient, notes: string[]): Sealer {
  if (!ambient.known) notes.push(unknownAltitudeNote);
  else if (ambient.absKpa !== seaLevelAbsKpa) notes.push(`referred from ${ambient.place} to sea level`);
  const sdShare = ambient.known ? 0 : unknownAltitudeSdShare;
  return (reading) => {
    if (reading.valueUnit === "%" || !(reading.value >= 0)) return null;
    const { valueUnit } = reading;
    const value = toSeaLevelKpa(toKpa(reading.value, valueUnit), ambient.absKpa);
    const step = toSeaLevelKpa(toKpa(roundingStep(valueUnit), valueUnit), ambient.absKpa);
    const firstStrokeShare =
      reading.firstStroke !== null && reading.value > 0 ? reading.firstStroke / reading.value : null;
    return sealed(reading, {
      value,
      referralSd: sdShare * value,
      roundingSd: roundingSdOf(step),
      leakAreaMm2: null,
      firstStrokeShare,
    });
  };
}

function leakDownSealer(
  fact: TestFact,
  { usual, roundingStep }: TestContext,
  ambient: Ambient,
  notes: string[],
): Sealer {
  const orificeMm = fact.orificeMm !== null && fact.orificeMm > 0 ? fact.orificeMm : usual.orificeMm;
  const inUse = (supplyKpa: number) => testerInUse({ orificeMm, supplyKpa, ambientAbsKpa: ambient.absKpa });
  const atSeaLevel = ambient.absKpa === seaLevelAbsKpa;
  // The readings of one test share their supply, all but always: one tester is made for all of them.
  let by: Conversion | null = null;
  const into: ReferredLeakage = { percent: 0, areaMm2: 0, referralSd: 0 };
  return (reading) => {
    const held = reading.valueUnit === "%" ? null : toKpa(reading.value, reading.valueUnit);
    const supplyKpa = suppliedKpa(reading, usual);
    if (supplyKpa === null) return null;
    const enteredPercent = held === null ? reading.value : 100 * ((supplyKpa - held) / supplyKpa);
    if (!(enteredPercent >= 0 && enteredPercent <= 100)) return null;
    if (by?.tester.supplyKpa !== supplyKpa) {
      by = conversion(inUse(supplyKpa), usual);
      if (!by.isUsual) addOnce(notes, conversionNote(by.tester, usual));
      else if (!atSeaLevel) addOnce(notes, `leak area at ${ambient.place}, referred to sea level`);
    }
    referLeakage(into, enteredPercent, by);
    const step = roundingStep(reading.valueUnit);
    const stepPercent = reading.valueUnit === "%" ? step : (100 * toKpa(step, reading.valueUnit)) / supplyKpa;
    return sealed(reading, {
      value: into.percent,
      referralSd: into.referralSd,
      roundingSd: roundingSdOf(stepPercent) * referralSlope(enteredPercent, by),
      leakAreaMm2: into.areaMm2,
      firstStrokeShare: null,
    });
  };
}

/** Supply of a leak-down reading, kPa gauge; null: not told where it must be, or impossible. */
function suppliedKpa(reading: ReadingFact, usual: TesterInUse): number | null {
  const { supply, valueUnit } = reading;
  if (supply === null) return valueUnit === "%" ? usual.supplyKpa : null;
  if (!(supply > 0)) return null;
  return valueUnit === "%" ? gaugeKpa(supply) : toKpa(supply, valueUnit);
}

const conversionNote = (tester: TesterInUse, usual: TesterInUse) =>
  `referred from a ${tester.orificeMm} mm tester at ${numberWords(tester.supplyKpa)} kPa ` +
  `to ${usual.orificeMm} mm at ${numberWords(usual.supplyKpa)} kPa, with a wider error`;

function addOnce(notes: string[], note: string): void {
  if (!notes.includes(note)) notes.push(note);
}
