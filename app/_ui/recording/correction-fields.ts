import { z } from "zod";
import type { TestFact } from "../../../lib/schema/facts.ts";
import { measures, meterUnits, places, valueUnits } from "../../../lib/schema/words.ts";
import { printed } from "./choices.ts";
import { typed } from "./fields.ts";
import { namedTest } from "./test-form.ts";

const answer = z.enum(["", "yes", "no"]);

/** One reading as it is typed; `heardAt` none: not recorded. */
export const readingFieldsSchema = z.object({
  cylinder: typed,
  value: typed,
  valueUnit: z.enum(valueUnits),
  supply: typed,
  firstStroke: typed,
  heardAt: z.array(z.enum(places)).max(places.length),
  order: typed,
  remarks: typed,
});
export type ReadingFields = z.infer<typeof readingFieldsSchema>;

/** A test told again as it should have been: what names it (`as…`), the rest of it, and its readings. */
export const correctionFieldsSchema = z.object({
  what: z.literal("correction"),
  ...namedTest,
  asUnit: typed,
  asDate: typed,
  asTest: z.enum(measures),
  asAttempt: typed,
  asInstrument: typed,
  meter: typed,
  meterUnit: z.enum(meterUnits),
  depot: typed,
  engineSerial: typed,
  testedBy: typed,
  orificeMm: typed,
  crankingRpm: typed,
  altitudeM: typed,
  barometerKpa: typed,
  warm: answer,
  throttleOpen: answer,
  allPlugsOut: answer,
  tdcConfirmed: answer,
  gaugeZeroed: answer,
  /** By the places of the test's readings. */
  readings: z.array(readingFieldsSchema).max(16),
  reason: typed,
});
export type CorrectionFields = z.infer<typeof correctionFieldsSchema>;

const figureText = (value: number | null): string => (value === null ? "" : printed(value));
const answerText = (value: boolean | null) => (value === null ? "" : value ? "yes" : "no");

/** The fields of a correction as they begin: what stands of the test. `seen`: as `seenOf` tells it. */
export const correctionFieldsOf = (test: TestFact, seen: string): CorrectionFields => ({
  what: "correction",
  date: test.date,
  test: test.test,
  attempt: test.attempt,
  instrument: test.instrument,
  seen,
  asUnit: test.unit,
  asDate: test.date,
  asTest: test.test,
  asAttempt: printed(test.attempt),
  asInstrument: test.instrument ?? "",
  meter: printed(test.meter),
  meterUnit: test.meterUnit,
  depot: test.depot ?? "",
  engineSerial: test.engineSerial ?? "",
  testedBy: test.testedBy ?? "",
  orificeMm: figureText(test.orificeMm),
  crankingRpm: figureText(test.crankingRpm),
  altitudeM: figureText(test.altitudeM),
  barometerKpa: figureText(test.barometerKpa),
  warm: answerText(test.warm),
  throttleOpen: answerText(test.throttleOpen),
  allPlugsOut: answerText(test.allPlugsOut),
  tdcConfirmed: answerText(test.tdcConfirmed),
  gaugeZeroed: answerText(test.gaugeZeroed),
  readings: test.readings.map((reading) => ({
    cylinder: printed(reading.cylinder),
    value: printed(reading.value),
    valueUnit: reading.valueUnit,
    supply: figureText(reading.supply),
    firstStroke: figureText(reading.firstStroke),
    heardAt: [...reading.heardAt],
    order: figureText(reading.order),
    remarks: reading.remarks ?? "",
  })),
  reason: "",
});

/** The readings counted from the other end of an engine of so many cylinders: 1 becomes the last. */
export const fromOtherEnd = (readings: readonly ReadingFields[], cylinders: number): ReadingFields[] =>
  readings.map((reading) => {
    const cylinder = Number(reading.cylinder);
    const isOne = Number.isInteger(cylinder) && cylinder >= 1 && cylinder <= cylinders;
    return isOne ? { ...reading, cylinder: printed(cylinders + 1 - cylinder) } : reading;
  });

/** All readings in another unit, the figures as they stand: the gauge was read right, and its unit written wrong. */
export const readInUnit = (
  readings: readonly ReadingFields[],
  valueUnit: ReadingFields["valueUnit"],
): ReadingFields[] => readings.map((reading) => ({ ...reading, valueUnit }));
