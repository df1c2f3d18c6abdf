import { z } from "zod";
import type { CheckFact } from "../../../lib/schema/facts.ts";
import { longestName } from "../../../lib/schema/longest-name.ts";
import { checkKinds, checkResults } from "../../../lib/schema/words.ts";
import { figureOf, figureProblem } from "../figures.ts";
import { findable } from "./choices.ts";
import { fieldReader, most, type ReadRecord, type RecordContext, typed } from "./fields.ts";

/** The form of other evidence: a look through the plug hole, a clearance, gas in the coolant … */
export const checkFieldsSchema = z.object({
  what: z.literal("check"),
  date: typed,
  meter: typed,
  /** Empty: the engine. */
  cylinder: typed,
  check: z.enum(["", ...checkKinds]),
  result: z.enum(["", ...checkResults]),
  value: typed,
  valueUnit: typed,
  /** What a fault lies in; empty: not told. */
  cause: z.enum(["", ...findable]),
  remarks: typed,
});
export type CheckFields = z.infer<typeof checkFieldsSchema>;

/** The check that the form tells, or why each field is not taken. */
export function readCheck(fields: CheckFields, context: RecordContext): ReadRecord<Omit<CheckFact, "file" | "line">> {
  const read = fieldReader(context);
  const date = read.date("date", fields.date);
  const meter = read.figure("meter", fields.meter, { most: most.meter });
  const cylinder = fields.cylinder === "" ? null : Number(fields.cylinder);
  if (cylinder !== null && !(Number.isInteger(cylinder) && cylinder >= 1 && cylinder <= context.cylinders)) {
    read.refuse("cylinder", `The engine has cylinders 1 to ${context.cylinders}.`);
  }
  const { check, result, cause } = fields;
  if (check === "") read.refuse("check", "Say what was checked.");
  if (result === "") read.refuse("result", "Say what it showed.");
  if (cause !== "" && result !== "fault") read.refuse("cause", "A cause belongs to a fault.");
  const value = figureOf(fields.value, context.sign);
  if (value !== null && !(Math.abs(value) <= 1_000_000_000)) {
    read.refuse("value", figureProblem(fields.value, context.sign) ?? "A figure, or nothing.");
  }
  const valueUnit = read.text("valueUnit", fields.valueUnit);
  if (valueUnit !== null && valueUnit.length > longestName) read.refuse("valueUnit", `At most ${longestName} letters.`);
  if (value !== null && valueUnit === null) read.refuse("valueUnit", "Say in which unit the figure is.");
  const remarks = read.text("remarks", fields.remarks);
  const named = cause === "" ? null : `cause: ${cause}`;
  return read.done(() => ({
    unit: context.unit,
    date,
    meter,
    cylinder,
    check: check === "" ? "borescope" : check,
    result: result === "" ? "clear" : result,
    value,
    valueUnit,
    remarks: named === null || remarks === null ? (named ?? remarks) : `${named}; ${remarks}`,
  }));
}
