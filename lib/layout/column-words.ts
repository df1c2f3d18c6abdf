import { measureWords } from "../wording.ts";
import type { LayoutColumn, LayoutField } from "./layout.ts";

/** Names of the contract's columns in a sentence; those that are left out are their own words. */
const fieldWords: Partial<Record<LayoutField, string>> = {
  engine_model: "engine model",
  test_date: "date of the test",
  meter: "meter reading",
  meter_unit: "unit of the meter",
  test: "which test",
  value_unit: "unit of the readings",
  supply: "supply pressure",
  orifice_mm: "restrictor bore (mm)",
  heard_at: "where air was heard",
  warm: "engine warm",
  throttle_open: "throttle open",
  all_plugs_out: "all plugs out",
  tdc_confirmed: "top dead centre confirmed",
  gauge_zeroed: "gauge zeroed",
  cranking_rpm: "cranking speed (1/min)",
  altitude_m: "altitude (m)",
  barometer_kpa: "air pressure (kPa)",
  first_stroke: "gauge after the first stroke",
  order: "order of testing",
  engine_serial: "serial number of the engine",
  tested_by: "who tested",
  instrument: "gauge or tester",
};

/** "meter reading" */
export const fieldWordsOf = (field: LayoutField): string => fieldWords[field] ?? field;

/** What a column is by a layout: "compression, cylinder 3, in psi", "date of the test", "left out". */
export function columnWords(column: LayoutColumn): string {
  if (column.is === "ignored") return "left out";
  const { measure, cylinder, unit } = column;
  const parts =
    column.is === "reading"
      ? [measure === null ? "reading" : measureWords[measure]]
      : [fieldWordsOf(column.field), measure === null ? "" : `of the ${measureWords[measure]} test`];
  if (cylinder !== null) parts.push(`cylinder ${cylinder}`);
  if (unit !== null) parts.push(`in ${unit}`);
  if (column.is === "field" && column.carriedDown) parts.push("carried down");
  return parts.filter((part) => part !== "").join(", ");
}
