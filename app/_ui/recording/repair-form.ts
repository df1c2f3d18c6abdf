import { z } from "zod";
import type { CylinderFinding, RepairFact } from "../../../lib/schema/facts.ts";
import { type Cause, causes } from "../../../lib/schema/words.ts";
import { scopesToRecord } from "./choices.ts";
import { fieldReader, most, type ReadRecord, type RecordContext, readTook, tookFields, typed } from "./fields.ts";

/** The form of a repair: everything as it was typed. Lists go by cylinder, from 1. */
export const repairFieldsSchema = z.object({
  what: z.literal("repair"),
  date: typed,
  meter: typed,
  scope: z.enum(["", ...scopesToRecord]),
  cylinders: z.array(z.boolean()).max(16),
  /** `null`: not opened or not looked at; no cause: found sound. */
  findings: z.array(z.array(z.enum(causes)).nullable()).max(16),
  ...tookFields,
});
export type RepairFields = z.infer<typeof repairFieldsSchema>;

/** The repair that the form tells, or why each field is not taken. */
export function readRepair(
  fields: RepairFields,
  context: RecordContext,
): ReadRecord<Omit<RepairFact, "file" | "line">> {
  const read = fieldReader(context);
  const date = read.date("date", fields.date);
  const meter = read.figure("meter", fields.meter, { most: most.meter, needed: "Give what the meter showed." });
  const { scope } = fields;
  if (scope === "") read.refuse("scope", "Say what was done.");
  const all = Array.from({ length: context.cylinders }, (_, i) => i + 1);
  const chosen = all.filter((cylinder) => fields.cylinders[cylinder - 1] === true);
  if (chosen.length === 0) read.refuse("cylinders", "Choose the cylinders that were worked on.");
  const findings = all.flatMap((cylinder): CylinderFinding[] => {
    const found = fields.findings[cylinder - 1] ?? null;
    return found === null ? [] : [{ cylinder, causes: inOrder(found) }];
  });
  const took = readTook(fields, read);
  return read.done(() => ({
    unit: context.unit,
    date,
    meter: meter ?? 0,
    scope: scope === "" ? "adjustment" : scope,
    cylinders: chosen.length === all.length ? "all" : chosen,
    found: inOrder(findings.flatMap((finding) => finding.causes)),
    findings,
    ...took,
    engineSerial: null,
  }));
}

const inOrder = (found: readonly Cause[]): Cause[] => causes.filter((cause) => found.includes(cause));
