import { z } from "zod";
import type { JudgementFact, ReadingFact, TestFact } from "../../../lib/schema/facts.ts";
import { measures, verdicts } from "../../../lib/schema/words.ts";
import { printed } from "./choices.ts";
import { fieldReader, most, type ReadRecord, type RecordContext, typed } from "./fields.ts";

/** Which test the form is about, and its readings as they were shown (`seenOf`). */
const named = {
  date: z.iso.date(),
  test: z.enum(measures),
  attempt: z.int().min(1),
  instrument: z.string().max(400).nullable(),
  seen: z.string().max(5_000),
};

/** What a person makes of a test, or of one cylinder's reading of it. */
export const judgementFieldsSchema = z.object({
  what: z.literal("judgement"),
  ...named,
  /** Empty: the whole test. */
  cylinder: typed,
  verdict: z.enum(["", ...verdicts]),
  reason: typed,
});
export type JudgementFields = z.infer<typeof judgementFieldsSchema>;

type JudgementRow = Omit<JudgementFact, "file" | "line">;

/** The judgement that the form tells, or why each field is not taken. `judged`: what stands of the test. */
export function readJudgement(
  fields: JudgementFields,
  test: TestFact,
  { judged, ...context }: RecordContext & { readonly judged: readonly JudgementFact[] },
): ReadRecord<JudgementRow> {
  const read = fieldReader(context);
  const cylinder = fields.cylinder === "" ? null : Number(fields.cylinder);
  if (cylinder !== null && !test.readings.some((reading) => reading.cylinder === cylinder)) {
    read.refuse("cylinder", "This cylinder was not measured in the test.");
  }
  const before = judged.find((one) => one.cylinder === cylinder)?.verdict ?? "none";
  const { verdict } = fields;
  if (verdict === "") read.refuse("verdict", "Say what becomes of it.");
  else if (verdict === "none" && before === "none")
    read.refuse("verdict", "Nobody judged it, so there is nothing to take back.");
  const reason = read.reason("reason", fields.reason, "Say why: it is kept and shown with the test.");
  return read.done(() => ({
    unit: test.unit,
    date: test.date,
    test: test.test,
    attempt: test.attempt,
    instrument: test.instrument,
    cylinder,
    verdict: verdict === "" ? "none" : verdict,
    reason,
    judgedBy: context.by,
  }));
}

/** A test with other readings: what was misread or mistyped. */
export const correctionFieldsSchema = z.object({
  what: z.literal("correction"),
  ...named,
  meter: typed,
  /** By the places of the test's readings. */
  values: z.array(typed).max(16),
  reason: typed,
});
export type CorrectionFields = z.infer<typeof correctionFieldsSchema>;

/**
 * The test with what is corrected and nothing else, or why each field is not taken. A field that stands as it was printed is
 * read as it was printed, with a point for everybody.
 */
export function readCorrection(fields: CorrectionFields, test: TestFact, context: RecordContext): ReadRecord<TestFact> {
  const read = fieldReader(context);
  const figure = (field: string, text: string, before: number, highest: number, needed: string): number =>
    text === printed(before) ? before : (read.figure(field, text, { most: highest, needed }) ?? before);
  const meter = figure("meter", fields.meter, test.meter, most.meter, "Give what the meter showed.");
  const readings = test.readings.flatMap((reading, place): ReadingFact[] => {
    const highest = reading.valueUnit === "%" ? 100 : 1_500_000;
    const text = fields.values[place] ?? printed(reading.value);
    const needed = "Give the reading. One that was not made is set aside, not blanked.";
    const value = figure(`values.${place}`, text, reading.value, highest, needed);
    return value === reading.value ? [] : [{ ...reading, value }];
  });
  if (Object.keys(read.problems).length === 0 && readings.length === 0 && meter === test.meter) {
    read.refuse("reason", "Nothing was changed yet: correct a reading or the meter above.");
  }
  read.reason("reason", fields.reason, "Say why: it is kept and shown with the test.");
  // The meter is the test's, and a test has to have a reading to be told.
  const kept = readings.length === 0 ? test.readings.slice(0, 1) : readings;
  return read.done(() => ({ ...test, meter, readings: kept }));
}
