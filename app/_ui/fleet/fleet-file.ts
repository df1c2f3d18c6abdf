import type { FleetRow, WindowDates } from "../../../lib/schema/report.ts";
import type { ColumnId } from "./columns.ts";

type Cell = string | number | null;
/** A heading, which ends in its unit where it has one, and what stands below it. */
type FileColumn = readonly [head: string, cell: (row: FleetRow) => Cell];

const unitColumns: readonly FileColumn[] = [
  ["unit", (row) => row.unit],
  ["depot", (row) => row.depot],
  ["engine_model", (row) => row.engineModel],
];

/** Digits beyond these would tell of nothing. */
const round = (value: number | null): number | null => (value === null ? null : Math.round(value * 1000) / 1000);

const meterUnit: FileColumn = ["meter_unit", (row) => row.meterUnit];

/** Values are those kept: dates ISO 8601, the meter in the unit's own meter unit, probabilities from 0 to 1. */
const fileColumns: Readonly<Record<ColumnId, readonly FileColumn[]>> = {
  band: [["band", (row) => row.band]],
  depot: [],
  model: [["engine_model_name", (row) => row.modelName]],
  class: [["class", (row) => row.unitClass]],
  status: [["status", (row) => row.status]],
  serial: [["engine_serial", (row) => row.engineSerial]],
  engine: [["cylinder_bands", (row) => row.cylinderBands.map((band) => band ?? "never-tested").join(" ")]],
  place: [
    ["weakest_place", (row) => row.placeTitle],
    ["why", (row) => row.placeDetail],
    ["open_questions", (row) => row.questions],
  ],
  "last-test": [
    ["last_test_date", (row) => row.lastTestDate],
    ["test_overdue", (row) => (row.testOverdue ? "yes" : "no")],
  ],
  "next-test": [["next_test_due", (row) => row.nextTestDue]],
  meter: [["meter", (row) => round(row.meter)], meterUnit],
  use: [["use_per_day", (row) => round(row.perDay)], meterUnit],
  "top-chance": [["top_end_probability_within_year", (row) => round(row.topEndChance)]],
  "bottom-chance": [["bottom_end_probability_within_year", (row) => round(row.bottomEndChance)]],
  likely: [],
};

const windowColumns = (part: string, of: (row: FleetRow) => WindowDates): readonly FileColumn[] => [
  [`${part}_status`, (row) => of(row).status],
  [`${part}_early_p10`, (row) => of(row).p10],
  [`${part}_likely_p50`, (row) => of(row).p50],
  [`${part}_late_p90`, (row) => of(row).p90],
  [`${part}_sold_before`, (row) => of(row).soldOn ?? null],
];

/** A unit without tests enough of its own may have windows from its sister engines alone; that must not be taken for more. */
function forecastFrom({ topEnd, bottomEnd }: FleetRow): "tests" | "model" | null {
  const foretold = [topEnd, bottomEnd].filter((dates) => dates.p10 !== null);
  if (foretold.length === 0) return null;
  return foretold.every((dates) => dates.status === "too-few-tests") ? "model" : "tests";
}

/** The lines of the file, the heading first: the unit, the columns chosen, and always both windows. */
export function fleetFile(rows: readonly FleetRow[], chosen: readonly ColumnId[]): readonly (readonly Cell[])[] {
  const all = [
    ...unitColumns,
    ...chosen.flatMap((id) => fileColumns[id]),
    ["forecast_from", forecastFrom] as const,
    ...windowColumns("top_end", (row) => row.topEnd),
    ...windowColumns("bottom_end", (row) => row.bottomEnd),
  ];
  // The meter's unit is told once, whether use, reading or both are chosen.
  const columns = all.filter((column, i) => all.indexOf(column) === i);
  return [columns.map(([head]) => head), ...rows.map((row) => columns.map(([, cell]) => cell(row)))];
}
