import { z } from "zod";
import { longestHeading } from "../schema/reading.ts";
import { longColumns, mostCylinders } from "../schema/rows.ts";
import { measures, valueUnits } from "../schema/words.ts";

/**
 * A layout: how the columns of somebody's own file of test results become the columns of the contract (section 1). It is
 * kept and exported as JSON. One row of the file may give several readings: every column that is a `reading` gives one.
 */

type LongField = keyof typeof longColumns;
/** The contract's columns that a column, the title block or a constant can fill. The reading itself is no field. */
export type LayoutField = Exclude<LongField, "value">;
const layoutFields = Object.keys(longColumns).filter((name): name is LayoutField => name !== "value");

/** Fields that may stand once for the whole file: all but what belongs to a single cylinder. */
const ofOneCylinder: readonly LayoutField[] = ["cylinder", "order", "first_stroke", "heard_at"];
export type FileField = Exclude<LayoutField, "cylinder" | "order" | "first_stroke" | "heard_at">;
export const fileFields = layoutFields.filter((name): name is FileField => !ofOneCylinder.includes(name));

/** What a person says for the whole of one file, and is seldom so in the next one of its headings. */
export const fieldsOfOneFile = ["unit", "test_date", "meter"] as const satisfies readonly FileField[];

export const dateOrders = ["day-first", "month-first", "year-first"] as const;
export const decimalSigns = [".", ","] as const;

export const mostColumns = 1_000;

const fieldSchema = z.enum(layoutFields);
const fileFieldSchema = z.enum(fileFields);
const cylinderSchema = z.int().min(1).max(mostCylinders).nullable().default(null);
const measureSchema = z.enum(measures).nullable().default(null);
const valueUnitSchema = z.enum(valueUnits).nullable().default(null);
/** The decimal sign of this column's own numbers; absent: that of the file. */
const ownSignSchema = z.enum(decimalSigns).optional();
/** The heading as the file spells it; of a header of two rows both parts, with a blank between. */
const headerSchema = z.string().max(longestHeading);

const columnSchema = z.discriminatedUnion("is", [
  z.strictObject({ header: headerSchema, is: z.literal("ignored") }),
  z.strictObject({
    header: headerSchema,
    is: z.literal("reading"),
    /** null: the field `test` of the row or of the file tells. */
    measure: measureSchema,
    /** null: the field `cylinder` of the row tells (one row a cylinder). */
    cylinder: cylinderSchema,
    /** null: the cell, or the field `value_unit` of the row or the file, tells. A unit in the cell goes before this one. */
    unit: valueUnitSchema,
    decimalSign: ownSignSchema,
  }),
  z.strictObject({
    header: headerSchema,
    is: z.literal("field"),
    field: fieldSchema,
    /** Holds for the readings of this cylinder only; null: for all of the row. */
    cylinder: cylinderSchema,
    /** Holds for the readings of this measure only; null: for all of the row. */
    measure: measureSchema,
    /** Of a supply or a first stroke: the unit it is in; null: that of the reading beside it. */
    unit: valueUnitSchema,
    /** A blank cell means what stands above it, as long as the cylinders count up (merged cells). */
    carriedDown: z.boolean().default(false),
    decimalSign: ownSignSchema,
  }),
]);

export const layoutSchema = z
  .strictObject({
    layoutVersion: z.literal(1),
    /** Rows that the headings take. What stands above them is a title block and is passed over, however long it is. */
    headerRows: z.union([z.literal(1), z.literal(2)]),
    /** Every column of the file, in its order. They are found by their headings, so a file may have them in another. */
    columns: z.array(columnSchema).min(1).max(mostColumns),
    /** What the title block says, to be read anew from each file: what stands after `label` fills `field`. */
    title: z
      .array(z.strictObject({ label: z.string().min(1).max(longestHeading), field: fileFieldSchema }))
      .default([]),
    /** What holds for every row of such a file, as the contract writes it. */
    constants: z.partialRecord(fileFieldSchema, z.string().min(1).max(longestHeading)).default({}),
    /** Order of day, month and year where figures alone tell the date; null: not known, so dates that it matters to are refused. */
    dateOrder: z.enum(dateOrders).nullable().default(null),
    /** Where a column has none of its own; null: not known, so numbers that it matters to are refused. */
    decimalSign: z.enum(decimalSigns).nullable().default(null),
  })
  .superRefine((layout, context) => {
    for (const { path, message } of contradictionsOf(layout)) context.addIssue({ code: "custom", path, message });
  });

