import type {
  FieldColumn,
  FileField,
  Layout,
  LayoutColumn,
  LayoutField,
  ReadingColumn,
} from "../../../lib/layout/layout.ts";
import { columnFields } from "./layout-words.ts";

/** Changes of a layout in its form: each gives a new one, as the form's fields are chosen. */

/** What a column is, as one choice: `ignored`, `reading`, or the name of a field. */
export type ColumnIs = "ignored" | "reading" | LayoutField;

export const columnIs = (column: LayoutColumn): ColumnIs => (column.is === "field" ? column.field : column.is);

export const isColumnIs = (text: string): text is ColumnIs =>
  text === "ignored" || text === "reading" || columnFields.some((field) => field === text);

/** The column as another thing; cylinder, measure and unit stay where the new one has them too. */
function columnAs(column: LayoutColumn, is: ColumnIs): LayoutColumn {
  const { header } = column;
  const { cylinder = null, measure = null, unit = null } = column.is === "ignored" ? {} : column;
  if (is === "ignored") return { header, is };
  if (is === "reading") return { header, is, cylinder, measure, unit };
  const carriedDown = column.is === "field" && column.carriedDown;
  return {
    header,
    is: "field",
    field: is,
    cylinder: is === "cylinder" ? null : cylinder,
    measure,
    unit: hasUnit(is) ? unit : null,
    carriedDown,
  };
}

/** Fields whose figures have a unit of pressure of their own. */
export const hasUnit = (is: ColumnIs): boolean => is === "reading" || is === "supply" || is === "first_stroke";

const withColumn = (layout: Layout, index: number, change: (column: LayoutColumn) => LayoutColumn): Layout => ({
  ...layout,
  columns: layout.columns.map((column, i) => (i === index ? change(column) : column)),
});

/** What a whole-file value tells stands in one place alone: a column chosen for it takes its place. */
export function setColumn(layout: Layout, index: number, is: ColumnIs): Layout {
  const { [is as FileField]: _told, ...constants } = layout.constants;
  const title = layout.title.filter(({ field }) => field !== is);
  return { ...withColumn(layout, index, (column) => columnAs(column, is)), constants, title };
}

/** Sets cylinder, measure or unit of a column that is not ignored. */
export const refineColumn = (
  layout: Layout,
  index: number,
  more: Partial<Pick<ReadingColumn, "cylinder" | "measure" | "unit">> & Partial<Pick<FieldColumn, "carriedDown">>,
): Layout =>
  withColumn(layout, index, (column) => {
    if (column.is === "ignored") return column;
    if (column.is === "reading") {
      const { carriedDown: _none, ...rest } = more;
      return { ...column, ...rest };
    }
    return { ...column, ...more };
  });

/** A value for the whole file; blank takes it away. */
export function setConstant(layout: Layout, field: FileField, value: string): Layout {
  const { [field]: _before, ...others } = layout.constants;
  return { ...layout, constants: value === "" ? others : { ...others, [field]: value } };
}

/** Fields that the form asks for the whole file: what no column and no line of the title block tells. */
export const askedForFile = [
  "unit",
  "test_date",
  "meter",
  "meter_unit",
  "test",
  "value_unit",
  "engine_model",
  "supply",
] as const;

/** Which of them nothing in the file tells. A kind of test or a unit that stands at every reading is told. */
export function openForFile(layout: Layout): readonly (typeof askedForFile)[number][] {
  const readings = layout.columns.filter((column) => column.is === "reading");
  return askedForFile.filter((field) => {
    const isTold =
      layout.columns.some((column) => column.is === "field" && column.field === field) ||
      layout.title.some((entry) => entry.field === field);
    if (isTold) return false;
    if (field === "test") return readings.some(({ measure }) => measure === null);
    if (field === "value_unit") return readings.some(({ unit }) => unit === null);
    return true;
  });
}
