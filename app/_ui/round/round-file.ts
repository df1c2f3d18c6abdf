import type { CsvCell } from "../../../lib/outtake/csv.ts";
import type { RoundReason } from "../../../lib/round/reasons.ts";
import type { LastValues, RoundEntry } from "../../../lib/round/round-entry.ts";
import type { JudgedMeasure } from "../../../lib/schema/words.ts";

const measures = ["leak-down", "compression-dry"] as const satisfies readonly JudgedMeasure[];

/** The heading of a round's file. Dates are ISO 8601, the meter is in the unit's own meter unit, values are as entered. */
export const roundFileHead: readonly string[] = [
  "unit",
  "depot",
  "engine_model",
  "status",
  "band",
  "due",
  "overdue",
  "why",
  "due_at_meter",
  "asked",
  "meter",
  "meter_unit",
  "tests",
  "last_test",
  ...measures.flatMap((measure) => {
    const name = measure.replaceAll("-", "_");
    return [`${name}_date`, `${name}_last`, `${name}_unit`, `${name}_supply`];
  }),
  "hours",
];

export const roundFileLine = (entry: RoundEntry): readonly CsvCell[] => [
  entry.unit,
  entry.depot,
  entry.modelName,
  entry.status,
  entry.band,
  entry.due,
  entry.overdue ? "yes" : "no",
  entry.reasons.map(({ kind }) => kind).join(" "),
  entry.reasons.map(meterOf).find((meter) => meter !== null) ?? null,
  entry.reasons.flatMap((reason) => (reason.kind === "question" ? [reason.words] : [])).join("; "),
  Math.round(entry.meter),
  entry.meterUnit,
  entry.tests.join(" "),
  entry.lastTestDate,
  ...measures.flatMap((measure) => lastCells(entry.last.find((last) => last.measure === measure))),
  Math.round(entry.hours * 100) / 100,
];

const meterOf = (reason: RoundReason): number | null =>
  reason.kind === "interval" && reason.meter !== null ? Math.round(reason.meter) : null;

/** Values in the order of the cylinders, each with its number; the unit of the first, and every other that is not that. */
function lastCells(last: LastValues | undefined): readonly CsvCell[] {
  if (last === undefined) return [null, null, null, null];
  const inOrder = last.entered.toSorted((a, b) => a.cylinder - b.cylinder);
  const units = [...new Set(inOrder.map(({ valueUnit }) => valueUnit))];
  const supplies = [...new Set(inOrder.flatMap(({ supply }) => supply ?? []))];
  const value = ({ cylinder, value, valueUnit }: (typeof inOrder)[number]) =>
    `${cylinder}: ${value}${units.length > 1 ? ` ${valueUnit}` : ""}`;
  return [last.date, inOrder.map(value).join("; "), units.join(" "), supplies.join(" ")];
}
