import { z } from "zod";
import type { IsoDate, UnitFact } from "../../../lib/schema/facts.ts";
import { fieldReader, type ReadRecord, type RecordContext, typed } from "./fields.ts";
import { unitRow } from "./status-form.ts";

export const disposalFieldsSchema = z.object({ what: z.literal("disposal"), date: typed });
export type DisposalFields = z.infer<typeof disposalFieldsSchema>;

/** So far ahead at most: a later date is a slip of the finger. */
const last = "2199-12-31";

/** The day on which the unit is to leave the fleet, or why it is not taken. `now`: the day planned so far; null: none. */
export function readDisposal(
  { date }: DisposalFields,
  context: RecordContext & { readonly now: IsoDate | null },
): ReadRecord<Omit<UnitFact, "file" | "line">> {
  const read = fieldReader({ ...context, latest: last });
  const disposalDate = read.date("date", date);
  if (disposalDate < context.latest)
    read.refuse("date", "The day has gone by. A unit that has left the fleet is retired: Stop, release, retire.");
  else if (disposalDate === context.now) read.refuse("date", "This day is planned already.");
  return read.done(() => unitRow(context.unit, { disposalDate }));
}
