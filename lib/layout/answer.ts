import { dateOrders, decimalSigns, type FileField, type Layout, type LayoutColumn, layoutSchema } from "./layout.ts";
import type { Question } from "./suggestion.ts";

/** Questions whose answer stands for the whole file. */
const constantOf: Partial<Record<Question["code"], FileField>> = {
  unit: "unit",
  "test-date": "test_date",
  meter: "meter",
  "meter-unit": "meter_unit",
  test: "test",
  supply: "supply",
};

/**
 * The layout with the answer to one of its questions: a choice, or a text where none is offered. Questions that ask for
 * columns to be mapped by hand have no such answer: null, as for an answer that the layout cannot take.
 */
export function answered(layout: Layout, { code, columns, choices }: Question, value: string): Layout | null {
  const choice = choices.find((offered) => offered.value === value);
  if (choices.length > 0 && choice === undefined) return null;
  const changed = (more: Partial<Layout>): Layout | null => {
    const parsed = layoutSchema.safeParse({ ...layout, ...more });
    return parsed.success ? parsed.data : null;
  };
  const withUnit = (column: LayoutColumn, i: number): unknown =>
    columns.includes(i) && column.is !== "ignored" ? { ...column, unit: value } : column;
  if (code === "date-order" || code === "dates-contradict" || code === "dates-turned") {
    return changed({ dateOrder: dateOrders.find((order) => order === value) ?? null });
  }
  if (code === "decimal-sign" || code === "numbers-contradict") {
    return changed({ decimalSign: decimalSigns.find((sign) => sign === value) ?? null });
  }
  if (code === "value-unit" || code === "supply-unit")
    return changed({ columns: layout.columns.map(withUnit) as LayoutColumn[] });
  if (choice?.becomes !== undefined) {
    const { columns: becoming, constants } = choice.becomes;
    const columnsThen = layout.columns.map((old, i) => becoming.find(({ index }) => index === i)?.is ?? old);
    return changed({ columns: columnsThen, constants: { ...layout.constants, ...constants } });
  }
  const field = constantOf[code];
  return field === undefined || value.trim() === ""
    ? null
    : changed({ constants: { ...layout.constants, [field]: value.trim() } });
}
