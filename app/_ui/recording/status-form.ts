import { z } from "zod";
import type { UnitFact } from "../../../lib/schema/facts.ts";
import { unitStatuses } from "../../../lib/schema/words.ts";
import { fieldReader, type ReadRecord, type RecordContext, typed } from "./fields.ts";

export const statusFieldsSchema = z.object({
  what: z.literal("status"),
  status: z.enum(["", ...unitStatuses]),
  reason: typed,
});
export type StatusFields = z.infer<typeof statusFieldsSchema>;

type Told = Omit<UnitFact, "file" | "line">;

/** A row of a list of units that tells nothing but what is given. */
export const unitRow = (unit: string, told: Partial<Told>): Told => ({
  unit,
  engineModel: null,
  meterUnit: null,
  depot: null,
  class: null,
  inServiceDate: null,
  inServiceMeter: null,
  engineSerial: null,
  disposalDate: null,
  status: null,
  statusReason: null,
  ...told,
});

/** The unit's new status with its reason, or why a field is not taken. `now`: the status that it has. */
export function readStatus(
  fields: StatusFields,
  context: RecordContext & { readonly now: UnitFact["status"] },
): ReadRecord<Told> {
  const read = fieldReader(context);
  const { status } = fields;
  if (status === "") read.refuse("status", "Say what becomes of the unit.");
  else if (status === (context.now ?? "in-service")) read.refuse("status", "The unit has this status already.");
  const statusReason = read.reason("reason", fields.reason, "Say why: whoever plans the next repair will ask.");
  return read.done(() => unitRow(context.unit, { status: status === "" ? null : status, statusReason }));
}
