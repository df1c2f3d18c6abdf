import { z } from "zod";
import type { JudgementFact, TestFact } from "../../../lib/schema/facts.ts";
import { isOfCylinder, measures, verdicts } from "../../../lib/schema/words.ts";
import { fieldReader, type ReadRecord, type RecordContext, typed } from "./fields.ts";

/** Which test the form is about, and what stood of it when it was shown (`seenOf`). */
export const namedTest = {
  date: z.iso.date(),
  test: z.enum(measures),
  attempt: z.int().min(1),
  instrument: z.string().max(400).nullable(),
  seen: z.string().max(100),
};

/** What a person makes of a test, or of one cylinder's reading of it. */
export const judgementFieldsSchema = z.object({
  what: z.literal("judgement"),
  ...namedTest,
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
  else if (cylinder === null && isOfCylinder(verdict)) read.refuse("cylinder", "Say in which cylinder.");
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
