import { z } from "zod";
import { longestName } from "./longest-name.ts";
import { measures, meterUnits, places, valueUnits } from "./words.ts";

/**
 * One test as a person entered it on a test sheet, in the shape in which the page sends it. What was not told or not
 * confirmed is null. Whether its figures are possible, intake judges, as it does for files.
 */

const name = z.string().trim().min(1).max(longestName);
const told = z.boolean().nullable();
const figure = z.number().nullable();
/** A line of remarks; with those of the set-up it stays below the longest text that a row may hold. */
const remarks = z.string().trim().max(1_000).nullable();

/** Readings of one cylinder that a sheet takes: nobody measures it more often in one go. */
export const mostReadings = 9;
const mostCylinders = 16;

export const testDraftSchema = z.object({
  /** Made up by the device when the sheet was begun: by it a second sending is told from another test. */
  id: z.string().regex(/^[0-9a-f]{24}$/),
  unit: name,
  depot: name.nullable(),
  test: z.enum(measures),
  date: z.iso.date(),
  meter: z.number(),
  meterUnit: z.enum(meterUnits),
  valueUnit: z.enum(valueUnits),
  /** As in the files: in `valueUnit` for a held pressure, in kPa with `%`. */
  supply: figure,
  orificeMm: figure,
  crankingRpm: figure,
  instrument: name.nullable(),
  testedBy: name.nullable(),
  setUp: z.object({
    warm: told,
    throttleOpen: told,
    allPlugsOut: told,
    tdcConfirmed: told,
    gaugeZeroed: told,
    batterySupported: told,
    fuelAndIgnitionOff: told,
    crankshaftHeld: told,
  }),
  remarks,
  /** In the order in which they were taken. */
  readings: z
    .array(
      z.object({
        cylinder: z.number().int().min(1).max(mostCylinders),
        value: z.number(),
        firstStroke: figure,
        heardAt: z.array(z.enum(places)).max(places.length),
        remarks,
        /** What the sheet asked about it before it was kept, in plain words. */
        asked: z.array(z.string().max(300)).max(5),
      }),
    )
    .min(1)
    .max(mostReadings * mostCylinders),
});

export type TestDraft = z.infer<typeof testDraftSchema>;
export type DraftSetUp = TestDraft["setUp"];
