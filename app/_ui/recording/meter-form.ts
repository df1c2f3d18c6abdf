import { z } from "zod";
import type { MeterFact } from "../../../lib/schema/facts.ts";
import { fieldReader, most, type ReadRecord, type RecordContext, typed } from "./fields.ts";

type Reading = Omit<MeterFact, "file" | "line">;

export const meterFieldsSchema = z.object({ what: z.literal("meter"), date: typed, meter: typed });
export type MeterFields = z.infer<typeof meterFieldsSchema>;

/** The reading that the form tells, or why each field is not taken. */
export function readMeter(fields: MeterFields, context: RecordContext): ReadRecord<Reading> {
  const read = fieldReader(context);
  const date = read.date("date", fields.date);
  const meter = read.figure("meter", fields.meter, { most: most.meter, needed: "Give what the meter showed." });
  return read.done(() => ({ unit: context.unit, date, meter: meter ?? 0, meterReset: false }));
}

export const newMeterFieldsSchema = z.object({
  what: z.literal("new-meter"),
  date: typed,
  /** What the old one showed last; empty: not read. */
  last: typed,
  first: typed,
});
export type NewMeterFields = z.infer<typeof newMeterFieldsSchema>;

/** A meter that was replaced, as readings: the last of the old one, where it was read, and the first of the new one. */
export function readNewMeter(fields: NewMeterFields, context: RecordContext): ReadRecord<readonly Reading[]> {
  const read = fieldReader(context);
  const { unit } = context;
  const date = read.date("date", fields.date);
  const last = read.figure("last", fields.last, { most: most.meter });
  const first = read.figure("first", fields.first, {
    most: most.meter,
    needed: "Give what the new meter showed when it was fitted; 0 where it was new.",
  });
  return read.done(() => [
    ...(last === null ? [] : [{ unit, date, meter: last, meterReset: false }]),
    { unit, date, meter: first ?? 0, meterReset: true },
  ]);
}