export type Layout = z.infer<typeof layoutSchema>;
export type LayoutColumn = Layout["columns"][number];
export type ReadingColumn = Extract<LayoutColumn, { is: "reading" }>;
export type FieldColumn = Extract<LayoutColumn, { is: "field" }>;
export type DateOrder = NonNullable<Layout["dateOrder"]>;
export type DecimalSign = NonNullable<Layout["decimalSign"]>;

type Contradiction = { readonly path: (string | number)[]; readonly message: string };

/** Two sources for one thing: nothing would tell which of them counts. Messages end a sentence about the path. */
function contradictionsOf(layout: {
  readonly columns: readonly z.infer<typeof columnSchema>[];
  readonly title: readonly { readonly field: FileField }[];
  readonly constants: Partial<Record<FileField, string>>;
}): readonly Contradiction[] {
  const found: Contradiction[] = [];
  const taken = new Map<string, number>();
  const forWholeRow = new Set<string>();
  for (const [index, column] of layout.columns.entries()) {
    if (column.is === "ignored") continue;
    const { cylinder, measure } = column;
    const key = JSON.stringify([column.is === "field" ? column.field : null, cylinder, measure]);
    const first = taken.get(key);
    if (first === undefined) taken.set(key, index);
    else found.push({ path: ["columns", index], message: sameAs(layout.columns, first) });
    if (column.is === "field" && cylinder === null && measure === null) forWholeRow.add(column.field);
    if (column.is === "field" && column.field === "cylinder" && cylinder !== null) {
      found.push({
        path: ["columns", index, "cylinder"],
        message: "must be null for the column that names the cylinder",
      });
    }
  }
  const inTitle = new Set<string>();
  for (const [index, { field }] of layout.title.entries()) {
    if (forWholeRow.has(field) || inTitle.has(field)) {
      found.push({ path: ["title", index], message: `tells ${field}, which another part of the layout tells` });
    }
    inTitle.add(field);
  }
  for (const field of Object.keys(layout.constants)) {
    if (forWholeRow.has(field) || inTitle.has(field)) {
      found.push({ path: ["constants", field], message: "is told by another part of the layout" });
    }
  }
  return found;
}

/** Columns may have the same heading, so the number is told as well. */
const sameAs = (columns: readonly { readonly header: string }[], first: number): string => {
  const heading = columns[first]?.header.trim() ?? "";
  return `tells the same as column ${first + 1}${heading === "" ? "" : `, "${heading}"`}`;
};

/** How the figures of a column are to be read by a layout. */
export const formsOf = (
  { dateOrder, decimalSign }: Pick<Layout, "dateOrder" | "decimalSign">,
  column: FieldColumn | ReadingColumn,
) => ({ dateOrder, decimalSign: column.decimalSign ?? decimalSign });

/** What a layout still lacks before rows can be read by it. */
export type LayoutGap =
  | "readings"
  | "unit"
  | "test_date"
  | "meter"
  | "meter_unit"
  | "test"
  | "cylinder"
  | "value_unit"
  | "supply";

/**
 * What no row of a file can tell by this layout, in the contract's order; empty: it is complete. A gap of `value_unit`,
 * `meter_unit` or `supply` closes by itself where the cells carry it (`175psi`, `4180 h`, `76/80`).
 */
export function gapsOf(layout: Layout): readonly LayoutGap[] {
  const readings = layout.columns.filter((column) => column.is === "reading");
  if (readings.length === 0) return ["readings"];
  const told = (field: LayoutField) =>
    Object.hasOwn(layout.constants, field) ||
    layout.title.some((entry) => entry.field === field) ||
    layout.columns.some((column) => column.is === "field" && column.field === field);
  const held = readings.some(({ measure, unit }) => measure === "leak-down" && unit !== null && unit !== "%");
  const isGap: Record<Exclude<LayoutGap, "readings">, boolean> = {
    unit: !told("unit"),
    test_date: !told("test_date"),
    meter: !told("meter"),
    meter_unit: !told("meter_unit"),
    test: readings.some(({ measure }) => measure === null) && !told("test"),
    cylinder: readings.some(({ cylinder }) => cylinder === null) && !told("cylinder"),
    value_unit: readings.some(({ unit }) => unit === null) && !told("value_unit"),
    supply: held && !told("supply"),
  };
  return (Object.keys(isGap) as (keyof typeof isGap)[]).filter((gap) => isGap[gap]);
}
