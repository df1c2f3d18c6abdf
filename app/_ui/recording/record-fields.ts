import { z } from "zod";
import { checkFieldsSchema } from "./check-form.ts";
import { correctionFieldsSchema } from "./correction-fields.ts";
import { disposalFieldsSchema } from "./disposal-form.ts";
import { engineFieldsSchema } from "./engine-form.ts";
import { meterFieldsSchema, newMeterFieldsSchema } from "./meter-form.ts";
import { repairFieldsSchema } from "./repair-form.ts";
import { statusFieldsSchema } from "./status-form.ts";
import { judgementFieldsSchema } from "./test-form.ts";

/** What a person wants to record of a unit: one of the forms of this folder, as it was typed. */
export const askedRecordSchema = z.object({
  unit: z.string().min(1).max(400),
  fields: z.discriminatedUnion("what", [
    repairFieldsSchema,
    checkFieldsSchema,
    meterFieldsSchema,
    newMeterFieldsSchema,
    engineFieldsSchema,
    statusFieldsSchema,
    disposalFieldsSchema,
    judgementFieldsSchema,
    correctionFieldsSchema,
  ]),
});
export type AskedRecord = z.infer<typeof askedRecordSchema>;
export type RecordFields = AskedRecord["fields"];
